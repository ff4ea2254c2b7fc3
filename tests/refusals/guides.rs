//! Shade guides and tables of colours that cannot be used.

use crate::refusals::case::{Case, Page, Wanted};
use serde_json::json;

const HEAD: &str = "name,L*,a*,b*\n";

fn guide(
    id: &str,
    name: &'static str,
    cause: &str,
    bytes: impl Into<Vec<u8>>,
    words: &'static str,
) -> Case {
    Case::new(
        format!("guide-{id}"),
        "shade guide",
        cause,
        &format!("guide {name}"),
        Wanted::Refused(words),
    )
    .file(name, bytes)
    .page(Page::Drop(name))
}

fn json_one(id: &str, cause: &str, text: impl Into<Vec<u8>>, words: &'static str) -> Case {
    guide(id, "own.guide.json", cause, text, words)
}

fn csv(id: &str, cause: &str, text: impl Into<String>, words: &'static str) -> Case {
    guide(id, "tabs.csv", cause, text.into().into_bytes(), words)
}

fn cgats(id: &str, cause: &str, text: impl Into<String>, words: &'static str) -> Case {
    guide(id, "tabs.cgats", cause, text.into().into_bytes(), words)
}

/// All of them.
pub fn cases() -> Vec<Case> {
    let mut out = own_form();
    out.extend(as_csv());
    out.extend(rows());
    out.extend(as_cgats());
    out
}

fn own_form() -> Vec<Case> {
    let of = |tabs: serde_json::Value| {
        serde_json::to_vec(&json!({"name": "x", "source": "measured", "tabs": tabs})).expect("JSON")
    };
    let tab = |name: &str, lab: [f64; 3]| json!({"name": name, "lab": lab});
    vec![
        json_one(
            "json",
            "a guide without its tabs",
            *b"{\"name\": \"x\"}",
            "The shade guide could not be read",
        )
        .page(Page::OwnWords(
            "own.guide.json",
            "Check the file or the numbers.",
        )),
        json_one("none", "a guide of no tabs", of(json!([])), "has 0 tabs"),
        json_one(
            "nameless",
            "a tab without a name",
            of(json!([tab("", [70.0, 0.0, 10.0])])),
            "no usable name",
        ),
        json_one(
            "colour",
            "a tab lighter than light",
            of(json!([tab("A1", [700.0, 0.0, 10.0])])),
            "has a colour that cannot be",
        ),
        json_one(
            "twice",
            "two tabs of one name",
            of(json!([
                tab("A1", [70.0, 0.0, 10.0]),
                tab("A1", [71.0, 0.0, 10.0])
            ])),
            "names “A1” twice",
        ),
    ]
}

fn as_csv() -> Vec<Case> {
    let wide: Vec<String> = (0..201).map(|i| format!("c{i}")).collect();
    let tall = format!("{HEAD}{}", "A1,70,1,15\n".repeat(2001));
    let large = Page::OwnWords("tabs.csv", "The file is larger than any shade guide.");
    vec![
        csv(
            "huge",
            "a table of more than 8 MiB",
            " ".repeat((8 << 20) + 1),
            "larger than any shade guide",
        )
        .page(large.clone()),
        csv(
            "large",
            "a table of more than 4 MiB",
            " ".repeat((4 << 20) + 1),
            "at most 4194304 are read",
        )
        .page(large),
        csv("empty", "an empty table", " \n", "The table is empty"),
        guide(
            "binary",
            "tabs.csv",
            "a spreadsheet's own file",
            *b"PK\x03\x04\x14\0\0\0",
            "The file is no text table",
        ),
        csv(
            "wide",
            "a table of 201 columns",
            wide.join(",") + "\n",
            "more than 200 columns",
        ),
        csv("tall", "a table of 2001 rows", tall, "more than 2000 rows"),
        csv(
            "uneven",
            "a row with more cells than columns",
            format!("{HEAD}A1,79,6,1,2,15\n"),
            "more cells than the first row",
        ),
        csv(
            "two-columns",
            "two columns for L*",
            "name,L*,L,a*,b*\nA1,70,70,1,15\n",
            "two columns for L*",
        ),
        csv(
            "no-name",
            "no column of names",
            "L*,a*,b*\n70,1,15\n",
            "no column for the name",
        ),
        csv(
            "no-axis",
            "no column for b*",
            "name,L*,a*\nA1,70,1\n",
            "no column for b*",
        ),
        csv(
            "no-colour",
            "no colours at all",
            "name,C*,h\nA1,7,80\n",
            "no column for L*",
        ),
        csv(
            "xyz",
            "colours as XYZ",
            "name,XYZ_X,XYZ_Y,XYZ_Z\nA1,1,2,3\n",
            "holds XYZ, no L*a*b*",
        ),
        csv(
            "no-rows",
            "no row of a tab",
            "name,L*,a*,b*,kind\n11,70,1,15,tooth\n",
            "no row with the colour of a tab",
        ),
        csv(
            "two-thirds",
            "two of three thirds",
            "name,zone,L*,a*,b*\nA1,cervical,70,1,15\nA1,middle,71,1,15\n",
            "neither the colour of the whole",
        ),
        csv(
            "10-degrees",
            "the 10° observer",
            "name,L* (10deg),a*,b*\nA1,70,1,15\n",
            "10° observer",
        ),
        csv(
            "light-a",
            "light A",
            "name,L*,a*,b*,illuminant\nA1,70,1,15,A\n",
            "for the light “A”",
        ),
        csv(
            "two-lights",
            "D50 and D65",
            "name,L*,a*,b*,illuminant\nA1,70,1,15,D65\nA2,70,1,15,D50\n",
            "both D50 and D65",
        ),
    ]
}

