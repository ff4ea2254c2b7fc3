//! The sixteen classical tabs as nominal body colours, for invented tab sets.
//!
//! Source: O'Brien, Groh & Boenke, J Dent Res 1990;69:1762–4 (reflectance spectrophotometer with
//! integrating sphere, illuminant C, 2° observer); the rows are quoted from memory and have not
//! been checked against the print. Real sets differ from each other; here every set is drawn
//! around these rows.

/// Name and CIELAB under illuminant C.
pub const CLASSICAL_16: [(&str, [f64; 3]); 16] = [
    ("A1", [79.57, -1.61, 13.05]),
    ("A2", [76.04, -0.08, 16.73]),
    ("A3", [75.36, 1.36, 19.61]),
    ("A3.5", [72.31, 1.48, 21.81]),
    ("A4", [68.56, 1.58, 21.00]),
    ("B1", [78.90, -1.76, 12.33]),
    ("B2", [76.66, -1.62, 16.62]),
    ("B3", [74.13, 0.47, 22.34]),
    ("B4", [71.81, 0.50, 22.15]),
    ("C1", [74.29, -1.26, 12.56]),
    ("C2", [70.95, -0.22, 16.72]),
    ("C3", [68.83, -0.01, 16.68]),
    ("C4", [64.78, 1.59, 18.66]),
    ("D2", [75.27, -0.54, 13.47]),
    ("D3", [72.55, 0.62, 16.14]),
    ("D4", [71.77, -1.03, 17.77]),
];

/// The body colour of a tab under D65, from its spectrum lifted under C.
pub fn tab_body_lab_d65(name: &str) -> Option<[f64; 3]> {
    let (_, lab) = CLASSICAL_16.iter().find(|(n, _)| *n == name)?;
    let r = crate::material::lift(
        crate::material::Family::Ceramic,
        crate::illuminant::Illuminant::C,
        *lab,
    )
    .ok()?;
    Some(crate::colour::lab_d65(&r))
}
