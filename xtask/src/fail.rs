//! How a command fails: what happened, who can act, what to do.

use std::fmt;
use std::path::Path;

/// The result type of every command.
pub type Result<T> = std::result::Result<T, Failure>;

/// A failure that ends a command.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Failure {
    what: String,
    who: &'static str,
    remedy: String,
}

/// Whoever sits at this machine.
pub const YOU: &str = "you, on this machine";
/// Whoever changed the code last.
pub const AUTHOR: &str = "whoever makes the change that is being built";
/// Whoever may install software for the whole machine.
pub const ADMIN: &str = "someone who may install software on this machine";
/// The people who maintain these commands.
pub const MAINTAINER: &str = "the people who maintain Tabside";

impl Failure {
    /// What happened, who can act, what to do.
    pub fn new(what: impl Into<String>, who: &'static str, remedy: impl Into<String>) -> Self {
        Self {
            what: what.into(),
            who,
            remedy: remedy.into(),
        }
    }

    /// A file or folder that could not be read, written, moved or removed.
    pub fn file(doing: &str, path: &Path, error: &std::io::Error) -> Self {
        Self::new(
            format!("Could not {doing} {}: {error}.", path.display()),
            YOU,
            "See that the folder exists, that you may write to it and that the disk is not full; \
             then run the same command again.",
        )
    }
}

impl fmt::Display for Failure {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            out,
            "What happened: {}\nWho can act:   {}\nWhat to do:    {}",
            self.what, self.who, self.remedy
        )
    }
}

impl std::error::Error for Failure {}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_failure_answers_the_three_questions() {
        let text = Failure::new("It broke.", YOU, "Mend it.").to_string();
        assert_eq!(
            text,
            "What happened: It broke.\nWho can act:   you, on this machine\nWhat to do:    Mend it."
        );
    }
}
