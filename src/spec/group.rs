//! `[[group]]`: learners with numbers of their own.
//!
//! What a group does not say is the class's. A request of the class that no number of the group's range can meet is left
//! out, and told; what the group itself asks for is kept as it stands. `closer` and `further` are starts that are worked out
//! from the class's range, rows and decoys, and told too. Model numbers are built with the whole class.

use toml::de::DeValue;

use super::checks;
use super::forms;
use super::keys::kind::Readable;
use super::keys::{GROUP_ROLES, list};
use super::language::Language;
use super::limits;
use super::log::Log;
use super::numbers::{self, read_role};
use super::pool::Pool;
use super::table::Table;
use super::types::{AtMost, Bound, ClassSpec, FormsSpec, Given, GroupSpec, NumbersSpec, RoleSpec};
use super::usual;
use super::value::Value;
use crate::diag::Problem;
use crate::measure::Count;
use crate::number::{Feature, Form, Number, Place};

/// Where a group's numbers start from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Start {
    Closer,
    Further,
}

/// What a group's table says.
pub(super) struct Asked {
    name: Given<String>,
    learners: Option<Given<u32>>,
    /// Whether the file says how many, whatever it says.
    counted: bool,
    versions: Option<Given<u32>>,
    start: Option<Start>,
    range: Option<Given<(Number, Number)>>,
    never: Option<Vec<Given<Number>>>,
    at_most: AtMost,
    /// Sort and exit.
    roles: [RoleSpec; 2],
    forms: forms::Asked,
}

/// Reads every group of the file.
pub(super) fn read(root: &mut Table, whole: bool, log: &mut Log) -> Vec<Asked> {
    let Some(value) = root.take_named("group") else {
        // Its keys become known all the same.
        one(root.missing("group"), false, log);
        return Vec::new();
    };
    let tables = match value.inner() {
        DeValue::Array(_) => value.list(log, "groups").unwrap_or_default(),
        // `[group]` with single brackets means the same.
        _ => vec![value],
    };
    if tables.len() as u64 > limits::GROUPS {
        let problem = Problem::new(format!("the lesson has {} groups", tables.len()));
        log.error(tables[0].key(), problem.hint(format!("expected at most {}", limits::GROUPS)));
        return Vec::new();
    }
    let read = |value: &Value<'_>| one(Table::of(value, log), whole, log);
    let asked: Vec<Asked> = tables.iter().filter_map(read).collect();
    for (k, group) in asked.iter().enumerate() {
        let twice = asked[..k].iter().find(|other| other.name.value.eq_ignore_ascii_case(&group.name.value));
        if let (Some(first), Some(span)) = (twice, group.name.span()) {
            let problem = Problem::new(format!("two groups are called `{}`", group.name.value));
            let related = vec![(first.name.span(), "the first of them".to_owned())];
            log.clash(span, problem.hint("give one of them another name"), related);
        }
    }
    asked
}

