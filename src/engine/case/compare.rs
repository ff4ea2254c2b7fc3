//! A kept report against a fresh one, number by number. Sentences may be worded anew and light checks
//! may be added by a later version; what is compared is what was measured.

use super::types::{Difference, Outcome, Reason, ReasonCode};
use crate::case::Case;
use crate::colour::{Lab, delta_e_00};
use serde_json::{Map, Value};

/// The parts of a report that hold what was measured.
const MEASURED: [&str; 5] = ["light", "readings", "ladders", "advice", "pair"];
/// Members that hold sentences.
const SENTENCES: [&str; 3] = ["words", "text", "remedy"];
/// Differences that are listed.
const LISTED: usize = 40;
/// What rounding in another machine's decoder moves a zone's colour by at most (ΔE00; invariant 8 in
/// DEVELOPERS.md).
const ROUNDING_DELTA_E_00: f64 = 0.02;
/// The same for other numbers: as much again in their own unit, or this share of them (counts of
/// pixels, degrees). Not measured; numbers beyond it are shown, not hidden.
const ROUNDING_SHARE: f64 = 0.002;

/// What a comparison found.
#[derive(Default)]
pub struct Compared {
    pub differences: Vec<Difference>,
    pub further: u32,
    pub largest_delta_e_00: Option<f64>,
    /// Something differs by more than rounding explains.
    beyond_rounding: bool,
}

impl Compared {
    /// Compares two reports.
    pub fn of(kept: &Value, now: &Value) -> Self {
        let mut out = Self::default();
        for part in MEASURED {
            out.values(part, kept.get(part), now.get(part));
        }
        out.colours(kept, now);
        out
    }

    /// What it comes to.
    pub fn outcome(&self) -> Outcome {
        if self.differences.is_empty() {
            Outcome::Same
        } else if !self.beyond_rounding
            && self
                .largest_delta_e_00
                .is_some_and(|d| d <= ROUNDING_DELTA_E_00)
        {
            Outcome::Rounded
        } else {
            Outcome::Different
        }
    }

    fn values(&mut self, place: &str, kept: Option<&Value>, now: Option<&Value>) {
        match (kept, now) {
            (Some(Value::Object(kept)), Some(Value::Object(now))) => self.members(place, kept, now),
            (Some(Value::Array(kept)), Some(Value::Array(now))) => {
                for i in 0..kept.len().max(now.len()) {
                    let (kept, now) = (kept.get(i), now.get(i));
                    let label = kept
                        .or(now)
                        .and_then(called)
                        .unwrap_or_else(|| i.to_string());
                    self.values(&format!("{place}/{label}"), kept, now);
                }
            }
            _ => self.leaves(
                place,
                kept.unwrap_or(&Value::Null),
                now.unwrap_or(&Value::Null),
            ),
        }
    }

    fn members(&mut self, place: &str, kept: &Map<String, Value>, now: &Map<String, Value>) {
        let added = now.keys().filter(|name| !kept.contains_key(*name));
        for name in kept.keys().chain(added) {
            if !SENTENCES.contains(&name.as_str()) {
                self.values(&format!("{place}/{name}"), kept.get(name), now.get(name));
            }
        }
    }

    fn leaves(&mut self, place: &str, kept: &Value, now: &Value) {
        // A page writes 1 where this program writes 1.0.
        let (same, near) = match (kept.as_f64(), now.as_f64()) {
            (Some(a), Some(b)) => {
                let near = ROUNDING_DELTA_E_00 + ROUNDING_SHARE * a.abs();
                (a == b, (a - b).abs() <= near)
            }
            _ => (kept == now, false),
        };
        if same {
            return;
        }
        self.beyond_rounding |= !near;
        if self.differences.len() < LISTED {
            self.differences.push(Difference {
                place: place.to_owned(),
                kept: brief(kept),
                now: brief(now),
            });
        } else {
            self.further = self.further.saturating_add(1);
        }
    }

