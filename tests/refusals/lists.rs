//! What no case reaches, each with its reason. A place that is listed and reached all the same fails the
//! test, and so does one that is listed and is not there.

/// Why a place is not reached.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Why {
    /// It only hands on the words of another place.
    HandsOn,
    /// It cannot be reached from outside.
    Guarded(&'static str),
    /// It could be, and no case does it yet.
    NotYet(&'static str),
}

use Why::{Guarded, HandsOn, NotYet};

const SERDE: &str = "plain data of our own types can always be written as text";

/// File below `src/`, function, words of the sentence (`…` for those that make none), why.
pub const UNREACHED: &[(&str, &str, &str, Why)] = &[
    ("bin/tabside.rs", "json", "…", Guarded(SERDE)),
    ("bin/tabside.rs", "named", "…", HandsOn),
    ("bin/tabside/case.rs", "read_all", "…", Guarded(SERDE)),
    ("bin/tabside/compare.rs", "side", "…", HandsOn),
    (
        "bin/tabside/stains.rs",
        "parsed",
        "the {what} could not be read",
        HandsOn,
    ),
    (
        "case/check.rs",
        "wrong",
        "The case cannot be: {what}.",
        HandsOn,
    ),
    // The words are those of the guide's own check.
    ("case/check.rs", "check", "The case cannot be: {}.", HandsOn),
    ("case/check.rs", "short", "is longer than {most}", HandsOn),
    ("case/check.rs", "few", "it has {count}", HandsOn),
    (
        "case/lock.rs",
        "derive",
        "…",
        Guarded("keys of these lengths can always be derived"),
    ),
    (
        "case/lock.rs",
        "lock",
        "…",
        Guarded("only without a source of chance, or beyond 64 GB"),
    ),
    ("case/manifest.rs", "to_json", "…", Guarded(SERDE)),
    (
        "case/migrate.rs",
        "forward",
        "no step leads on",
        Guarded("every version has a step; a test holds them together"),
    ),
    ("case/write.rs", "encoded", "…", Guarded(SERDE)),
    (
        "case/write.rs",
        "unwritable",
        "The case cannot be written: {what}",
        HandsOn,
    ),
    (
        "case/write.rs",
        "encoded",
        "it holds a number that is none",
        Guarded("numbers come in as text, which has no such number"),
    ),
    (
        "case/zip/write.rs",
        "add",
        "The case would be larger",
        NotYet("it takes 1 GiB of photos"),
    ),
    (
        "case/zip/write.rs",
        "finish",
        "beyond 4 GiB",
        Guarded("1 GiB is refused before"),
    ),
    (
        "case/zip/write.rs",
        "finish",
        "too many parts",
        Guarded("512 parts are refused before"),
    ),
    (
        "case/table/cgats_write.rs",
        "cgats",
        "…",
        Guarded("text can always be written into text"),
    ),
    (
        "case/table/cgats_write.rs",
        "code",
        "a light check has no word",
        Guarded("every code has one"),
    ),
    (
        "case/table/csv_read.rs",
        "broken",
        "The table could not be taken apart",
        Guarded("cells are bytes and rows may be uneven: nothing is left that the reader refuses"),
    ),
    ("case/table/entries.rs", "fault", "…", HandsOn),
    ("case/zip/read.rs", "too_large", "…", HandsOn),
    (
        "case/zip/read.rs",
        "read",
        "The case file has {} bytes",
        Guarded("so many bytes are refused before they are read, here and in the page"),
    ),
    (
        "stain/predict.rs",
        "predict_all",
        "Request “{}”: {what}",
        HandsOn,
    ),
    ("stain/plan/mod.rs", "tasks", "{}: {what}", HandsOn),
    (
        "engine/stain.rs",
        "strengths",
        "the strengths were not kept",
        Guarded("they were kept one line above"),
    ),
    ("engine/case/mod.rs", "verify", "…", Guarded(SERDE)),
    (
        "engine/case/mod.rs",
        "missing",
        "is not in the case file",
        Guarded("a case whose photo is missing is refused before, and an absent one is not read"),
    ),
    (
        "photo/decode.rs",
        "begin",
        "holds floating-point pixels",
        Guarded("no JPEG, PNG or WebP has them; TIFF is read elsewhere"),
    ),
    (
        "photo/decode.rs",
        "pixels",
        "an unknown number of channels",
        Guarded("one to four channels are all that the layouts above have"),
    ),
    (
        "photo/decode.rs",
        "explain",
        "This kind of {name}",
        Guarded("the kinds that the decoders refuse are refused by name before"),
    ),
    (
        "photo/decode.rs",
        "explain",
        "asks for more memory",
        Guarded("the size is checked against tighter bounds before"),
    ),
    (
        "photo/jpeg.rs",
        "check",
        "The JPEG file is damaged: {what}",
        HandsOn,
    ),
    (
        "photo/tiff.rs",
        "unsupported",
        "This kind of TIFF is not read ({what})",
        HandsOn,
    ),
    (
        "reading/guide.rs",
        "classical_sixteen",
        "the default guide cannot be read",
        Guarded("it is part of the program, and a test reads it"),
    ),
    (
        "scene/grow/mod.rs",
        "checked",
        "stands out at that place",
        Guarded("the search always returns a curve around the tap"),
    ),
    ("stain/plan/mod.rs", "checked", "…", HandsOn),
    ("web/engine.rs", "give", "…", Guarded(SERDE)),
    ("web/case/mod.rs", "text_of", "…", Guarded(SERDE)),
    (
        "web/case/mod.rs",
        "from_text",
        "…",
        Guarded("the page wrote the text itself"),
    ),
    (
        "web/case/mod.rs",
        "compare_reading",
        "the photo was not read",
        Guarded("the page always gives what it read"),
    ),
];

/// Codes that nothing gives.
pub const NO_CODE: &[(&str, Why)] = &[(
    "brought-forward",
    Guarded("version 1 is the first there is"),
)];
