//! Cases for the tests.

use super::files::Picture;
use tabside::case::{
    Case, KeptAs, KeptPhoto, PhotoBytes, PhotoNote, PhotoRole, VERSION, Written, write,
};
use tabside::scene::{Point, Region, RegionKind, Scene};

/// A case with one small photo, a note and some work.
pub fn small() -> (Case, Vec<u8>) {
    let photo = Picture::scene().png();
    let region = Region {
        id: "t1".to_owned(),
        kind: RegionKind::Tooth,
        name: "11".to_owned(),
        outline: [[2.0, 2.0], [12.0, 2.0], [12.0, 13.0], [2.1, 13.0]]
            .map(Point)
            .to_vec(),
        cervical: None,
        incisal: None,
        borders: Some([0.3, 0.7]),
    };
    let case = Case {
        version: VERSION,
        label: Some("shelf 3".to_owned()),
        created: "2026-05-17T10:32:05Z".to_owned(),
        changed: "2026-05-17T10:40:00Z".to_owned(),
        photos: vec![KeptPhoto {
            id: "a".to_owned(),
            name: "photo one.png".to_owned(),
            scene: Scene {
                regions: vec![region],
                ..Scene::default()
            },
            notes: vec![PhotoNote {
                id: "n1".to_owned(),
                at: Point::new(3.25, 1.0 / 3.0),
                text: "a dark line".to_owned(),
            }],
            ..KeptPhoto::default()
        }],
        shown: Some("a".to_owned()),
        work: Some(serde_json::json!({"label": "11", "ticks": [0, 2], "share": 0.1 + 0.2})),
        ..Case::default()
    };
    (case, photo)
}

/// The small case written.
pub fn small_file() -> Written {
    let (case, photo) = small();
    write(
        &case,
        &[PhotoBytes {
            id: "a",
            bytes: &photo,
        }],
    )
    .expect("it is written")
}

/// A second photo, the partner of the first.
pub fn partner(id: &str) -> KeptPhoto {
    KeptPhoto {
        id: id.to_owned(),
        role: PhotoRole::CrossPolarisedPartner,
        kept: KeptAs::Original,
        ..KeptPhoto::default()
    }
}
