//! What a command says when it has done its work.

use serde_json::Value;

use crate::diag::Diagnostic;

/// What a command has to say about one lesson.
pub struct Report {
    /// For people: the result.
    pub human: String,
    /// For people: what is worth knowing besides, a line each.
    pub notes: Vec<String>,
    /// What may not come out as meant.
    pub warnings: Vec<Diagnostic>,
    /// For programs.
    pub json: Value,
}
