//! The renderer's own faulty files and shaken or soft photos, and its sound ones, against the
//! light checks of file and sharpness.

use accuracy::scene_of;
use accuracy::table::percent;
use scene_render::Rendered;
use scene_render::spec::fault::{Fault, render_faulty, render_sound};
use tabside::error::{CheckCode, LightCheck, Severity};
use tabside::light::sharpness::{check_sharpness, measure_sharpness};
use tabside::photo::Photo;
use tabside::scene::Polygon;

/// What is said of the file and of its sharpness, notes left out.
fn said(rendered: &Rendered) -> Vec<CheckCode> {
    let scene = scene_of(&rendered.truth.scene).expect("a scene");
    let outlines: Vec<Polygon> = scene
        .regions
        .iter()
        .map(|r| Polygon::new(&r.outline, "The outline").expect("an outline"))
        .collect();
    let photo = Photo::decode(&rendered.plain.bytes).expect("a photo");
    let found = measure_sharpness(&photo, &outlines);
    let blur: Option<LightCheck> = found.and_then(|s| check_sharpness(&s));
    println!("   {found:?}");
    let all = photo.checks().iter().chain(&blur);
    all.filter(|c| c.severity != Severity::Note)
        .map(|c| c.code)
        .collect()
}

#[test]
fn faults_are_told_and_sound_photos_are_left_alone() {
    let codes = [
        CheckCode::Blur,
        CheckCode::Processed,
        CheckCode::Recompressed,
    ];
    let mut quiet = Vec::new();
    for seed in 0..10 {
        let size = [[1200, 800], [900, 600], [1500, 1000]][seed as usize % 3];
        let sound = render_sound(7_500 + seed, size, false).expect("a scene");
        let said = said(&sound);
        println!("sound {seed}: {said:?}");
        quiet.push(!codes.iter().any(|c| said.contains(c)));
    }
    println!("sound: quiet {:.0} % of {}", percent(&quiet), quiet.len());
    let mut bad = Vec::new();
    for (fault, code) in [
        (Fault::Blur, CheckCode::Blur),
        (Fault::Shake, CheckCode::Blur),
        (Fault::Processed, CheckCode::Processed),
        (Fault::DigitalZoom, CheckCode::Processed),
        (Fault::Recompressed, CheckCode::Recompressed),
    ] {
        let mut told = Vec::new();
        for seed in 0..5 {
            let size = [[1200, 800], [900, 600], [1500, 1000]][seed as usize % 3];
            let faulty = render_faulty(fault, 7_600 + seed, size).expect("a scene");
            let said = said(&faulty);
            println!("{fault:?} {seed}: {said:?}");
            told.push(said.contains(&code));
        }
        println!("{fault:?}: told {:.0} % of {}", percent(&told), told.len());
        // Every second filter leaves no word in the EXIF, and its curve is smoothed away by the
        // JPEG that it is saved as.
        let least = if fault == Fault::Processed {
            50.0
        } else {
            90.0
        };
        if percent(&told) < least {
            bad.push(fault);
        }
    }
    assert!(percent(&quiet) >= 95.0);
    assert!(bad.is_empty(), "{bad:?}");
}
