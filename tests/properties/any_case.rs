//! Cases of any content that a case file may have.

use crate::support::exif::Value as Exif;
use crate::support::exif::Writer;
use crate::support::files::Picture;
use proptest::collection::{btree_map, vec};
use proptest::option;
use proptest::prelude::*;
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use tabside::case::{
    Case, KeptAs, KeptPhoto, KeptReading, PhotoNote, PhotoRole, Proposal, VERSION,
};
use tabside::colour::Lab;
use tabside::reading::{Guide, GuideSource, GuideTab, GuideZones};
use tabside::scene::{Card, CardStep, Point, Region, RegionKind, Scene};
use tabside::stain::{StainInfo, Swatch, SwatchBook};

/// A case, the files of its photos by id, and which of them tell what is not kept.
#[derive(Debug, Clone)]
pub struct Given {
    pub case: Case,
    pub photos: BTreeMap<String, Vec<u8>>,
    pub telling: BTreeSet<String>,
}

/// Any characters, those that are rarely thought of more often than by chance.
fn text(most: usize) -> impl Strategy<Value = String> {
    let odd = prop::sample::select(vec![
        '\0',
        '\u{7}',
        '\n',
        '\r',
        '\t',
        '"',
        '\\',
        '/',
        '<',
        '=',
        '\u{7f}',
        '\u{85}',
        '\u{a0}',
        '\u{301}',
        '\u{200d}',
        '\u{202e}',
        '\u{2028}',
        '\u{2029}',
        '\u{feff}',
        '\u{fffd}',
        '\u{ffff}',
        '😀',
        '\u{10ffff}',
        'é',
        'ß',
    ]);
    let one = prop_oneof![3 => any::<char>(), 1 => odd, 1 => prop::char::range(' ', '~')];
    vec(one, 0..=most).prop_map(|all| all.into_iter().collect())
}

/// Passphrases of any characters.
pub fn any_passphrase() -> impl Strategy<Value = String> {
    text(24).prop_map(|t| format!("long enough {t}"))
}

/// Any number that JSON has.
fn number() -> impl Strategy<Value = f64> {
    use prop::num::f64::{NEGATIVE, NORMAL, POSITIVE, SUBNORMAL, ZERO};
    POSITIVE | NEGATIVE | NORMAL | SUBNORMAL | ZERO
}

/// A coordinate: within a million pixels, of any fineness.
fn coordinate() -> impl Strategy<Value = f64> {
    prop_oneof![
        -1e6..1e6_f64,
        0.0..4000.0_f64,
        Just(-0.0),
        Just(1.0 / 3.0),
        Just(5e-324)
    ]
}

fn point() -> impl Strategy<Value = Point> {
    [coordinate(), coordinate()].prop_map(Point)
}

fn outline() -> impl Strategy<Value = Vec<Point>> {
    vec(point(), 0..12)
}

fn lab() -> impl Strategy<Value = Lab> {
    [number(), number(), number()].prop_map(Lab)
}

/// A colour that a tab may have.
fn tab_lab() -> impl Strategy<Value = Lab> {
    (0.0..110.0_f64, -100.0..100.0_f64, -100.0..100.0_f64).prop_map(|(l, a, b)| Lab([l, a, b]))
}

/// JSON of any shape, a few levels deep.
fn json() -> impl Strategy<Value = Value> {
    let leaf = prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::from),
        any::<u64>().prop_map(Value::from),
        any::<i64>().prop_map(Value::from),
        number().prop_map(Value::from),
        text(12).prop_map(Value::from),
    ];
    leaf.prop_recursive(4, 24, 5, |inner| {
        prop_oneof![
            vec(inner.clone(), 0..5).prop_map(Value::from),
            btree_map(text(8), inner, 0..5).prop_map(|m| Value::Object(m.into_iter().collect())),
        ]
    })
}

fn card() -> impl Strategy<Value = Card> {
    let step = (outline(), lab()).prop_map(|(outline, lab)| CardStep { outline, lab });
    (
        outline(),
        option::of(lab()),
        option::of(number()),
        vec(step, 0..4),
    )
        .prop_map(|(outline, lab, reflectance, steps)| Card {
            outline,
            lab,
            reflectance,
            steps,
        })
}

fn region() -> impl Strategy<Value = Region> {
    let kind = prop::sample::select(vec![
        RegionKind::Tooth,
        RegionKind::Restoration,
        RegionKind::Tab,
    ]);
    let ends = (option::of(point()), option::of(point()));
    (
        text(30),
        kind,
        text(60),
        outline(),
        ends,
        option::of([number(), number()]),
    )
        .prop_map(
            |(id, kind, name, outline, (cervical, incisal), borders)| Region {
                id,
                kind,
                name,
                outline,
                cervical,
                incisal,
                borders,
            },
        )
}

fn scene() -> impl Strategy<Value = Scene> {
    let transform = [
        [number(), number(), number()],
        [number(), number(), number()],
    ]
    .prop_map(|rows: [[f64; 3]; 2]| rows);
    (
        option::of(card()),
        option::of(card()),
        vec(region(), 0..5),
        any::<bool>(),
        option::of(transform),
    )
        .prop_map(
            |(card, second_card, regions, cross_polarised, pair_transform)| Scene {
                card,
                second_card,
                regions,
                cross_polarised,
                pair_transform,
            },
        )
}

