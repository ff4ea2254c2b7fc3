//! ICC profiles (ICC.1:2022) written tag by tag.

/// A profile: four-letter words of the header, then the tags.
pub struct Profile {
    /// 2 or 4.
    pub version: u8,
    /// "mntr", "scnr", "prtr" …
    pub class: [u8; 4],
    /// "RGB ", "GRAY", "CMYK" …
    pub space: [u8; 4],
    /// "XYZ " or "Lab ".
    pub pcs: [u8; 4],
    /// Signature and content.
    pub tags: Vec<([u8; 4], Vec<u8>)>,
}

impl Profile {
    /// A display profile for RGB with the given connection space.
    pub fn rgb(version: u8, pcs: &[u8; 4]) -> Self {
        Self {
            version,
            class: *b"mntr",
            space: *b"RGB ",
            pcs: *pcs,
            tags: vec![
                (*b"desc", description("made for a test")),
                (*b"wtpt", xyz([0.9642, 1.0, 0.8249])),
            ],
        }
    }

    /// With one more tag.
    pub fn tag(mut self, signature: &[u8; 4], content: Vec<u8>) -> Self {
        self.tags.push((*signature, content));
        self
    }

    /// The bytes.
    pub fn bytes(&self) -> Vec<u8> {
        let mut body = Vec::new();
        let mut table = (self.tags.len() as u32).to_be_bytes().to_vec();
        let start = 132 + 12 * self.tags.len();
        for (signature, content) in &self.tags {
            table.extend(signature);
            table.extend(((start + body.len()) as u32).to_be_bytes());
            table.extend((content.len() as u32).to_be_bytes());
            body.extend(content);
            body.resize(body.len().next_multiple_of(4), 0);
        }
        let mut out = vec![0_u8; 128];
        out[0..4].copy_from_slice(&((start + body.len()) as u32).to_be_bytes());
        out[8] = self.version;
        out[9] = if self.version == 4 { 0x30 } else { 0x40 };
        out[12..16].copy_from_slice(&self.class);
        out[16..20].copy_from_slice(&self.space);
        out[20..24].copy_from_slice(&self.pcs);
        // 2026-01-01.
        out[24..30].copy_from_slice(&[0x07, 0xEA, 0, 1, 0, 1]);
        out[36..40].copy_from_slice(b"acsp");
        for (at, v) in [(68, 0.9642), (72, 1.0), (76, 0.8249)] {
            out[at..at + 4].copy_from_slice(&s15_fixed16(v));
        }
        out.extend(table);
        out.extend(body);
        out
    }
}

/// s15Fixed16Number.
pub fn s15_fixed16(v: f64) -> [u8; 4] {
    ((v * 65_536.0).round() as i32).to_be_bytes()
}

/// textDescriptionType (version 2), which version 4 readers take as well.
pub fn description(text: &str) -> Vec<u8> {
    let mut out = b"desc\0\0\0\0".to_vec();
    out.extend((text.len() as u32 + 1).to_be_bytes());
    out.extend(text.as_bytes());
    out.extend([0; 1 + 4 + 4 + 2 + 1 + 67]);
    out
}

/// XYZType.
pub fn xyz(v: [f64; 3]) -> Vec<u8> {
    let mut out = b"XYZ \0\0\0\0".to_vec();
    v.iter().for_each(|v| out.extend(s15_fixed16(*v)));
    out
}

/// curveType.
pub fn curve(samples: &[u16]) -> Vec<u8> {
    let mut out = b"curv\0\0\0\0".to_vec();
    out.extend((samples.len() as u32).to_be_bytes());
    samples.iter().for_each(|v| out.extend(v.to_be_bytes()));
    out
}

/// parametricCurveType of function type 0–4.
pub fn parametric(kind: u16, parameters: &[f64]) -> Vec<u8> {
    let mut out = b"para\0\0\0\0".to_vec();
    out.extend(kind.to_be_bytes());
    out.extend([0, 0]);
    parameters.iter().for_each(|v| out.extend(s15_fixed16(*v)));
    out
}

/// lut16Type from three-channel tables: input and output curves, and the cube.
pub fn lut16(
    points: u8,
    input: impl Fn(f64) -> f64,
    node: impl Fn([f64; 3]) -> [f64; 3],
    output: impl Fn(f64) -> f64,
) -> Vec<u8> {
    const ENTRIES: u16 = 300;
    let mut out = b"mft2\0\0\0\0\x03\x03".to_vec();
    out.extend([points, 0]);
    identity_matrix(&mut out);
    out.extend(ENTRIES.to_be_bytes());
    out.extend(ENTRIES.to_be_bytes());
    let put = |out: &mut Vec<u8>, v: f64| {
        out.extend(((v.clamp(0.0, 1.0) * 65_535.0).round() as u16).to_be_bytes());
    };
    let table = |out: &mut Vec<u8>, f: &dyn Fn(f64) -> f64| {
        for _ in 0..3 {
            for i in 0..ENTRIES {
                put(out, f(f64::from(i) / f64::from(ENTRIES - 1)));
            }
        }
    };
    table(&mut out, &input);
    for v in cube([points; 3]) {
        node(v).iter().for_each(|v| put(&mut out, *v));
    }
    table(&mut out, &output);
    out
}

