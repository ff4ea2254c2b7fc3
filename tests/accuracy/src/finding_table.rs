//! The tables of what was found.

use crate::contact::sheet;
use crate::finding::{CrownScore, FOUND, Proposal, SceneScore, score_random};
use crate::table::{Table, median, percent, percentile};
use scene_render::spec::Variety;
use std::fmt::Write as _;
use std::path::Path;

/// Which crowns a row of the table is about.
type Group = fn(&CrownScore) -> bool;

/// Photos on the contact sheet.
const WORST: usize = 10;

/// Seeds that nothing was ever tuned on.
pub const HELD_BACK: u64 = 9000;

/// Renders, searches, taps; gives the tables and writes the contact sheet of the worst photos.
///
/// # Errors
/// When a scene cannot be rendered or the sheet cannot be written.
pub fn finding(scenes: u64, worst: bool, sheet_file: &Path) -> Result<String, String> {
    let mut text = String::new();
    for (title, variety) in [
        ("Varied photos", Variety::finding()),
        ("Usual photos with card and tabs", Variety::trust()),
    ] {
        let mut scores = Vec::new();
        for seed in HELD_BACK..HELD_BACK + scenes {
            let score = score_random(seed, &variety)?;
            eprintln!(
                "  seed {seed}: {} of {} found, {} false; card {:?}",
                score.crowns.iter().filter(|c| c.found >= FOUND).count(),
                score.crowns.len(),
                score.false_outlines,
                score.card
            );
            scores.push(score);
        }
        let _ = write!(text, "## {title}\n\n{}\n", tables(&scores));
        if worst {
            text.push_str(&worst_list(&scores));
        }
        if title.starts_with("Varied") {
            scores.sort_by(|a, b| b.badness().total_cmp(&a.badness()));
            let picked: Vec<&SceneScore> = scores.iter().take(WORST).collect();
            let seeds: Vec<u64> = picked.iter().map(|s| s.seed).collect();
            sheet(&picked)
                .save(sheet_file)
                .map_err(|e| format!("{}: {e}", sheet_file.display()))?;
            let _ = writeln!(text, "The ten worst (contact sheet): seeds {seeds:?}.\n");
        }
    }
    Ok(text)
}

fn tables(scores: &[SceneScore]) -> String {
    let crowns: Vec<&CrownScore> = scores.iter().flat_map(|s| &s.crowns).collect();
    let mut table = Table::new(&[
        "what",
        "there",
        "found",
        "overlap (median; 5 % below)",
        "axis (median; within 5°)",
        "ends the right way round",
        "kind right",
        "one tap (median; ≥ 0.8)",
        "best of those offered (median; ≥ 0.8)",
    ]);
    let groups: [(&str, Group); 4] = [
        ("teeth and restorations", |c| c.kind != "tab"),
        ("… seen by 80 % and more", |c| {
            c.kind != "tab" && c.visible >= 0.8
        }),
        ("tabs", |c| c.kind == "tab"),
        ("… seen by 80 % and more", |c| {
            c.kind == "tab" && c.visible >= 0.8
        }),
    ];
    for (name, is_in) in groups {
        let some: Vec<&CrownScore> = crowns.iter().copied().filter(|c| is_in(c)).collect();
        table.row(crown_row(name, &some));
    }
    let mut out = format!("{} photos.\n\n{table}\n", scores.len());
    let there: Vec<&SceneScore> = scores.iter().filter(|s| s.card.there).collect();
    let right: Vec<bool> = there
        .iter()
        .map(|s| s.card.claimed.is_some_and(|o| o >= FOUND))
        .collect();
    let overlaps: Vec<f64> = there.iter().filter_map(|s| s.card.claimed).collect();
    let tapped: Vec<f64> = there.iter().filter_map(|s| s.card.tapped).collect();
    let claimed = scores
        .iter()
        .filter(|s| !s.card.there && !s.card.sliver && s.card.claimed.is_some());
    let stepped: Vec<bool> = there
        .iter()
        .filter(|s| s.card.steps[0] > 1 && s.card.claimed.is_some())
        .map(|s| s.card.steps[0] == s.card.steps[1])
        .collect();
    let proposed = |p: Proposal| scores.iter().filter(|s| s.proposal == Some(p)).count();
    let all: usize = scores.iter().map(|s| s.outlines).sum();
    let wrong: usize = scores.iter().map(|s| s.false_outlines).sum();
    let _ = writeln!(
        out,
        "Cards: {:.1} % of {} found (overlap {:.3} median), claimed in {} of {} photos without one; \
         steps counted rightly in {:.0} % of {} stepped cards found; one tap on a plain card {:.3}.\n\n\
         Outlines on no crown or tab: {wrong} of {all} ({:.1} %).\n",
        percent(&right),
        there.len(),
        median(&overlaps),
        claimed.count(),
        scores
            .iter()
            .filter(|s| !s.card.there && !s.card.sliver)
            .count(),
        percent(&stepped),
        stepped.len(),
        median(&tapped),
        100.0 * wrong as f64 / all.max(1) as f64,
    );
    let [right, wrong, none] = [Proposal::Right, Proposal::Wrong, Proposal::None].map(proposed);
    let _ = writeln!(
        out,
        "Photos with one restoration: {}; one was proposed in {}, rightly in {right}.\n",
        right + wrong + none,
        right + wrong
    );
    out
}

fn crown_row(name: &str, some: &[&CrownScore]) -> Vec<String> {
    let list = |of: &dyn Fn(&CrownScore) -> f64| some.iter().map(|c| of(c)).collect::<Vec<f64>>();
    let share = |of: &dyn Fn(&CrownScore) -> bool| {
        percent(&some.iter().map(|c| of(c)).collect::<Vec<bool>>())
    };
    let axes: Vec<f64> = some.iter().filter_map(|c| c.axis_deg).collect();
    let flipped: Vec<bool> = axes.iter().map(|a| *a < 90.0).collect();
    let near: Vec<bool> = axes.iter().map(|a| *a <= 5.0).collect();
    let kinds: Vec<bool> = some.iter().filter_map(|c| c.kind_right).collect();
    vec![
        name.to_owned(),
        some.len().to_string(),
        format!("{:.1} %", share(&|c| c.found >= FOUND)),
        format!(
            "{:.3}; {:.3}",
            median(&list(&|c| c.found)),
            percentile(&list(&|c| c.found), 0.05)
        ),
        format!("{:.1}°; {:.0} %", median(&axes), percent(&near)),
        format!("{:.1} %", percent(&flipped)),
        format!("{:.1} %", percent(&kinds)),
        format!(
            "{:.3}; {:.0} %",
            median(&list(&|c| c.tapped)),
            share(&|c| c.tapped >= 0.8)
        ),
        format!(
            "{:.3}; {:.0} %",
            median(&list(&|c| c.offered)),
            share(&|c| c.offered >= 0.8)
        ),
    ]
}

fn worst_list(scores: &[SceneScore]) -> String {
    let mut crowns: Vec<&CrownScore> = scores.iter().flat_map(|s| &s.crowns).collect();
    crowns.sort_by(|a, b| a.found.total_cmp(&b.found));
    let mut out = String::new();
    for c in crowns.iter().take(20) {
        let _ = writeln!(
            out,
            "- {}: found {:.2}, one tap {:.2}, best offered {:.2}, visible {:.2}, axis {:.0?}°",
            c.what, c.found, c.tapped, c.offered, c.visible, c.axis_deg
        );
    }
    out + "\n"
}
