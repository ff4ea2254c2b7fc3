//! Files as cameras write them open without a word about processing or compression; files that
//! went through a messenger, were saved twice or got a curve over their codes do not.

use accuracy::table::percent;
use scene_render::develop::{Picture, encode};
use scene_render::spec::{Format, SceneSpec, Space, Variety};
use tabside::error::{CheckCode, Severity};
use tabside::photo::{Photo, Sample};

fn scene(seed: u64, size_px: [u32; 2]) -> (SceneSpec, Picture) {
    let variety = Variety {
        size_px,
        tones: true,
        ..Variety::accuracy()
    };
    let mut spec = SceneSpec::random(seed, &variety);
    spec.optics.full_well_electrons /= [1.0, 3.0, 8.0][(seed / 3 % 3) as usize];
    let rendered = scene_render::render(&spec).expect("a scene");
    (spec, rendered.plain.picture)
}

fn file(spec: &SceneSpec, picture: &Picture, quality: u8, camera: bool) -> Vec<u8> {
    let mut spec = spec.clone();
    spec.output.quality = quality;
    spec.output.exif = camera;
    spec.output.profile = camera;
    scene_render::file::encode(&spec, picture).expect("a file")
}

/// What a viewer shows of a file: its 8-bit codes.
fn shown(bytes: &[u8]) -> Picture {
    let photo = Photo::decode(bytes).expect("a photo");
    let (w, h) = (photo.width_px() as usize, photo.height_px() as usize);
    let codes: Vec<f32> = (0..=20_000)
        .map(|i| (255.0 * encode(Space::Srgb, i as f32 / 20_000.0)).round() / 255.0)
        .collect();
    let mut row = vec![Sample::default(); w];
    let mut rgb = Vec::with_capacity(w * h);
    for y in 0..h {
        photo.read_row(0, y as u32, &mut row).expect("a row");
        rgb.extend(
            row.iter()
                .map(|s| s.linear_rgb.map(|v| codes[(v * 20_000.0).round() as usize])),
        );
    }
    Picture { w, h, rgb }
}

/// Made smaller by means of what falls on each new pixel.
fn smaller(p: &Picture, w: usize) -> Picture {
    let h = p.h * w / p.w;
    let f = p.w as f32 / w as f32;
    let mut rgb = Vec::with_capacity(w * h);
    for y in 0..h {
        for x in 0..w {
            let mut sum = [0.0; 3];
            for k in 0..9 {
                let at = |v: usize, k: usize| ((v as f32 + (k as f32 + 0.5) / 3.0) * f) as usize;
                let (i, j) = (at(x, k % 3).min(p.w - 1), at(y, k / 3).min(p.h - 1));
                for (s, v) in sum.iter_mut().zip(p.rgb[j * p.w + i]) {
                    *s += v / 9.0;
                }
            }
            rgb.push(sum);
        }
    }
    Picture { w, h, rgb }
}

fn found(bytes: &[u8], code: CheckCode) -> Option<Severity> {
    let photo = Photo::decode(bytes).expect("a photo");
    let check = photo.checks().iter().find(|c| c.code == code);
    check.map(|c| c.severity)
}

const SIZES: [[u32; 2]; 4] = [[900, 600], [1500, 1000], [1000, 750], [1600, 1200]];

#[test]
fn files_of_cameras_and_others() {
    let (mut sound, mut bare, mut sent, mut twice, mut exported, mut curved) =
        (vec![], vec![], vec![], vec![], vec![], vec![]);
    let mut curved_jpeg = vec![];
    for i in 0..20_u64 {
        let (spec, picture) = scene(
            7_100 + i,
            if i % 12 == 11 {
                [3000, 2000]
            } else {
                SIZES[(i % 4) as usize]
            },
        );
        let quality = 60 + (i * 7 % 36) as u8;
        let own = file(&spec, &picture, quality, true);
        println!("{i} quality {quality}");
        let quiet = |bytes: &[u8]| {
            [CheckCode::Processed, CheckCode::Recompressed]
                .iter()
                .all(|c| found(bytes, *c).is_none())
        };
        sound.push(quiet(&own));
        println!(" bare");
        bare.push(quiet(&file(&spec, &picture, 85 + (i % 13) as u8, false)));
        let mut png = spec.clone();
        png.output.format = Format::Png;
        let png = |p: &Picture| scene_render::file::encode(&png, p).expect("a file");
        bare.push(quiet(&png(&picture)));
        if i > 13 {
            continue;
        }
        let care = Some(Severity::Care);
        let to = [1280, 1600, 640][(i % 3) as usize].min(picture.w - 20);
        let message = file(
            &spec,
            &smaller(&shown(&own), to),
            65 + (i % 16) as u8,
            false,
        );
        sent.push(found(&message, CheckCode::Recompressed) == care);
        let first = 45 + (i % 26) as u8;
        println!(" twice {first}");
        let first = shown(&file(&spec, &picture, first, true));
        let again = file(&spec, &first, 85 + (i % 12) as u8, true);
        twice.push(found(&again, CheckCode::Recompressed) == care);
        exported.push(found(&png(&first), CheckCode::Recompressed) == care);
        // Brighter, darker, or more contrast, code by code.
        let mut edited = shown(&file(&spec, &picture, 92, true));
        for v in edited.rgb.iter_mut().flatten() {
            *v = match i % 3 {
                0 => v.powf(0.8),
                1 => v.powf(1.25),
                _ => (*v + 0.07 * (std::f32::consts::TAU * (*v - 0.5)).sin()).clamp(0.0, 1.0),
            };
        }
        println!(" curved png");
        curved.push(found(&png(&edited), CheckCode::Processed) == care);
        println!(" curved jpeg");
        let bytes = file(&spec, &edited, [90, 95, 98][(i / 3 % 3) as usize], true);
        curved_jpeg.push(found(&bytes, CheckCode::Processed) == care);
    }
    for (what, list) in [
        ("a camera's own JPEG is quiet", &sound),
        ("a fine file without EXIF is quiet", &bare),
        ("through a messenger", &sent),
        ("compressed twice", &twice),
        ("compressed, then PNG", &exported),
        ("curve over codes, PNG", &curved),
        ("curve over codes, JPEG", &curved_jpeg),
    ] {
        println!("{what}: {:.0} % of {}", percent(list), list.len());
    }
    assert!(percent(&sound) >= 95.0);
    assert!(percent(&bare) >= 95.0);
    assert!(percent(&sent) >= 90.0);
    assert!(percent(&twice) >= 80.0);
    assert!(percent(&exported) >= 80.0);
    assert!(percent(&curved) >= 80.0);
}