/// lut8Type.
pub fn lut8(
    points: u8,
    input: impl Fn(f64) -> f64,
    node: impl Fn([f64; 3]) -> [f64; 3],
    output: impl Fn(f64) -> f64,
) -> Vec<u8> {
    let mut out = b"mft1\0\0\0\0\x03\x03".to_vec();
    out.extend([points, 0]);
    identity_matrix(&mut out);
    let byte = |v: f64| (v.clamp(0.0, 1.0) * 255.0).round() as u8;
    for _ in 0..3 {
        out.extend((0..256).map(|i| byte(input(f64::from(i) / 255.0))));
    }
    for v in cube([points; 3]) {
        out.extend(node(v).map(byte));
    }
    for _ in 0..3 {
        out.extend((0..256).map(|i| byte(output(f64::from(i) / 255.0))));
    }
    out
}

/// The parts of a lutAToBType; what is empty is left out.
#[derive(Default)]
pub struct AToB {
    /// Three curves before the cube.
    pub a: Vec<Vec<u8>>,
    /// Points along each axis, bytes per number, and the numbers 0–1, last axis fastest.
    pub cube: Option<([u8; 3], u8, Vec<[f64; 3]>)>,
    /// Three curves after the cube.
    pub m: Vec<Vec<u8>>,
    /// Nine numbers by rows, then three to add.
    pub matrix: Option<[f64; 12]>,
    /// Three curves at the end.
    pub b: Vec<Vec<u8>>,
}

impl AToB {
    /// The tag's content.
    pub fn bytes(&self) -> Vec<u8> {
        let mut head = b"mAB \0\0\0\0\x03\x03\0\0".to_vec();
        let mut body = Vec::new();
        let curves = |body: &mut Vec<u8>, all: &[Vec<u8>]| {
            let at = 32 + body.len() as u32;
            for c in all {
                body.extend(c);
                body.resize(body.len().next_multiple_of(4), 0);
            }
            if all.is_empty() { 0 } else { at }
        };
        let b = curves(&mut body, &self.b);
        let matrix = self.matrix.map_or(0, |m| {
            let at = 32 + body.len() as u32;
            m.iter().for_each(|v| body.extend(s15_fixed16(*v)));
            at
        });
        let m = curves(&mut body, &self.m);
        let cube = self.cube.as_ref().map_or(0, |(points, size, values)| {
            let at = 32 + body.len() as u32;
            body.extend(points);
            body.extend([0; 13]);
            body.extend([*size, 0, 0, 0]);
            for v in values.as_flattened() {
                if *size == 1 {
                    body.push((v * 255.0).round() as u8);
                } else {
                    body.extend(((v * 65_535.0).round() as u16).to_be_bytes());
                }
            }
            body.resize(body.len().next_multiple_of(4), 0);
            at
        });
        let a = curves(&mut body, &self.a);
        for offset in [b, matrix, m, cube, a] {
            head.extend(offset.to_be_bytes());
        }
        head.extend(body);
        head
    }
}

/// The corners of a cube, 0–1, last axis fastest.
pub fn cube(points: [u8; 3]) -> Vec<[f64; 3]> {
    let share = |i: u8, n: u8| f64::from(i) / f64::from(n - 1);
    let [n0, n1, n2] = points;
    let mut out = Vec::new();
    for i in 0..n0 {
        for j in 0..n1 {
            for k in 0..n2 {
                out.push([share(i, n0), share(j, n1), share(k, n2)]);
            }
        }
    }
    out
}

fn identity_matrix(out: &mut Vec<u8>) {
    for v in [1.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 1.0] {
        out.extend(s15_fixed16(v));
    }
}

/// A table with all that one can have: curves of each kind, a cube, a matrix.
pub fn every_stage() -> AToB {
    let one = || parametric(3, &[2.4, 0.948, 0.052, 0.0774, 0.04045]);
    AToB {
        a: vec![one(), one(), curve(&[0, 9000, 65_535])],
        cube: Some(([2, 3, 2], 2, cube([2, 3, 2]))),
        m: vec![one(), one(), one()],
        matrix: Some([0.9, 0.0, 0.0, 0.0, 0.9, 0.0, 0.0, 0.0, 0.9, 0.0, 0.0, 0.0]),
        b: vec![curve(&[256]), curve(&[256]), one()],
    }
}

/// The same profile with the matrix and curves that stand in for a table, of each kind too.
pub fn with_matrix_and_curves(profile: Profile) -> Profile {
    profile
        .tag(b"rXYZ", xyz([0.4, 0.2, 0.01]))
        .tag(b"gXYZ", xyz([0.4, 0.7, 0.1]))
        .tag(b"bXYZ", xyz([0.15, 0.06, 0.7]))
        .tag(
            b"rTRC",
            parametric(3, &[2.4, 0.948, 0.052, 0.0774, 0.04045]),
        )
        .tag(b"gTRC", curve(&[563]))
        .tag(b"bTRC", curve(&[0, 20_000, 65_535]))
}