fn guide() -> impl Strategy<Value = Guide> {
    let zones = (
        option::of(tab_lab()),
        option::of(tab_lab()),
        option::of(tab_lab()),
    )
        .prop_map(|(cervical, middle, incisal)| GuideZones {
            cervical,
            middle,
            incisal,
        });
    let tab = (text(50), tab_lab(), option::of(zones));
    let source = prop::sample::select(vec![GuideSource::Measured, GuideSource::Published]);
    (text(40), source, vec(tab, 1..6), option::of(text(40))).prop_map(
        |(name, source, tabs, note)| Guide {
            name,
            source,
            // Names have to be there, and each once.
            tabs: tabs
                .into_iter()
                .enumerate()
                .map(|(i, (name, lab, zones))| GuideTab {
                    name: format!("{i}{name}"),
                    lab,
                    zones,
                })
                .collect(),
            note,
        },
    )
}

fn swatch() -> impl Strategy<Value = Swatch> {
    let mix = btree_map(text(12), number(), 0..3);
    (
        (text(12), option::of(mix), number(), lab(), lab()),
        (option::of(lab()), option::of(number()), text(20)),
    )
        .prop_map(
            |((stain, mix, coats, base, after), (unfired, doubt, note))| Swatch {
                stain,
                mix,
                coats,
                base,
                after,
                unfired,
                doubt,
                note,
            },
        )
}

fn book() -> impl Strategy<Value = SwatchBook> {
    let stain = (text(12), any::<bool>(), text(12), any::<bool>()).prop_map(
        |(name, glaze, note, resting)| StainInfo {
            name,
            glaze,
            note,
            resting,
        },
    );
    (
        text(20),
        any::<bool>(),
        vec(stain, 0..4),
        vec(swatch(), 0..4),
    )
        .prop_map(|(name, demo, stains, swatches)| SwatchBook {
            name,
            demo,
            stains,
            swatches,
        })
}

/// A small file of any format, with or without a position in its EXIF.
fn file() -> impl Strategy<Value = (Vec<u8>, bool)> {
    (0..5_u8, any::<u32>(), any::<bool>()).prop_map(|(format, seed, tells)| {
        let bits = if format == 1 { 16 } else { 8 };
        let mut dice = crate::support::Dice(u64::from(seed));
        let full = if bits == 8 { 255 } else { u16::MAX };
        let mut picture = Picture::scene();
        picture.bits = bits;
        picture
            .codes
            .iter_mut()
            .for_each(|c| *c = dice.code() & full);
        if format == 4 {
            let more = if tells {
                vec![(315, Exif::Ascii(b"somebody\0".to_vec()))]
            } else {
                Vec::new()
            };
            return (picture.tiff(seed % 2 == 0, more), tells);
        }
        if tells {
            let mut block = b"II*\0\x08\0\0\0".to_vec();
            let artist = (315, Exif::Ascii(b"somebody\0".to_vec()));
            Writer { big: false }.directory(&mut block, &[artist], 0);
            picture = picture.exif(block);
        }
        let bytes = match format {
            0 | 1 => picture.png(),
            2 => picture.jpeg(),
            _ => picture.webp(),
        };
        (bytes, tells)
    })
}

type PhotoWithFile = (KeptPhoto, (Vec<u8>, bool));

fn photo() -> impl Strategy<Value = PhotoWithFile> {
    let kept = prop::sample::select(vec![KeptAs::Original, KeptAs::Reduced, KeptAs::Absent]);
    let note = (text(20), point(), text(80)).prop_map(|(id, at, text)| PhotoNote { id, at, text });
    let proposal = (
        option::of(text(9)),
        option::of(text(9)),
        vec(outline(), 0..3),
    )
        .prop_map(|(restoration, target, card_steps)| Proposal {
            restoration,
            target,
            card_steps,
        });
    (
        (text(20), text(80), kept, scene(), option::of(text(20))),
        (
            option::of(proposal),
            vec(note, 0..4),
            option::of(json()),
            file(),
        ),
    )
        .prop_map(
            |((id, name, kept, scene, target), (proposal, notes, report, file))| {
                let photo = KeptPhoto {
                    id,
                    name,
                    kept,
                    scene,
                    target,
                    proposal,
                    notes,
                    reading: report.map(|report| KeptReading { report }),
                    ..KeptPhoto::default()
                };
                (photo, file)
            },
        )
}

/// A case of anything.
pub fn any_given() -> impl Strategy<Value = Given> {
    (
        (option::of(text(60)), text(30), text(30), vec(photo(), 0..5)),
        (
            any::<bool>(),
            option::of(guide()),
            option::of(book()),
            option::of(json()),
        ),
        btree_map(text(10), json(), 0..4),
    )
        .prop_map(
            |((label, created, changed, photos), (pair, guide, swatches, work), page)| {
                // JSON knows no work that is there and null.
                let work = work.filter(|w| !w.is_null());
                let mut case = Case {
                    version: VERSION,
                    label,
                    created,
                    changed,
                    guide,
                    swatches,
                    work,
                    page,
                    ..Case::default()
                };
                let (mut files, mut telling) = (BTreeMap::new(), BTreeSet::new());
                for (i, (mut photo, (bytes, tells))) in photos.into_iter().enumerate() {
                    // Ids have to be there, and each once.
                    photo.id = format!("{i}{}", photo.id);
                    if tells {
                        telling.insert(photo.id.clone());
                    }
                    files.insert(photo.id.clone(), bytes);
                    case.photos.push(photo);
                }
                case.shown = case.photos.first().map(|p| p.id.clone());
                if let (true, [plain, partner, ..]) = (pair, case.photos.as_mut_slice()) {
                    partner.role = PhotoRole::CrossPolarisedPartner;
                    plain.partner = Some(partner.id.clone());
                }
                Given {
                    case,
                    photos: files,
                    telling,
                }
            },
        )
}
