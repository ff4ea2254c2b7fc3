//! Blur and shake are told from sound photos, at several sizes, with much and little noise and
//! with outlines drawn a little off.

use accuracy::scene_of;
use accuracy::table::percent;
use scene_render::develop::{Picture, blur};
use scene_render::rng::Rng;
use scene_render::spec::{SceneSpec, Variety};
use tabside::error::Severity;
use tabside::light::sharpness::{Sharpness, check_sharpness, measure_sharpness};
use tabside::photo::Photo;
use tabside::scene::{Point, Polygon};

/// A rendered scene with outlines as drawn by hand.
struct Made {
    spec: SceneSpec,
    picture: Picture,
    bytes: Vec<u8>,
    outlines: Vec<Polygon>,
    width_px: f64,
}

fn width_px(p: &Polygon) -> f64 {
    let [x, y] = p.major_axis();
    let [low, high] = p.extent_along([-y, x]);
    high - low
}

/// `noise` divides the electrons of the sensor; `off_px` is how far outlines are off.
fn make(seed: u64, size_px: [u32; 2], noise: f64, off_px: f64) -> Made {
    let variety = Variety {
        size_px,
        ..Variety::accuracy()
    };
    let mut spec = SceneSpec::random(seed, &variety);
    spec.optics.full_well_electrons /= noise;
    let rendered = scene_render::render(&spec).expect("a scene");
    let scene = scene_of(&rendered.truth.scene).expect("a scene");
    let mut r = Rng::new(seed, 77);
    let outlines: Vec<Polygon> = scene
        .regions
        .iter()
        .map(|region| {
            let outline: Vec<Point> = region
                .outline
                .iter()
                .map(|p| Point::new(p.x() + off_px * r.normal(), p.y() + off_px * r.normal()))
                .collect();
            Polygon::new(&outline, "The outline").expect("an outline")
        })
        .collect();
    let mut widths: Vec<f64> = outlines.iter().map(width_px).collect();
    widths.sort_by(f64::total_cmp);
    Made {
        spec,
        picture: rendered.plain.picture,
        bytes: rendered.plain.bytes,
        width_px: widths[widths.len() / 2],
        outlines,
    }
}

impl Made {
    /// With the picture changed and encoded again from its full depth.
    fn changed(&self, change: impl Fn(&mut Picture)) -> Option<Sharpness> {
        let mut picture = self.picture.clone();
        change(&mut picture);
        let bytes = scene_render::file::encode(&self.spec, &picture).expect("a file");
        self.of(&bytes)
    }

    fn of(&self, bytes: &[u8]) -> Option<Sharpness> {
        let photo = Photo::decode(bytes).expect("a photo");
        measure_sharpness(&photo, &self.outlines)
    }
}

/// Moves of the camera: the mean over `length_px` in a direction.
fn shake(p: &mut Picture, length_px: f64, turn_deg: f64) {
    let (sin, cos) = turn_deg.to_radians().sin_cos();
    let from = p.rgb.clone();
    let n = length_px.round().max(1.0) as i64;
    for y in 0..p.h {
        for x in 0..p.w {
            let mut sum = [0.0; 3];
            for k in 0..n {
                let d = k as f64 - (n - 1) as f64 / 2.0;
                let i = (x as f64 + d * cos).round().clamp(0.0, (p.w - 1) as f64) as usize;
                let j = (y as f64 + d * sin).round().clamp(0.0, (p.h - 1) as f64) as usize;
                for (s, v) in sum.iter_mut().zip(from[j * p.w + i]) {
                    *s += v / n as f32;
                }
            }
            p.rgb[y * p.w + x] = sum;
        }
    }
}

fn severity(s: Option<Sharpness>) -> Option<Severity> {
    check_sharpness(&s?).map(|c| c.severity)
}

#[test]
fn blur_is_told_from_sound() {
    let (mut sound, mut care, mut retake, mut named) = (vec![], vec![], vec![], vec![]);
    let mut slowest = 0.0_f64;
    for i in 0..20_u64 {
        let size = if i % 12 == 5 {
            [3000, 2000]
        } else {
            [[900, 600], [1500, 1000]][(i % 2) as usize]
        };
        let noise = [1.0, 3.0, 8.0][(i / 3 % 3) as usize];
        let off_px = [0.0, 1.0, 2.0][(i / 5 % 3) as usize] * f64::from(size[0]) / 1500.0;
        let made = make(7_000 + i, size, noise, off_px);
        let photo = Photo::decode(&made.bytes).expect("a photo");
        let before = std::time::Instant::now();
        let found = measure_sharpness(&photo, &made.outlines);
        slowest = slowest.max(before.elapsed().as_secs_f64() * 1e3);
        println!("{i} {size:?} noise {noise} off {off_px:.1}: sound {found:?}");
        sound.push(severity(found).is_none());
        if i > 13 {
            continue;
        }
        let w = made.width_px;
        // A Gaussian of 1.9 % rises over 4.9 % of the width, one of 3 % over 7.7 %.
        for (share, out) in [(0.019, &mut care), (0.03, &mut retake)] {
            let found = made.changed(|p| blur::gaussian(p, (share * w) as f32));
            println!("   {share}: {found:?}");
            out.push(match severity(found) {
                Some(Severity::Retake) => true,
                Some(_) => share < 0.025,
                None => false,
            });
            named.push(found.is_some_and(|s| {
                check_sharpness(&s).is_some_and(|c| c.text.contains("out of focus"))
            }));
        }
        let found = made.changed(|p| shake(p, 0.1 * w, 30.0 * i as f64));
        println!("   shake {}: {found:?}", 30 * i % 180);
        retake.push(severity(found) == Some(Severity::Retake));
        named.push(
            found.is_some_and(|s| check_sharpness(&s).is_some_and(|c| c.text.contains("shaken"))),
        );
    }
    println!(
        "sound without a word {:.0} % of {}, blur of 5 % noticed {:.0} % of {}, of 8 % refused {:.0} % of {}, \
         rightly named {:.0} % of {}; slowest {slowest:.1} ms",
        percent(&sound),
        sound.len(),
        percent(&care),
        care.len(),
        percent(&retake),
        retake.len(),
        percent(&named),
        named.len()
    );
    assert!(percent(&sound) >= 95.0);
    assert!(percent(&care) >= 90.0);
    assert!(percent(&retake) >= 90.0);
    assert!(percent(&named) >= 85.0);
}
