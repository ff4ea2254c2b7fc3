//! How many bytes of a WebAssembly module's code belong to which crate, by the functions' names.

use std::collections::BTreeMap;

/// What functions of the language's own library are counted under.
pub const LANGUAGE: &str = "(Rust's own library)";
/// What functions without a crate in their name are counted under.
pub const OTHERS: &str = "(no crate named)";

/// Bytes of function bodies per crate, before the optimiser. A function counts for the first crate
/// that its name names, the language's own library aside; what was inlined counts where it lies.
pub fn shares(module: &[u8]) -> Option<BTreeMap<String, u64>> {
    let mut rest = Bytes(module.strip_prefix(b"\0asm\x01\0\0\0")?);
    let (mut imported, mut bodies, mut names) = (0, Vec::new(), BTreeMap::new());
    while !rest.0.is_empty() {
        let id = rest.byte()?;
        let mut section = rest.piece()?;
        match id {
            0 if section.piece()?.0 == b"name" => names = function_names(section)?,
            2 => imported = imported_functions(section)?,
            10 => {
                for _ in 0..section.number()? {
                    bodies.push(section.piece()?.0.len() as u64);
                }
            }
            _ => {}
        }
    }
    let mut shares = BTreeMap::new();
    for (index, bytes) in (imported..).zip(bodies) {
        let name = names.get(&index).map_or("", String::as_str);
        *shares.entry(crate_of(name)).or_default() += bytes;
    }
    (!names.is_empty()).then_some(shares)
}

/// `<&image::Rgb as core::fmt::Debug>::fmt` belongs to `image`.
pub fn crate_of(name: &str) -> String {
    const LIBRARY: &[&str] = &[
        "core",
        "alloc",
        "std",
        "compiler_builtins",
        "hashbrown",
        "dlmalloc",
        "rustc_demangle",
        "__rustc",
    ];
    let mut language = false;
    for (at, _) in name.match_indices("::") {
        let before = name.get(..at).unwrap_or_default();
        let start = before
            .rfind(|c: char| !(c.is_alphanumeric() || c == '_'))
            .map_or(0, |i| i + 1);
        // Only what opens a path: `b` of `a::b::c` does not, nor does what follows a bracket.
        let (lead, word) = before.split_at_checked(start).unwrap_or_default();
        if word.is_empty() || lead.ends_with("::") {
            continue;
        }
        if !LIBRARY.contains(&word) {
            return word.to_owned();
        }
        language = true;
    }
    // The language's helpers in C's manner: memcpy, __divti3.
    let helper = !name.is_empty() && !name.contains(':') && !name.starts_with("__wbg");
    if language || (helper && (name.starts_with("__") || name.starts_with("mem"))) {
        LANGUAGE.to_owned()
    } else {
        OTHERS.to_owned()
    }
}

fn function_names(mut section: Bytes) -> Option<BTreeMap<u32, String>> {
    let mut names = BTreeMap::new();
    while !section.0.is_empty() {
        let id = section.byte()?;
        let mut part = section.piece()?;
        if id == 1 {
            for _ in 0..part.number()? {
                let index = part.number()?;
                let name = String::from_utf8_lossy(part.piece()?.0).into_owned();
                names.insert(index, name);
            }
        }
    }
    Some(names)
}

fn imported_functions(mut section: Bytes) -> Option<u32> {
    let mut functions = 0;
    for _ in 0..section.number()? {
        section.piece()?;
        section.piece()?;
        match section.byte()? {
            0 => {
                section.number()?;
                functions += 1;
            }
            1 => {
                section.byte()?;
                section.limits()?;
            }
            2 => section.limits()?,
            3 => {
                section.byte()?;
                section.byte()?;
            }
            _ => {
                section.byte()?;
                section.number()?;
            }
        }
    }
    Some(functions)
}

struct Bytes<'a>(&'a [u8]);

impl<'a> Bytes<'a> {
    fn byte(&mut self) -> Option<u8> {
        let (first, rest) = self.0.split_first()?;
        self.0 = rest;
        Some(*first)
    }

    fn number(&mut self) -> Option<u32> {
        let mut value = 0_u64;
        for shift in [0, 7, 14, 21, 28] {
            let byte = self.byte()?;
            value |= u64::from(byte & 0x7f) << shift;
            if byte & 0x80 == 0 {
                return u32::try_from(value).ok();
            }
        }
        None
    }

    /// A length and as many bytes.
    fn piece(&mut self) -> Option<Bytes<'a>> {
        let len = self.number()? as usize;
        let (piece, rest) = self.0.split_at_checked(len)?;
        self.0 = rest;
        Some(Bytes(piece))
    }

    fn limits(&mut self) -> Option<()> {
        let with_most = self.byte()? & 1 == 1;
        self.number()?;
        if with_most {
            self.number()?;
        }
        Some(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A section: id, length, content (all short).
    fn section(id: u8, content: &[u8]) -> Vec<u8> {
        [&[id, content.len() as u8], content].concat()
    }

    fn text(text: &str) -> Vec<u8> {
        [&[text.len() as u8], text.as_bytes()].concat()
    }

    #[test]
    fn bytes_are_counted_for_the_crate_that_the_name_names() {
        // One imported function, so that the first body is function 1; a memory import between.
        let imports = [
            &[2][..],
            &text("m"),
            &text("f"),
            &[0, 0],
            &text("m"),
            &text("y"),
            &[2, 1, 1, 9],
        ]
        .concat();
        let code = [3, 2, 0, 11, 3, 0, 0, 11, 4, 0, 0, 0, 11];
        let functions = [
            &[3][..],
            &[1],
            &text("png::decode"),
            &[2],
            &text("<&png::Info as core::fmt::Debug>::fmt"),
            &[3],
            &text("core::str::from_utf8"),
        ]
        .concat();
        let mut names = text("name");
        names.extend(section(1, &functions));
        let module = [
            b"\0asm\x01\0\0\0".to_vec(),
            section(2, &imports),
            section(10, &code),
            section(0, &names),
        ]
        .concat();
        let shares = shares(&module).unwrap();
        assert_eq!(
            shares.into_iter().collect::<Vec<_>>(),
            [(LANGUAGE.to_owned(), 4), ("png".to_owned(), 5)]
        );
    }

    #[test]
    fn a_module_without_names_or_cut_short_gives_nothing() {
        let bare = [b"\0asm\x01\0\0\0".to_vec(), section(10, &[1, 2, 0, 11])].concat();
        assert_eq!(shares(&bare), None);
        assert_eq!(shares(&bare[..bare.len() - 1]), None);
        assert_eq!(shares(b"not a module"), None);
    }

    #[test]
    fn the_first_crate_counts_and_the_language_only_without_one() {
        for (name, expected) in [
            ("tabside::colour::lab", "tabside"),
            ("core::ptr::drop_in_place<tabside::Photo>", "tabside"),
            (
                "<[f32; 3] as serde_core::ser::Serialize>::serialize",
                "serde_core",
            ),
            ("alloc::raw_vec::RawVec<T,A>::grow_one", LANGUAGE),
            ("__rustc::__rdl_alloc", LANGUAGE),
            ("memcpy", LANGUAGE),
            ("__multi3", LANGUAGE),
            ("__wbg_free", OTHERS),
            ("", OTHERS),
        ] {
            assert_eq!(crate_of(name), expected, "{name}");
        }
    }
}
