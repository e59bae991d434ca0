//! Values that are lists.

use toml::de::DeValue;

use super::Value;
use crate::diag::Problem;
use crate::number::Number;
use crate::spec::limits::{self, grouped};
use crate::spec::log::Log;
use crate::spec::types::Given;

impl Value<'_> {
    /// The items of a list.
    pub(in crate::spec) fn list(&self, log: &mut Log, of: &str) -> Option<Vec<Self>> {
        let DeValue::Array(items) = self.inner else {
            self.mistaken(log, "a list", &format!("expected {of} in square brackets"));
            return None;
        };
        if items.len() > limits::LIST {
            let problem = Problem::new(format!("`{}` lists {} items", self.name, grouped(items.len() as u64)));
            log.error(self.key.clone(), problem.hint(format!("expected at most {}", grouped(limits::LIST as u64))));
            return None;
        }
        Some(items.iter().map(|item| Self::new(self.name.clone(), self.key.clone(), item)).collect())
    }

    /// A list of numbers; wrong items are reported and left out.
    pub(in crate::spec) fn numbers(&self, log: &mut Log) -> Vec<Given<Number>> {
        let items = self.list(log, "numbers").unwrap_or_default();
        items.iter().filter_map(|item| item.number(log)).collect()
    }

    /// A list of words, none twice; wrong items are reported and left out.
    pub(in crate::spec) fn words<T: Copy + PartialEq>(
        &self,
        log: &mut Log,
        words: &[&'static str],
        find: impl Fn(&str) -> Option<T>,
    ) -> Option<Given<Vec<T>>> {
        let mut values: Vec<Given<T>> = Vec::new();
        for item in self.list(log, "words")? {
            let Some(given) = item.one_of(log, words, &find) else { continue };
            if let Some(first) = values.iter().find(|v| v.value == given.value) {
                let problem =
                    Problem::new(format!("`{}` lists `{}` twice", self.name, item.inner.as_str().unwrap_or("")))
                        .hint("keep one of them");
                let first = (first.span(), "first listed here".to_owned());
                log.clash(item.span(), problem, vec![first]);
            } else {
                values.push(given);
            }
        }
        Some(Given::read(values.into_iter().map(|v| v.value).collect(), self.span()))
    }

    /// `[least, greatest]`, both included.
    pub(in crate::spec) fn range(&self, log: &mut Log) -> Option<Given<(Number, Number)>> {
        let items = self.list(log, "the least and the greatest number")?;
        let [least, most] = items.as_slice() else {
            let problem = Problem::new(format!("`{}` lists {}", self.name, counted(items.len())))
                .hint("expected the least and the greatest number, such as [100, 999]");
            log.error(self.span(), problem);
            return None;
        };
        let (least, most) = (least.number(log), most.number(log));
        let (least, most) = (least?.value, most?.value);
        if least > most {
            let problem = Problem::new(format!("the range goes down from {least} to {most}"))
                .hint(format!("the least number comes first: [{most}, {least}]"));
            log.error(self.span(), problem);
            return None;
        }
        Some(Given::read((least, most), self.span()))
    }
}

/// `1 number`, `2 numbers`.
fn counted(count: usize) -> String {
    if count == 1 { "1 number".to_owned() } else { format!("{count} numbers") }
}