    /// The largest difference of colour between zones that both have.
    fn colours(&mut self, kept: &Value, now: &Value) {
        let readings = |report: &Value| -> Vec<Value> {
            report
                .get("readings")
                .and_then(Value::as_array)
                .cloned()
                .unwrap_or_default()
        };
        let fresh = readings(now);
        for reading in readings(kept) {
            let Some(other) = fresh
                .iter()
                .find(|r| r.get("region") == reading.get("region"))
            else {
                continue;
            };
            for zone in ["cervical", "middle", "incisal", "whole"] {
                if let (Some(a), Some(b)) = (colour(&reading, zone), colour(other, zone)) {
                    let off = delta_e_00(a, b);
                    self.largest_delta_e_00 = Some(self.largest_delta_e_00.unwrap_or(0.0).max(off));
                }
            }
        }
    }
}

fn colour(reading: &Value, zone: &str) -> Option<Lab> {
    let lab = reading.get("zones")?.get(zone)?.get("lab")?.as_array()?;
    let [l, a, b] = lab.as_slice() else {
        return None;
    };
    Some(Lab::new(l.as_f64()?, a.as_f64()?, b.as_f64()?))
}

/// What an item of a list is about: its region, and its zone where it has one.
fn called(item: &Value) -> Option<String> {
    let of = |name| item.get(name).and_then(Value::as_str);
    let region = of("region")?;
    Some(of("zone").map_or_else(|| region.to_owned(), |zone| format!("{region}/{zone}")))
}

/// Lists and objects that only one side has are not written out.
fn brief(value: &Value) -> Value {
    match value {
        Value::Array(items) => Value::from(format!("{} items", items.len())),
        Value::Object(members) => Value::from(format!("{} members", members.len())),
        other => other.clone(),
    }
}

/// Why two reports differ, as far as it can be told.
pub fn reasons(case: &Case, kept: &Value, now: &Value, outcome: Outcome) -> Vec<Reason> {
    let mut out = Vec::new();
    let text = |report: &Value| {
        let version = report.get("version").and_then(Value::as_str);
        version
            .unwrap_or("unknown")
            .chars()
            .take(40)
            .collect::<String>()
    };
    let (then, today) = (text(kept), text(now));
    if then != today {
        out.push(Reason::new(
            ReasonCode::ProgramVersion,
            format!(
                "The kept numbers were made by version {then} of the program, these by {today}."
            ),
        ));
    }
    let scene = |report: &Value, part: &str| report.get("scene").and_then(|s| s.get(part)).cloned();
    for part in ["card", "second_card", "pair_transform", "cross_polarised"] {
        if !alike(&scene(kept, part), &scene(now, part)) {
            out.push(Reason::new(
                ReasonCode::CardEdited,
                format!(
                    "The scene's {} was changed after the reading.",
                    part.replace('_', " ")
                ),
            ));
        }
    }
    regions(&scene(kept, "regions"), &scene(now, "regions"), &mut out);
    if out.is_empty() && outcome == Outcome::Different {
        let guide = if case.guide.is_some() {
            ", or another shade guide was in use then"
        } else {
            ""
        };
        out.push(Reason::new(
            ReasonCode::Unexplained,
            format!("Scene and program version are the same: the kept numbers were changed, or the photo is another{guide}."),
        ));
    }
    out
}

fn regions(kept: &Option<Value>, now: &Option<Value>, out: &mut Vec<Reason>) {
    let list = |v: &Option<Value>| -> Vec<Value> {
        v.as_ref()
            .and_then(Value::as_array)
            .cloned()
            .unwrap_or_default()
    };
    let (kept, now) = (list(kept), list(now));
    let id = |r: &Value| {
        r.get("id")
            .and_then(Value::as_str)
            .unwrap_or_default()
            .to_owned()
    };
    let mut say = |region: &Value, how: &str| {
        out.push(Reason::new(
            ReasonCode::RegionEdited,
            format!("The region “{}” was {how} after the reading.", id(region)),
        ));
    };
    for region in &kept {
        match now.iter().find(|r| id(r) == id(region)) {
            None => say(region, "removed"),
            Some(other) if !alike(&Some(region.clone()), &Some(other.clone())) => {
                say(region, "changed")
            }
            Some(_) => {}
        }
    }
    for region in now.iter().filter(|r| !kept.iter().any(|k| id(k) == id(r))) {
        say(region, "added");
    }
}

/// The same data, numbers by value.
fn alike(a: &Option<Value>, b: &Option<Value>) -> bool {
    let mut compared = Compared::default();
    compared.values("", a.as_ref(), b.as_ref());
    compared.differences.is_empty()
}
