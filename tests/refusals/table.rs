//! The table of all of them, as people read it.

use crate::refusals::case::{Page, Wanted};
use crate::refusals::lists::{NO_CODE, UNREACHED, Why};
use crate::refusals::page::{PAGE, PAGE_NOT_YET};
use crate::refusals::scan::{Site, origins, sites};
use crate::refusals::write::unnamed;
use crate::refusals::{CALLED, TOLD};
use std::fmt::Write as _;

const HEAD: &str = "\
# Refusals and checks

Every error and every check of the program: what brings it about, the words that are shown, what can be
done, and the case that makes it happen. Made by `TABSIDE_BLESS=1 cargo test --test refusals`, which also
fails when a sentence or a code of `src/` has no case; in the page the same cases are brought about by
`www/e2e/refusals.e2e.ts`. Words are as the command line says them, without the name of the file before
them; the page says the same but where another text is given.
";

/// The whole table.
pub fn text() -> String {
    let all = sites();
    let mut out = HEAD.to_owned();
    counts(&all, &mut out);
    checks(&mut out);
    refusals(&all, &mut out);
    calls(&all, &mut out);
    page(&mut out);
    unreached(&all, &mut out);
    out
}

fn why(site: &Site) -> Option<Why> {
    UNREACHED
        .iter()
        .find(|(f, n, w, _)| site.is(f, n, w))
        .map(|(.., why)| *why)
}

fn counts(all: &[Site], out: &mut String) {
    let told: Vec<&str> = TOLD
        .iter()
        .filter_map(|t| Some(t.said.as_ref().ok()?.words.as_str()))
        .collect();
    let called: Vec<&str> = CALLED
        .iter()
        .filter_map(|(_, s)| Some(s.as_ref().ok()?.as_str()))
        .collect();
    let listed = |want: fn(&Why) -> bool| {
        all.iter()
            .filter(|s| why(s).is_some_and(|w| want(&w)))
            .count()
    };
    let from =
        |words: &[&str]| -> Vec<&Site> { words.iter().flat_map(|w| origins(all, w)).collect() };
    let (told, called) = (from(&told), from(&called));
    let own: Vec<&Site> = all.iter().filter(|s| why(s).is_none()).collect();
    let by_line = own.iter().filter(|s| told.contains(s)).count();
    let by_call = own
        .iter()
        .filter(|s| !told.contains(s) && called.contains(s))
        .count();
    let in_page = |p: &Page| !matches!(p, Page::Not(_));
    let refused = |w: Wanted| matches!(w, Wanted::Refused(_));
    let count = |refusal: bool, page: bool| {
        TOLD.iter()
            .filter(|t| refused(t.case.wanted) == refusal && (!page || in_page(&t.case.page)))
            .count()
    };
    let _ = write!(
        out,
        "\n| | |\n|---|---|\n| places that make an error (of them `Error::…(…)` itself) | {} ({}) |\n| reached by the command line | {} |\n\
         | reached only by calls that the page makes | {} |\n| that hand on the words of others | {} |\n| that cannot be reached from outside | {} |\n| not yet reached | {} |\n\
         | cases of the command line that are refused; of them in the page too | {}; {} |\n| cases of a check or finding; in the page too | {}; {} |\n| calls | {} |\n| what only the page says: tested; not yet | {}; {} |\n",
        all.len(),
        all.iter().filter(|s| s.direct).count(),
        by_line,
        by_call,
        listed(|w| *w == Why::HandsOn),
        listed(|w| matches!(w, Why::Guarded(_))),
        listed(|w| matches!(w, Why::NotYet(_))),
        count(true, false),
        count(true, true),
        count(false, false),
        count(false, true),
        CALLED.len(),
        PAGE.len(),
        PAGE_NOT_YET.len(),
    );
}

/// Text in a cell.
fn cell(text: &str) -> String {
    let mut out = String::new();
    for c in text.chars().filter(|c| !c.is_control()).take(420) {
        if c == '|' {
            out.push('\\');
        }
        out.push(c);
    }
    // What the system says of a file differs from one to the next.
    match (out.find("(os error"), out.find(" could not be ")) {
        (Some(end), Some(at)) => {
            let from = out[at..].find(": ").map_or(at, |p| at + p + 2);
            let to = out[end..].find(')').map_or(out.len(), |p| end + p + 1);
            format!("{}…{}", &out[..from], &out[to..])
        }
        _ => out,
    }
}

