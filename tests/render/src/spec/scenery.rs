//! What surrounds mouth, card and tabs in a picture, and what stands before them: lips and skin,
//! gloves, retractors, mirrors, wires, papers. All of it is absent from a scene unless it is asked
//! for. A scene that has any scenery lists every visible crown in its truth, however little of it
//! is seen.

use serde::{Deserialize, Serialize};

/// Surroundings of a scene.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Scenery {
    /// The lips' opening with the skin around it.
    pub opening: Option<Opening>,
    /// Turn of the head about the upright axis: above 0 the teeth on the left of the picture face
    /// the camera.
    pub view_yaw_deg: f64,
    /// The card is held behind the tabs.
    pub card_behind: bool,
    /// Length of the tabs' holders.
    pub stem_mm: f64,
    /// Hands, tools, papers.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub props: Vec<Prop>,
    /// Rims of cheek retractors at both sides of the opening.
    pub rims: Option<Rims>,
    /// Brackets and wire on the crowns.
    pub braces: Option<Braces>,
    /// Crowns of metal.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub metals: Vec<Metal>,
    /// Visible fillings on crowns.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub fillings: Vec<Filling>,
    /// Bubbles and strings of saliva, 0–1.
    pub saliva: f64,
    /// Brown patches on the gums, 0–1.
    pub pigment: f64,
    /// The tongue is put forward by this.
    pub tongue_mm: f64,
}

impl Default for Scenery {
    fn default() -> Self {
        Self {
            opening: None,
            view_yaw_deg: 0.0,
            card_behind: false,
            stem_mm: 26.0,
            props: Vec::new(),
            rims: None,
            braces: None,
            metals: Vec::new(),
            fillings: Vec::new(),
            saliva: 0.0,
            pigment: 0.0,
            tongue_mm: 0.0,
        }
    }
}

/// The opening between the lips: |x/a|ⁿ + |y/b|ⁿ = 1 with a `b` of its own above and below.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Opening {
    /// Where the corners of the mouth are level.
    pub centre_mm: [f64; 2],
    /// a.
    pub half_width_mm: f64,
    /// b above and below.
    pub reach_mm: [f64; 2],
    /// n: about 1.5 a smile, above 2.5 pulled wide.
    pub power: f64,
    /// Width of the red of the lips above and below.
    pub red_mm: [f64; 2],
    /// CIELAB of the lips.
    pub lip: [f64; 3],
    /// CIELAB of the skin.
    pub skin: [f64; 3],
}

/// Something held or lying in the picture.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Prop {
    /// What it is.
    pub kind: PropKind,
    /// A finger's tip; the middle of anything else.
    pub at_mm: [f64; 2],
    /// Width and height (a finger: width and length, pointing up at turn 0).
    pub size_mm: [f64; 2],
    /// In the picture plane.
    pub turn_deg: f64,
    /// Toward the camera.
    pub z_mm: f64,
    /// CIELAB of its surface.
    pub colour: [f64; 3],
    /// Where in the pile it lies.
    pub layer: Layer,
}

/// Forms and surfaces of props.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PropKind {
    /// A finger in a glove.
    Finger,
    /// The flat of a hand in a glove.
    Palm,
    /// A small round mirror with its handle.
    Mirror,
    /// A polished steel band.
    SteelBand,
    /// A dull metal plate that holds tabs.
    Plate,
    /// A matt black plate behind the upper teeth.
    BlackPlate,
    /// A paper napkin, embossed.
    Napkin,
    /// A roll of cotton.
    CottonRoll,
}

/// Where in the pile a prop lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Layer {
    /// Before card and tabs.
    Front,
    /// Behind card and tabs, before the lips.
    Held,
    /// Between the lips and the gums.
    Inside,
    /// Behind the upper teeth.
    Behind,
}

/// Rims of cheek retractors.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Rims {
    /// Width of the band.
    pub width_mm: f64,
    /// 0 clear – 1 milky.
    pub opacity: f64,
    /// CIELAB of the plastic.
    pub colour: [f64; 3],
}

/// Brackets with a wire.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Braces {
    /// Tooth-coloured blocks, else steel.
    pub ceramic: bool,
    /// Thickness of the wire.
    pub wire_mm: f64,
    /// On the lower teeth too.
    pub lower: bool,
}

/// A crown of metal.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Metal {
    /// Which tooth.
    pub fdi: u8,
    /// CIELAB of its diffuse part.
    pub colour: [f64; 3],
}

/// A filling of another colour on a part of a crown.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Filling {
    /// Which tooth.
    pub fdi: u8,
    /// Its middle: across (−1–1 of the half width) and along (0 neck – 1 edge).
    pub at: [f64; 2],
    /// Half width and half height.
    pub half_mm: [f64; 2],
    /// Against the tooth's body.
    pub off: [f64; 3],
}
