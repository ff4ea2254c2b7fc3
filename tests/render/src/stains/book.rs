//! The demonstration's swatch book: the fixed set, fired by the truth model.

use super::base::Ceramic;
use super::pigment::Kind;
use super::set::StainSet;
use serde_json::{Value, json};

/// L* of the dark base that the light stain is shown on as well.
const DARK_L: f64 = 68.0;

/// `demo.swatches.json`: each stain in one, two and three coats on the light base, the light one
/// on a dark base too. Everything in it is invented.
///
/// # Errors
/// When it cannot be written as JSON.
pub fn demo_book() -> Result<String, String> {
    let set = StainSet::demo();
    let dark = Ceramic::plain().of_l(DARK_L).base();
    let (mut stains, mut swatches) = (Vec::new(), Vec::new());
    for stain in &set.stains {
        stains.push(json!({
            "name": stain.name,
            "glaze": stain.kind == Kind::Glaze,
            "note": words(stain.kind),
        }));
        let bases = [
            Some(&set.swatch_base),
            (stain.kind == Kind::Light).then_some(&dark),
        ];
        for base in bases.into_iter().flatten() {
            for coats in [1.0, 2.0, 3.0] {
                let after = set.after(base, &[(&stain.name, 1.0)], coats)?;
                swatches.push(json!({
                    "stain": stain.name,
                    "coats": coats,
                    "base": rounded(set.read(base)),
                    "after": rounded(after),
                    "note": "invented",
                }));
            }
        }
    }
    let book = json!({"name": "Demo stains", "demo": true, "stains": stains, "swatches": swatches});
    let text = serde_json::to_string_pretty(&book).map_err(|e| e.to_string())?;
    Ok(text + "\n")
}

/// As a reading is written: two decimals.
fn rounded(lab: [f64; 3]) -> Value {
    json!(lab.map(|v| (v * 100.0).round() / 100.0))
}

const fn words(kind: Kind) -> &'static str {
    match kind {
        Kind::ReddishBrown => "reddish-brown",
        Kind::ReddishYellow => "reddish-yellow",
        Kind::Grey => "grey",
        Kind::ReddishGrey => "reddish-grey",
        Kind::IncisalGrey => "incisal grey",
        Kind::BlueViolet => "blue-violet",
        Kind::Light => "light: scatters, raises value at the price of opacity",
        Kind::Glaze => "glaze, for the foundation",
    }
}