fn in_page(page: &Page) -> String {
    match page {
        Page::Drop(_) | Page::Read => "dropped".to_owned(),
        Page::OwnWords(_, words) | Page::ReadSays(words) => {
            format!("dropped; says “{}”", cell(words))
        }
        Page::Unlock(_, _, words) => format!("dropped, passphrase typed; says “{}”", cell(words)),
        Page::Call(call, _) => format!("`{call}`"),
        Page::CallSays(call, _, words) => format!("`{call}`; says “{}”", cell(words)),
        Page::Not(why) => format!("– ({why})"),
    }
}

fn checks(out: &mut String) {
    out.push_str("\n## Checks and findings\n\n| code | cause | words shown | what can be done | case | in the page |\n|---|---|---|---|---|---|\n");
    for told in TOLD.iter() {
        let (Wanted::Finding(code), Ok(said)) = (told.case.wanted, &told.said) else {
            continue;
        };
        let _ = writeln!(
            out,
            "| `{code}` | {}: {} | {} | {} | `{}` | {} |",
            told.case.door,
            cell(&told.case.cause),
            cell(&said.words),
            cell(&said.remedy),
            told.case.id,
            in_page(&told.case.page)
        );
    }
}

/// Where the words come from, what happened, what to do.
fn parts(all: &[Site], words: &str) -> [String; 4] {
    let from = origins(all, words);
    let words = unnamed(words);
    let Some(site) = from.first() else {
        return ["".to_owned(), "".to_owned(), cell(words), String::new()];
    };
    // The remedy begins where its own beginning stands, or after the first sentence.
    let remedy = site.remedy.as_deref().unwrap_or_default();
    let begin: String = remedy.chars().take_while(|c| *c != '{').take(24).collect();
    let at = (!begin.is_empty()).then(|| words.rfind(&begin)).flatten();
    let at = at.or_else(|| words.rfind(". ").map(|p| p + 2));
    let (what, remedy) = at.map_or((words, ""), |at| words.split_at(at));
    [
        site.file.clone(),
        site.kind.replace('_', "-"),
        cell(what.trim()),
        cell(remedy),
    ]
}

fn refusals(all: &[Site], out: &mut String) {
    out.push_str("\n## Refusals\n\n| where | kind | cause | words shown | what can be done | case | in the page |\n|---|---|---|---|---|---|---|\n");
    for told in TOLD.iter() {
        let (Wanted::Refused(_), Ok(said)) = (told.case.wanted, &told.said) else {
            continue;
        };
        let [file, kind, what, remedy] = parts(all, &said.words);
        let _ = writeln!(
            out,
            "| `{file}` | {kind} | {}: {} | {what} | {remedy} | `{}` | {} |",
            told.case.door,
            cell(&told.case.cause),
            told.case.id,
            in_page(&told.case.page)
        );
    }
}

fn calls(all: &[Site], out: &mut String) {
    out.push_str("\n## Calls of the page that the command line does not make\n\nThe engine is called here and by the page's own worker, with the same arguments.\n\n| where | kind | cause | words shown | what can be done | case | call |\n|---|---|---|---|---|---|---|\n");
    for (call, said) in CALLED.iter() {
        let Ok(words) = said else { continue };
        let [file, kind, what, remedy] = parts(all, words);
        let _ = writeln!(
            out,
            "| `{file}` | {kind} | {} | {what} | {remedy} | `{}` | `{}`{} |",
            cell(call.cause),
            call.id,
            call.call,
            if call.native {
                ""
            } else {
                " (in the page alone)"
            }
        );
    }
}

fn page(out: &mut String) {
    out.push_str("\n## What only the page says\n\n| entry of `words/errors.ts` | when | test |\n|---|---|---|\n");
    for (entry, when, test, _) in PAGE {
        let _ = writeln!(out, "| `{entry}` | {when} | `{test}` |");
    }
    for (entry, when) in PAGE_NOT_YET {
        let _ = writeln!(out, "| `{entry}` | {when} | **not yet** |");
    }
}

fn unreached(all: &[Site], out: &mut String) {
    out.push_str("\n## Not reached\n\n| where | sentence | why |\n|---|---|---|\n");
    for (file, function, words, why) in UNREACHED {
        let count = all.iter().filter(|s| s.is(file, function, words)).count();
        let reason = match why {
            Why::HandsOn => "hands on the words of others".to_owned(),
            Why::Guarded(reason) => (*reason).to_owned(),
            Why::NotYet(reason) => format!("**not yet**: {reason}"),
        };
        let times = if count > 1 {
            format!(" ({count} places)")
        } else {
            String::new()
        };
        let _ = writeln!(
            out,
            "| `{file}`, `{function}`{times} | {} | {reason} |",
            cell(words)
        );
    }
    for (code, why) in NO_CODE {
        if let Why::Guarded(reason) | Why::NotYet(reason) = why {
            let _ = writeln!(out, "| code `{code}` | | {reason} |");
        }
    }
}
