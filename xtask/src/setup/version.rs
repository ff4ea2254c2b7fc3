//! Version numbers as programs print them.

use std::fmt;

/// Major, minor, patch.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Version(pub u32, pub u32, pub u32);

impl Version {
    /// The first number with a dot in a text: `rustc 1.95.0 (…)`, `v20.20.2`, `1.90`,
    /// `Chromium 156.0.8078.108`. What follows the third number does not count.
    pub fn find(text: &str) -> Option<Self> {
        text.split(|c: char| !(c.is_ascii_digit() || c == '.'))
            .find_map(Self::from_numbers)
    }

    fn from_numbers(word: &str) -> Option<Self> {
        let mut numbers = word.split('.').map(|n| n.parse::<u32>().ok());
        let major = numbers.next()??;
        let minor = numbers.next()??;
        let patch = numbers.next().flatten().unwrap_or(0);
        Some(Self(major, minor, patch))
    }
}

impl fmt::Display for Version {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}.{}.{}", self.0, self.1, self.2)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn versions_are_found_in_what_programs_print() {
        let found = |text| Version::find(text);
        assert_eq!(
            found("rustc 1.95.0 (59807616e 2026-04-14)"),
            Some(Version(1, 95, 0))
        );
        assert_eq!(
            found("rustc 1.97.0-nightly (abc 2026-05-01)"),
            Some(Version(1, 97, 0))
        );
        assert_eq!(found("v20.20.2"), Some(Version(20, 20, 2)));
        assert_eq!(found("1.90"), Some(Version(1, 90, 0)));
        assert_eq!(
            found("Chromium 156.0.8078.108 built on Debian GNU/Linux 12"),
            Some(Version(156, 0, 8078))
        );
        assert_eq!(found("Electron7 12"), None);
        assert_eq!(found("."), None);
        assert_eq!(found(""), None);
        assert_eq!(found("99999999999.1.1"), None);
    }

    #[test]
    fn versions_compare_by_number() {
        assert!(Version(20, 9, 0) < Version(20, 19, 0));
        assert!(Version(1, 100, 0) > Version(1, 90, 5));
        assert_eq!(Version(20, 19, 0).to_string(), "20.19.0");
    }
}