/// Reads a group; `None` without a name.
fn one(mut table: Table, whole: bool, log: &mut Log) -> Option<Asked> {
    let name = table.read(&list::GROUP_NAME, log);
    if name.is_none() && whole && table.is_sound() {
        let problem = Problem::new("a group has no name").hint("expected such as name = \"Gulls\"");
        log.missing(["group", list::GROUP_NAME.name], table.header(), problem);
    }
    log.within(name.as_ref().map(|name| name.value.as_str()));
    let learners = table.take(&list::GROUP_LEARNERS);
    let counted = learners.is_some();
    let learners = learners.and_then(|value| list::GROUP_LEARNERS.kind.read(&value, log));
    let versions = table.read(&list::GROUP_VERSIONS, log);
    let (closer, further) = (table.read(&list::CLOSER, log), table.read(&list::FURTHER, log));
    let is_on = |given: &Option<Given<bool>>| given.filter(|given| given.value);
    let start = match (is_on(&closer), is_on(&further)) {
        (Some(closer), Some(further)) => {
            let problem = Problem::new("both `closer` and `further` are asked for").hint("keep one of the two");
            log.clash(further.span().unwrap_or(0..0), problem, vec![(closer.span(), "the other".to_owned())]);
            None
        }
        (Some(_), None) => Some(Start::Closer),
        (None, Some(_)) => Some(Start::Further),
        (None, None) => None,
    };
    if let Some(model) = table.refuse("model") {
        let problem = Problem::new("`group.model` is asked for, but the whole class builds one set of model numbers");
        log.error(model.key(), problem.hint("leave it out: `sort` and `exit` are a group's own; other model numbers are for a lesson file of its own"));
    }
    let range = table.read(&list::RANGE, log);
    let never = table.read(&list::NEVER, log).map(|given| given.value);
    let at_most = numbers::at_most(&mut table, log);
    let roles = GROUP_ROLES.map(|role| read_role(table.inner(role, log), log));
    let forms = forms::take(&mut table, log);
    table.finish(log);
    log.within(None);
    Some(Asked { name: name?, learners, counted, versions, start, range, never, at_most, roles, forms })
}

/// What the class has, which groups take where they are silent.
pub(super) struct Class<'c> {
    pub(super) numbers: &'c NumbersSpec,
    pub(super) forms: &'c FormsSpec,
    pub(super) class: &'c ClassSpec,
    /// The language of a lesson that has one only.
    pub(super) alone: Option<Language>,
}

/// Settles every group against the class.
pub(super) fn settle(asked: Vec<Asked>, class: &Class<'_>, log: &mut Log) -> Vec<GroupSpec> {
    within_class(&asked, class.class, log);
    let mut groups = Vec::new();
    for group in asked {
        let name = group.name.value.clone();
        log.within(Some(&name));
        let group = group.settle(class, log);
        if log.is_clean() {
            checks::numbers(&group.numbers, group.versions.value, log);
        }
        log.within(None);
        groups.push(group);
    }
    lettered(&groups, class, log);
    groups
}

/// Groups that hold more learners than the class, and those that hold none.
fn within_class(asked: &[Asked], class: &ClassSpec, log: &mut Log) {
    for group in asked.iter().filter(|group| !group.counted && class.roster.is_none()) {
        let problem = Problem::new(format!("the group `{}` has no learners", group.name.value))
            .hint("expected such as learners = 6, or a roster with a column `group` under [class]");
        log.missing(["group", list::GROUP_LEARNERS.name], group.name.span().unwrap_or(0..0), problem);
    }
    let mut sum = 0_u32;
    for given in asked.iter().filter_map(|group| group.learners) {
        let before = sum;
        sum = sum.saturating_add(given.value);
        let counted = !class.learners.is_assumed() || class.roster.is_none();
        if sum > class.learners.value && before <= class.learners.value && counted {
            let all: u32 = asked.iter().filter_map(|group| group.learners).map(|given| given.value).sum();
            let has = class.learners.value;
            let problem = Problem::new(format!("the groups have {all} learners, but the class has {has}"));
            let left = has - before;
            let problem = problem.hint(match left {
                0 => format!("expected class.learners = {all} or more, or fewer learners in the groups"),
                _ => format!("expected at most {left} here, or class.learners = {all} or more"),
            });
            log.clash(given.span().unwrap_or(0..0), problem, vec![(class.learners.span(), "the class".to_owned())]);
        }
    }
}