fn rows() -> Vec<Case> {
    let row =
        |id: &str, cause: &str, row: &str, words| csv(id, cause, format!("{HEAD}{row}\n"), words);
    let semicolons = |rows: &str| format!("name;L*;a*;b*\n{rows}\n");
    let sources = |rows: &str| format!("name,L*,a*,b*,source\n{rows}\n");
    vec![
        row(
            "word",
            "a word for a number",
            "A1,light,1,15",
            "is no number",
        ),
        row(
            "digits",
            "a number of 50 digits",
            &format!("A1,{},1,15", "7".repeat(50)),
            "is no number",
        ),
        csv(
            "signs",
            "decimal points and commas",
            semicolons("A1;79,6;1,2;15,0\nA2;79.6;1.2;15.0"),
            "others a decimal comma",
        ),
        row("beyond", "L* of 700", "A1,700,1,15", "L* 700 cannot be"),
        row("half", "a colour without b*", "A1,70,1,", "b* is missing"),
        row(
            "unnamed",
            "a row without a name",
            ",70,1,15",
            "Row 2 has no name",
        ),
        row(
            "long",
            "a name of 61 letters",
            &format!("{},70,1,15", "x".repeat(61)),
            "is longer than",
        ),
        row(
            "odd-name",
            "a name with a sign that shows nothing",
            "A\u{202e}1,70,1,15",
            "signs that belong to no name",
        ),
        row(
            "formula",
            "a name that begins like a formula",
            "=A1,70,1,15",
            "begins like a formula",
        ),
        row(
            "again",
            "one tab twice",
            "A1,70,1,15\nA1,71,1,15",
            "once more",
        ),
        csv(
            "third",
            "a third that is none",
            "name,zone,L*,a*,b*\nA1,left,70,1,15\n",
            "is no third of a tab",
        ),
        csv(
            "source",
            "a source that is none",
            sources("A1,70,1,15,guessed"),
            "is no source",
        ),
        csv(
            "sources",
            "measured and published",
            sources("A1,70,1,15,measured\nA2,70,1,15,published"),
            "some colours are called measured",
        ),
    ]
}

fn as_cgats() -> Vec<Case> {
    let sound = "CGATS.17\nNUMBER_OF_FIELDS 4\nBEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\n\
                 NUMBER_OF_SETS 1\nBEGIN_DATA\nA1 79 1 13\nEND_DATA\n";
    let wide: Vec<String> = (0..201).map(|i| format!("F{i}")).collect();
    let tall = "A1 79 1 13\n".repeat(2001);
    vec![
        cgats(
            "cgats-wide",
            "a CGATS of 201 fields",
            sound.replace("SAMPLE_ID LAB_L LAB_A LAB_B", &wide.join(" ")),
            "more than 200 columns",
        ),
        cgats(
            "cgats-tall",
            "a CGATS of 2001 rows",
            sound.replace("A1 79 1 13\n", &tall),
            "more than 2000 rows",
        ),
        cgats(
            "cgats-fieldless",
            "a CGATS without fields",
            sound.replace("SAMPLE_ID LAB_L LAB_A LAB_B\n", ""),
            "names no fields",
        ),
        cgats(
            "cgats-count",
            "a CGATS that counts wrongly",
            sound.replace("FIELDS 4", "FIELDS 5"),
            "another number of fields",
        ),
        cgats(
            "cgats-cut",
            "a CGATS that was cut off",
            sound.replace("END_DATA\n", ""),
            "breaks off or is uneven",
        ),
    ]
}
