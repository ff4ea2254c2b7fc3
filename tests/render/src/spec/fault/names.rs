//! A tab that goes by another's name.

use crate::colour::delta_e_00;
use crate::guide::{CLASSICAL_16, tab_body_lab_d65};
use crate::rng::Rng;
use crate::spec::SceneSpec;
use crate::truth::Truth;
use std::collections::BTreeMap;

/// A tab and a name that is not in the photo, clearly another colour.
pub(super) fn wrong_name(spec: &SceneSpec, r: &mut Rng) -> Option<(usize, &'static str)> {
    let present = |name: &str| spec.tabs.iter().any(|t| t.name == name);
    let mut choices = Vec::new();
    for (i, tab) in spec.tabs.iter().enumerate() {
        let Some(own) = tab_body_lab_d65(&tab.name) else {
            continue;
        };
        for (name, _) in CLASSICAL_16 {
            let off = tab_body_lab_d65(name).map(|lab| delta_e_00(own, lab));
            if !present(name) && off.is_some_and(|d| d >= 4.0) {
                choices.push((i, name));
            }
        }
    }
    (!choices.is_empty()).then(|| r.pick(&choices))
}

/// Gives a tab of the finished truth its wrong name, and tells what the set's owner measured.
pub(super) fn misname(truth: &mut Truth, index: usize, wrong: &str) -> Result<(), String> {
    let own = truth
        .spec
        .tabs
        .get(index)
        .map(|t| t.name.clone())
        .ok_or("no such tab")?;
    let id = format!("tab-{own}");
    let zones = |id: &str| -> Option<BTreeMap<String, [f64; 3]>> {
        let zones = truth.zones.get(id)?;
        Some(zones.iter().map(|(k, z)| (k.clone(), z.lab)).collect())
    };
    let mut guide = BTreeMap::new();
    for tab in &truth.spec.tabs {
        if let Some(z) = zones(&format!("tab-{}", tab.name)) {
            guide.insert(tab.name.clone(), z);
        }
    }
    let (from, to) = (
        tab_body_lab_d65(&own).ok_or("no nominal colour")?,
        tab_body_lab_d65(wrong).ok_or("no nominal colour")?,
    );
    let mut moved = zones(&id).ok_or_else(|| format!("{id} is not in the picture"))?;
    for lab in moved.values_mut() {
        *lab = std::array::from_fn(|i| lab[i] + to[i] - from[i]);
    }
    guide.insert(wrong.to_owned(), moved);
    let region = truth
        .scene
        .regions
        .iter_mut()
        .find(|q| q.id == id)
        .ok_or_else(|| format!("{id} is not in the picture"))?;
    wrong.clone_into(&mut region.name);
    truth.misnamed = Some(id);
    truth.guide = guide;
    Ok(())
}