/// Versions are lettered through the class and its groups, and either all of them sort or none.
fn lettered(groups: &[GroupSpec], class: &Class<'_>, log: &mut Log) {
    let sorts = |numbers: &NumbersSpec| numbers.sort.count.value > 0;
    if let Some(group) = groups.iter().find(|group| sorts(&group.numbers) != sorts(class.numbers)) {
        let (with, without) = if sorts(&group.numbers) { ("it", "the class") } else { ("the class", "it") };
        let problem = Problem::new(format!("{with} has numbers to sort, but {without} has none"));
        let problem = problem.of_group(&group.name.value).hint("give both a sort count of at least 1, or both 0");
        let span = group.numbers.sort.count.span().or_else(|| group.name.span()).unwrap_or(0..0);
        log.clash(span, problem, vec![(class.numbers.sort.count.span(), "the class's".to_owned())]);
        return;
    }
    let class = class.class;
    let own: u32 = groups.iter().map(|group| group.versions.value).sum();
    let all = own + class.versions.value;
    if !groups.is_empty() && u64::from(all) > limits::VERSIONS.most {
        let span = groups.iter().find_map(|group| group.versions.span()).or_else(|| class.versions.span());
        let span = span.or_else(|| groups[0].name.span()).unwrap_or(0..0);
        let problem = Problem::new(format!("the class and its groups have {all} versions together"));
        log.error(span, problem.hint("expected at most 26, one for each letter"));
    }
}

impl Asked {
    fn settle(self, class: &Class<'_>, log: &mut Log) -> GroupSpec {
        let mut notes = Vec::new();
        let most = self.learners.map_or(u32::MAX, |given| given.value);
        let versions = self.versions.unwrap_or_else(|| Given::assumed(class.class.versions.value.min(most)));
        let mut own = NumbersSpec {
            range: class.numbers.range,
            never: self.never.unwrap_or_else(|| class.numbers.never.clone()),
            at_most: if self.at_most.is_empty() { class.numbers.at_most.clone() } else { self.at_most },
            model: RoleSpec { count: Given::assumed(0), ..RoleSpec::default() },
            sort: RoleSpec::default(),
            exit: RoleSpec::default(),
        };
        let matched = self.forms.matched().unwrap_or(&class.forms.matched.value);
        let rows = class.numbers.sort.count.value;
        if let Some(range) = self.range {
            own.range = range;
        } else if let Some(start) = self.start {
            own.range = Given::assumed(start.range(class.numbers.range.value, matched, rows));
        }
        let (rows, decoys) = match self.start {
            None => (rows, class.forms.decoys),
            Some(start) => {
                let (rows, decoys) = start.load(rows, class.forms.decoys.value);
                (rows, Given::assumed(decoys))
            }
        };
        let [sort, exit] = self.roles;
        let count = if self.start.is_some() { Given::assumed(rows) } else { class.numbers.sort.count };
        own.sort = inherited("sort", sort, &class.numbers.sort, count, self.start, &own, &mut notes);
        own.exit = inherited("exit", exit, &class.numbers.exit, class.numbers.exit.count, self.start, &own, &mut notes);
        usual::assume(&mut own, versions.value);
        if let Some(start) = self.start {
            let (least, most) = own.range.value;
            notes.push(format!(
                "{}: numbers from {least} to {most}, {} rows, {} decoys",
                start.word(),
                own.sort.count.value,
                self.forms.decoys().unwrap_or(decoys).value
            ));
        }
        let forms = self.forms.of_group(&own, class.forms, decoys, class.alone, log);
        GroupSpec { name: self.name, learners: self.learners, versions, numbers: own, forms, notes }
    }
}

