//! What can go wrong, sorted by who can act on it.
//!
//! Problems that leave a result usable travel beside it as light checks, not as errors.

mod check;

pub use check::{CheckCode, LightCheck, Severity};

/// The crate's result type.
pub type Result<T> = std::result::Result<T, Error>;

/// An error that ends a call. Its text says what happened and what to do; nothing that was
/// already open is touched by it.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Error {
    /// The bytes are no picture, or are damaged: the person who has the file can act.
    #[error("{what} {remedy}")]
    FileDamaged {
        /// What was found.
        what: String,
        /// What to do.
        remedy: String,
    },
    /// A picture of a kind that is not read: the person can save it in another form.
    #[error("{what} {remedy}")]
    Unsupported {
        /// What was found.
        what: String,
        /// What to do.
        remedy: String,
    },
    /// More pixels or bytes than are taken on.
    #[error("{what} {remedy}")]
    TooLarge {
        /// What was found, with the figure and the limit.
        what: String,
        /// What to do.
        remedy: String,
    },
    /// A card, region, guide or number that the user gave and can change.
    #[error("{what} {remedy}")]
    Input {
        /// What was found.
        what: String,
        /// What to do.
        remedy: String,
    },
    /// A mistake of the program's own.
    #[error(
        "Something went wrong inside Tabside: {what} Please report it with the steps that led here."
    )]
    Internal {
        /// What was found.
        what: String,
    },
}

impl Error {
    /// One word for the kind, stable, for programs.
    pub const fn kind(&self) -> &'static str {
        match self {
            Self::FileDamaged { .. } => "file-damaged",
            Self::Unsupported { .. } => "unsupported",
            Self::TooLarge { .. } => "too-large",
            Self::Input { .. } => "input",
            Self::Internal { .. } => "internal",
        }
    }

    /// What was found, without what to do.
    pub fn what(&self) -> &str {
        match self {
            Self::FileDamaged { what, .. }
            | Self::Unsupported { what, .. }
            | Self::TooLarge { what, .. }
            | Self::Input { what, .. }
            | Self::Internal { what } => what,
        }
    }

    /// A damaged file.
    pub fn damaged(what: impl Into<String>, remedy: impl Into<String>) -> Self {
        Self::FileDamaged {
            what: what.into(),
            remedy: remedy.into(),
        }
    }

    /// A kind of file that is not read.
    pub fn unsupported(what: impl Into<String>, remedy: impl Into<String>) -> Self {
        Self::Unsupported {
            what: what.into(),
            remedy: remedy.into(),
        }
    }

    /// A file beyond the limits.
    pub fn too_large(what: impl Into<String>, remedy: impl Into<String>) -> Self {
        Self::TooLarge {
            what: what.into(),
            remedy: remedy.into(),
        }
    }

    /// Something the user gave.
    pub fn input(what: impl Into<String>, remedy: impl Into<String>) -> Self {
        Self::Input {
            what: what.into(),
            remedy: remedy.into(),
        }
    }

    /// Our own mistake.
    pub fn internal(what: impl Into<String>) -> Self {
        Self::Internal { what: what.into() }
    }
}
