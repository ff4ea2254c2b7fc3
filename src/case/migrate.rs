//! Bringing older case files forward, version by version, before they are read as what they are
//! today. Version 1 is the first, so no step is needed yet; a change of the format adds one here, and
//! a file of the version before it to `fixtures/case/`.

use super::types::VERSION;
use crate::error::{Error, Result};
use serde_json::Value;

/// Makes of a case of one version one of the next.
pub type Step = fn(&mut Value) -> Result<()>;

/// The steps: the first brings version 1 to 2, and so on.
pub const STEPS: &[Step] = &[];

/// What a file's version means to this program.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Age {
    /// It is of this program's version.
    Current,
    /// It was brought forward from this version.
    Older(u32),
    /// It is of a version that this program does not know.
    Newer(u32),
}

/// Brings a case to the version of this program; a newer one stays as it is.
pub fn bring_forward(case: &mut Value) -> Result<Age> {
    forward(case, STEPS, VERSION)
}

fn forward(case: &mut Value, steps: &[Step], current: u32) -> Result<Age> {
    let version = case
        .get("version")
        .and_then(Value::as_u64)
        .and_then(|v| u32::try_from(v).ok())
        .filter(|v| *v >= 1)
        .ok_or_else(|| {
            Error::damaged(
                "The case file does not say of which version it is.",
                "Ask the sender to save and send the case once more.",
            )
        })?;
    if version > current {
        return Ok(Age::Newer(version));
    }
    for at in version..current {
        let step = steps
            .get(at as usize - 1)
            .ok_or_else(|| Error::internal(format!("no step leads on from case version {at}.")))?;
        step(case)?;
        if let Some(case) = case.as_object_mut() {
            case.insert("version".to_owned(), Value::from(at + 1));
        }
    }
    Ok(if version == current {
        Age::Current
    } else {
        Age::Older(version)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    /// As a step would be that gives a field another name.
    fn rename(case: &mut Value) -> Result<()> {
        if let Some(case) = case.as_object_mut()
            && let Some(label) = case.remove("label")
        {
            case.insert("title".to_owned(), label);
        }
        Ok(())
    }

    fn count(case: &mut Value) -> Result<()> {
        let titles = usize::from(case.get("title").is_some());
        if let Some(case) = case.as_object_mut() {
            case.insert("titles".to_owned(), Value::from(titles));
        }
        Ok(())
    }

    #[test]
    fn steps_follow_each_other() {
        let steps: &[Step] = &[rename, count];
        let mut case = json!({"version": 1, "label": "x"});
        assert_eq!(forward(&mut case, steps, 3), Ok(Age::Older(1)));
        assert_eq!(case, json!({"version": 3, "title": "x", "titles": 1}));
        let mut case = json!({"version": 2, "label": "x"});
        assert_eq!(forward(&mut case, steps, 3), Ok(Age::Older(2)));
        assert_eq!(case, json!({"version": 3, "label": "x", "titles": 0}));
        let mut case = json!({"version": 4, "label": "x"});
        let before = case.clone();
        assert_eq!(forward(&mut case, steps, 3), Ok(Age::Newer(4)));
        assert_eq!(case, before);
    }

    #[test]
    fn each_older_version_has_a_step() {
        assert_eq!(STEPS.len() + 1, VERSION as usize);
    }

    #[test]
    fn no_version() {
        for bad in [
            json!({}),
            json!([]),
            json!({"version": 0}),
            json!({"version": "1"}),
            json!({"version": 1.5}),
            json!({"version": 1e30}),
            json!(null),
        ] {
            assert_eq!(
                bring_forward(&mut bad.clone()).map_err(|e| e.kind()),
                Err("file-damaged"),
                "{bad}"
            );
        }
    }
}
