//! What only the page can say, and the browser test that makes it say so.

/// Entry of `www/src/words/errors.ts`, when it is said, the test's file in `www/e2e`, and a text in it.
pub const PAGE: &[(&str, &str, &str, &str)] = &[
    (
        "openFailed",
        "before the words of every photo that is not read",
        "faults_program.e2e.ts",
        "could not be opened. What was open is still here.",
    ),
    (
        "sceneFailed",
        "before the words of every scene that is refused",
        "refusals_files.ts",
        "is not a scene that can be used. Nothing was changed.",
    ),
    (
        "guideFailed",
        "before the words of every guide and table that is refused",
        "refusals_files.ts",
        "is not a shade guide that can be used. The guide in use stays.",
    ),
    (
        "swatchesFailed",
        "before the words of every book of swatches that is refused",
        "refusals_files.ts",
        "is not a book of swatches that can be used.",
    ),
    (
        "demoStainsFailed",
        "the demo's stains are not on the server",
        "refusals_page.e2e.ts",
        "The demo stains could not be loaded.",
    ),
    (
        "keptFailed",
        "the browser denies its storage",
        "refusals_page.e2e.ts",
        "Stains and work could not be kept on this device.",
    ),
    (
        "keptAdvice",
        "the same",
        "refusals_page.e2e.ts",
        "Save your swatches as a file before you close the page.",
    ),
    (
        "keptDamaged",
        "what was kept of stains is no text of ours",
        "refusals_page.e2e.ts",
        "What was kept on this device could not be read and is set aside.",
    ),
    (
        "demoFailed",
        "the demo is not on the server",
        "refusals_page.e2e.ts",
        "The demo case could not be loaded.",
    ),
    (
        "notFound",
        "the same",
        "refusals_page.e2e.ts",
        "A file of the page is missing on its server.",
    ),
    (
        "internalAdvice",
        "the same",
        "refusals_page.e2e.ts",
        "Your file is unchanged. Load the page again if this keeps happening.",
    ),
    (
        "readingFailed",
        "before the words of every scene that the page takes and the engine refuses",
        "refusals.e2e.ts",
        "This scene cannot be read.",
    ),
    (
        "readingCancelled",
        "reading is cancelled",
        "cancel.e2e.ts",
        "Reading was cancelled.",
    ),
    (
        "startFailed",
        "the program does not come",
        "faults_program.e2e.ts",
        "The program could not be started.",
    ),
    (
        "fileTooLarge",
        "a file of 404 MB (page-too-large)",
        "refusals_page.e2e.ts",
        "The file is larger than 400 MB.",
    ),
    (
        "copyFailed",
        "the browser denies the clipboard",
        "refusals_page.e2e.ts",
        "The numbers could not be copied.",
    ),
    (
        "copyAdvice",
        "the same",
        "refusals_page.e2e.ts",
        "Save them as a file instead.",
    ),
    (
        "fileAdvice",
        "after the words of every guide and file of attempts that the page refuses",
        "refusals_files.ts",
        "Choose a file that was saved here.",
    ),
    (
        "sceneAdvice",
        "after the words of every scene that the page refuses",
        "refusals_files.ts",
        "Choose a scene that was saved here, or mark the photo again.",
    ),
    (
        "swatchesAdvice",
        "after the words of every book that the page refuses",
        "refusals_files.ts",
        "Choose a file of swatches that was saved here, or a part of it.",
    ),
    (
        "faults",
        "the worker ends, runs out of memory or breaks",
        "faults_worker.e2e.ts",
        "The browser ended the program",
    ),
    (
        "faultAdvice",
        "the same",
        "faults_worker.e2e.ts",
        "What was open is still here",
    ),
    ("once", "the same", "faults_worker.e2e.ts", "Once more"),
    (
        "fileParts.json",
        "a file that is no JSON",
        "refusals.e2e.ts",
        "scene-binary",
    ),
    (
        "fileParts.scene",
        "a scene that is none",
        "refusals.e2e.ts",
        "scene-report",
    ),
    (
        "fileParts.regions",
        "201 regions",
        "refusals.e2e.ts",
        "scene-many",
    ),
    (
        "fileParts.id",
        "a region without an id",
        "refusals.e2e.ts",
        "scene-no-id",
    ),
    (
        "fileParts.outline",
        "an outline of two corners",
        "refusals.e2e.ts",
        "scene-two-corners",
    ),
    (
        "fileParts.borders",
        "thirds out of order",
        "refusals.e2e.ts",
        "scene-borders",
    ),
    (
        "fileParts.card",
        "a card without an outline",
        "refusals.e2e.ts",
        "scene-card-bare",
    ),
    (
        "fileParts.swatches",
        "a book without swatches",
        "refusals.e2e.ts",
        "swatches-json",
    ),
    (
        "fileParts.guide",
        "a guide that is a list",
        "refusals_files.ts",
        "['guide',",
    ),
    (
        "fileParts.region",
        "a region that is a number",
        "refusals_files.ts",
        "['region',",
    ),
    (
        "fileParts.kind",
        "a region of no kind",
        "refusals_files.ts",
        "['kind',",
    ),
    (
        "fileParts.point",
        "a point that is a word",
        "refusals_files.ts",
        "['point',",
    ),
    (
        "fileParts.transform",
        "half a transform",
        "refusals_files.ts",
        "['transform',",
    ),
    (
        "fileParts.steps",
        "a step that is a number",
        "refusals_files.ts",
        "['steps',",
    ),
    (
        "fileParts.lab",
        "a colour of two numbers",
        "refusals_files.ts",
        "['lab',",
    ),
    (
        "fileParts.reflectance",
        "a reflectance that is a word",
        "refusals_files.ts",
        "['reflectance',",
    ),
    (
        "fileParts.swatch",
        "a swatch that is a number",
        "refusals_files.ts",
        "['swatch',",
    ),
    (
        "fileParts.stains",
        "stains that are a number",
        "refusals_files.ts",
        "['stains',",
    ),
    (
        "fileParts.stain",
        "a name of 81 letters",
        "refusals_files.ts",
        "['stain',",
    ),
    (
        "fileParts.coats",
        "13 coats",
        "refusals_files.ts",
        "['coats',",
    ),
    (
        "fileParts.mix",
        "a mix of nothing",
        "refusals_files.ts",
        "['mix',",
    ),
    (
        "fileParts.manyStains",
        "61 stains",
        "refusals_files.ts",
        "['manyStains',",
    ),
    (
        "fileParts.manySwatches",
        "1001 swatches",
        "refusals_files.ts",
        "['manySwatches',",
    ),
    (
        "fileParts.work",
        "a work that is none",
        "refusals_files.ts",
        "['work',",
    ),
    (
        "outlineFailed",
        "a tap, with the tooth in hand, where no outline is to be had",
        "refusals_rest.e2e.ts",
        "No outline was found for the tooth.",
    ),
    (
        "nothingThere",
        "the same",
        "refusals_rest.e2e.ts",
        "No tooth or tab stands out at that place.",
    ),
    (
        "outlineByHand",
        "the same",
        "refusals_rest.e2e.ts",
        "You can also place it by numbers and drag it into shape.",
    ),
    (
        "findFailed",
        "the worker ends at the search",
        "refusals_rest.e2e.ts",
        "The search for card, tabs and teeth failed.",
    ),
    (
        "findByHand",
        "the same",
        "refusals_rest.e2e.ts",
        "You can mark them by tapping.",
    ),
    (
        "cutFailed",
        "the worker ends at the cut",
        "refusals_rest.e2e.ts",
        "The outline could not be cut.",
    ),
    (
        "readAgain",
        "after a cancelled reading",
        "refusals_rest.e2e.ts",
        "It starts again with your next change.",
    ),
    (
        "absent",
        "a change to a case whose photo is not in it",
        "refusals_rest.e2e.ts",
        "The photo itself is not in this case, only its outlines and numbers.",
    ),
    (
        "absentAdvice",
        "the same",
        "refusals_rest.e2e.ts",
        "Ask the sender for the case with its photos to read it again.",
    ),
    (
        "fitFailed",
        "a book of which no swatch can be used",
        "refusals_rest_later.e2e.ts",
        "The strengths of the stains could not be worked out.",
    ),
    (
        "planFailed",
        "the worker ends at the plan",
        "refusals_rest_later.e2e.ts",
        "No plan could be made.",
    ),
    (
        "partFailed",
        "a part of the page, or a language, does not come",
        "refusals_rest_later.e2e.ts",
        "A part of the page could not be loaded.",
    ),
    (
        "fileParts.practice",
        "a file of attempts that is none",
        "refusals_rest_later.e2e.ts",
        "The part “attempts” is missing or not as it should be.",
    ),
];

/// Entries that no browser test reaches yet, and why.
pub const PAGE_NOT_YET: &[(&str, &str)] = &[];

/// The entries of the page's catalogue of errors; those of `fileParts` one by one.
pub fn entries() -> Vec<String> {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("www/src/words/errors.ts");
    let text = std::fs::read_to_string(path).expect("the catalogue");
    let (_, body) = text
        .split_once("export const errors = {")
        .expect("the errors");
    let mut out = Vec::new();
    let mut inside = String::new();
    for line in body.lines() {
        let depth = line.len() - line.trim_start().len();
        let name: String = line
            .trim_start()
            .chars()
            .take_while(|c| c.is_alphanumeric())
            .collect();
        let named = !name.is_empty() && line.trim_start()[name.len()..].starts_with(':');
        match (depth, named) {
            (2, true) if line.ends_with('{') => {
                if name != "fileParts" {
                    out.push(name.clone());
                }
                inside = name;
            }
            (2, true) => out.push(name),
            (4, true) if inside == "fileParts" => out.push(format!("fileParts.{name}")),
            _ => {}
        }
    }
    out
}