/// The requests of a role: the group's, and those of the class that its numbers can meet.
fn inherited(
    word: &str,
    own: RoleSpec,
    class: &RoleSpec,
    count: Given<u32>,
    start: Option<Start>,
    numbers: &NumbersSpec,
    notes: &mut Vec<String>,
) -> RoleSpec {
    let pool = Pool::new(numbers);
    let mut role = own;
    let said = !role.count.is_assumed();
    if !said {
        role.count = count;
    }
    // A start asks for what its own numbers are good for.
    if start.is_some() {
        return role;
    }
    let rows = role.count.value;
    let mut left = Vec::new();
    let mut keep =
        |key: String, own: Option<Given<Bound>>, of_class: Option<Given<Bound>>, has: &dyn Fn(u32) -> bool| {
            let class = of_class.filter(|bound| !bound.is_assumed());
            if own.is_some() || class.is_none() {
                return own;
            }
            let fits = class.filter(|bound| bound.value.min <= rows && has(bound.value.min));
            if fits.is_none() {
                left.push(key);
            }
            fits
        };
    let features: Vec<_> = class.features().collect();
    for (feature, bound) in features {
        let has =
            |least: u32| pool.numbers().filter(|n| feature.is_in(*n)).take(least as usize).count() >= least as usize;
        let had = role.features().find(|(of, _)| *of == feature).map(|(_, bound)| bound);
        let kept = keep(feature.key(), had, Some(bound), &has);
        match (feature, kept) {
            (Feature::Zero(place), Some(bound)) => drop(role.zeros.insert(place, bound)),
            (Feature::Zero(_), None) => {}
            (Feature::Repeat, kept) => role.repeats = kept,
            (Feature::Teen, kept) => role.teens = kept,
        }
    }
    // Numbers of one digit have no others of the same digits.
    let alike = |least: u32| least < 2 || numbers.range.value.1.shows(Place::Tens);
    role.same_digits = keep("same_digits".to_owned(), role.same_digits, class.same_digits, &alike);
    if role.always.is_empty() {
        let (kept, gone): (Vec<Given<Number>>, Vec<_>) = class.always.iter().partition(|given| pool.holds(given.value));
        let fits = kept.len() <= rows as usize;
        left.extend((!gone.is_empty() || !fits).then(|| "always".to_owned()));
        role.always = if fits { kept } else { Vec::new() };
    }
    if !left.is_empty() {
        let left: Vec<String> = left.into_iter().map(|key| format!("{word}.{key}")).collect();
        notes.push(format!("the class's {} is left out: this range cannot meet it", left.join(", ")));
    }
    role
}

impl Start {
    const fn word(self) -> &'static str {
        match self {
            Self::Closer => "closer",
            Self::Further => "further",
        }
    }

    /// The range: a place less or a place more, or the near half of the class's where that leaves too few numbers.
    fn range(self, (low, high): (Number, Number), matched: &[Form], rows: u32) -> (Number, Number) {
        let (least, most) = (low.value(), high.value());
        // Numbers below ten have one digit and nothing to trade; pictures end at 9,999.
        let floor = if matched.iter().any(|form| form.is_traded()) { 10 } else { 1 };
        let ceiling = if matched.iter().any(|form| form.is_picture()) { Number::MAX_BLOCKS } else { Number::MAX };
        let middle = least + (most - least) / 2;
        let (low, high) = match self {
            Self::Closer => ((least / 10).max(floor).max(10.min(most / 10)), most / 10),
            Self::Further => ((least * 10).max(10), (most * 10 + 9).min(ceiling.value())),
        };
        let half = match self {
            Self::Closer => (least, middle),
            Self::Further => (middle, most),
        };
        let enough = high >= low && high - low + 1 >= rows * ENOUGH;
        let (low, high) = if enough { (low, high) } else { half };
        (Number::new(low).unwrap_or(Number::MIN), Number::new(high).unwrap_or(Number::MAX))
    }

    /// Rows and decoys: a third fewer and none, or a quarter more and two more. Common practice, no source.
    fn load(self, rows: u32, decoys: u32) -> (u32, u32) {
        match self {
            Self::Closer => ((rows - rows / 3).max(rows.min(2)), 0),
            Self::Further if rows == 0 => (0, 0),
            Self::Further => {
                let most = limits::COUNT.most.narrow();
                ((rows + (rows / 4).max(1)).min(most), decoys + 2)
            }
        }
    }
}

/// A range that is worked out has so many numbers for each row, to choose from.
const ENOUGH: u32 = 4;
