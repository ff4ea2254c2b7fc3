//! A case that is written and read is the case that was there, whatever it holds; written again it is
//! the same file, and so it is behind a passphrase.

mod support;

#[path = "properties/any_case.rs"]
mod any_case;

use any_case::{Given, any_given, any_passphrase};
use proptest::prelude::*;
use std::collections::BTreeMap;
use tabside::case::lock::{lock, unlock};
use tabside::case::{Case, KeptAs, PhotoBytes, Written, read, write};

fn written(case: &Case, photos: &BTreeMap<String, Vec<u8>>) -> Result<Written, TestCaseError> {
    let bytes: Vec<PhotoBytes<'_>> = photos
        .iter()
        .map(|(id, bytes)| PhotoBytes { id, bytes })
        .collect();
    write(case, &bytes).map_err(|e| TestCaseError::fail(e.to_string()))
}

/// What writing itself states: the program, and of each photo its part, its checksum and what was
/// taken from it.
fn unstated(case: &Case) -> Case {
    let mut case = case.clone();
    case.program.clear();
    for p in &mut case.photos {
        (p.part, p.sha256) = (None, None);
        p.removed.clear();
    }
    case
}

fn same_again(given: &Given) -> Result<Vec<u8>, TestCaseError> {
    let first = written(&given.case, &given.photos)?;
    let opened = read(&first.bytes).map_err(|e| TestCaseError::fail(e.to_string()))?;
    prop_assert!(!opened.read_only && opened.notes.is_empty());
    prop_assert_eq!(&opened.case, &first.case);
    prop_assert_eq!(unstated(&opened.case), unstated(&given.case));
    for photo in &opened.case.photos {
        let (kept, was) = (opened.photos.get(&photo.id), &given.photos[&photo.id]);
        match photo.kept {
            KeptAs::Absent => prop_assert_eq!(kept, None),
            // Nothing is removed from these: they are to come back byte by byte.
            _ if photo.removed.is_empty() => prop_assert_eq!(kept, Some(was)),
            _ => prop_assert!(kept.is_some_and(|k| k != was)),
        }
        let told = given.telling.contains(&photo.id);
        prop_assert_eq!(photo.removed.is_empty(), !told);
    }
    // What was read is written again: the same file to the last byte. The bytes of photos that are not
    // kept are not there any more; their checksums are.
    let again = written(&opened.case, &opened.photos)?;
    prop_assert_eq!(&again.case, &opened.case);
    prop_assert!(again.bytes == first.bytes, "the second file is another one");
    Ok(first.bytes)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    /// 256 cases: up to four photos of every format (some with a position in their EXIF), kept and not
    /// kept, partners, names, notes and labels of any characters, any finite numbers, swatches, guides,
    /// reports, work and data of the page as JSON of any shape.
    #[test]
    fn a_case_comes_back(given in any_given()) {
        same_again(&given)?;
    }
}

proptest! {
    // The key takes 600 000 rounds each time; there is no cheaper way in, on purpose.
    #![proptest_config(ProptestConfig::with_cases(4))]

    /// 4 cases: the same through a passphrase of any characters.
    #[test]
    fn a_case_comes_back_through_a_passphrase(given in any_given(), passphrase in any_passphrase()) {
        let file = same_again(&given)?;
        let locked = lock(&file, &passphrase).map_err(|e| TestCaseError::fail(e.to_string()))?;
        prop_assert!(locked != file);
        let open = unlock(&locked, &passphrase).map_err(|e| TestCaseError::fail(e.to_string()))?;
        prop_assert!(open == file);
        let other = format!("{passphrase}.");
        prop_assert!(unlock(&locked, &other).is_err());
    }
}
