//! Every refusal and every check, each made to happen.

pub mod calls;
pub mod case;
pub mod case_files;
pub mod checks;
pub mod doctored;
pub mod guides;
pub mod lists;
pub mod opened;
pub mod page;
pub mod photos;
pub mod reports;
pub mod scan;
pub mod scenes;
pub mod stains;
pub mod table;
pub mod write;

use calls::Call;
use case::{Case, Said, Wanted};
use std::sync::LazyLock;
use std::sync::atomic::{AtomicUsize, Ordering};

/// All cases of the command line, the light checks first.
pub fn cases() -> Vec<Case> {
    [
        checks::cases(),
        photos::cases(),
        scenes::cases(),
        guides::cases(),
        stains::cases(),
        stains::findings(),
        case_files::cases(),
        case_files::locked(),
        opened::findings(),
        opened::cases(),
        reports::cases(),
    ]
    .concat()
}

/// A case and what was said of it.
pub struct Told {
    pub case: Case,
    pub said: Result<Said, String>,
}

/// All cases, run once.
pub static TOLD: LazyLock<Vec<Told>> = LazyLock::new(|| {
    let all = cases();
    let next = AtomicUsize::new(0);
    let lanes = std::thread::available_parallelism().map_or(2, usize::from);
    let mut told: Vec<(usize, Told)> = std::thread::scope(|scope| {
        let lane = || {
            let mut out = Vec::new();
            while let Some(case) = all.get(next.fetch_add(1, Ordering::Relaxed)) {
                let place = all.iter().position(|c| c.id == case.id).expect("its place");
                out.push((
                    place,
                    Told {
                        case: case.clone(),
                        said: case.run(),
                    },
                ));
            }
            out
        };
        let lanes: Vec<_> = (0..lanes).map(|_| scope.spawn(lane)).collect();
        lanes
            .into_iter()
            .flat_map(|l| l.join().expect("a lane"))
            .collect()
    });
    told.sort_by_key(|(place, _)| *place);
    told.into_iter().map(|(_, t)| t).collect()
});

/// All calls, run once.
pub static CALLED: LazyLock<Vec<(Call, Result<String, String>)>> = LazyLock::new(|| {
    calls::calls()
        .into_iter()
        .map(|c| {
            let said = if c.native {
                c.run()
            } else {
                Ok(c.words.to_owned())
            };
            (c, said)
        })
        .collect()
});

/// What was refused: the ids of the cases and calls with their words.
pub fn refused() -> Vec<(&'static str, &'static str)> {
    let told = TOLD
        .iter()
        .filter(|t| matches!(t.case.wanted, Wanted::Refused(_)));
    let told =
        told.filter_map(|t| Some((t.case.id.as_str(), t.said.as_ref().ok()?.words.as_str())));
    let called = CALLED
        .iter()
        .filter_map(|(c, said)| Some((c.id, said.as_ref().ok()?.as_str())));
    told.chain(called).collect()
}

/// What was found, with its code.
pub fn found() -> Vec<(&'static str, &'static str, &'static Said)> {
    let codes = TOLD.iter().filter_map(|t| match t.case.wanted {
        Wanted::Finding(code) => Some((code, t.case.id.as_str(), t.said.as_ref().ok()?)),
        Wanted::Refused(_) => None,
    });
    codes.collect()
}

/// The enumerations whose codes are told: where they stand, and what they are about.
pub const CODES: [(&str, &str, &str, char); 5] = [
    ("error/check.rs", "CheckCode", "light check", '-'),
    (
        "stain/types/book.rs",
        "SwatchCheckCode",
        "finding about swatches",
        '-',
    ),
    (
        "stain/types/plan.rs",
        "ShortfallCode",
        "what a plan cannot do",
        '-',
    ),
    ("case/note.rs", "CaseNoteCode", "note about a case", '-'),
    (
        "engine/case/types.rs",
        "ReasonCode",
        "why numbers are not the same",
        '-',
    ),
];
