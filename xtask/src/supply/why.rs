//! Why each package that the project itself asks for is there. What those bring along needs no word
//! of its own: the table says who brings it.

/// Crates of the page and the command line, by name.
pub const CRATES: &[(&str, &str)] = &[
    ("aes-gcm", "encrypted case files outside of a browser"),
    (
        "console_error_panic_hook",
        "says where the core stopped, should it ever",
    ),
    (
        "crc32fast",
        "checksums of PNG and of case files; our own small stand-in",
    ),
    ("csv", "rows of comma-separated tables, with their quotes"),
    ("getrandom", "salts of encrypted case files"),
    (
        "hkdf",
        "the key of an encrypted case file, and the check of its passphrase",
    ),
    ("image", "decodes JPEG, PNG and WebP photos"),
    ("js-sys", "typed arrays between the core and the page"),
    ("kamadak-exif", "how a photo was taken and which way is up"),
    ("lexopt", "arguments of the command line"),
    ("libm", "the same bits of mathematics on every machine"),
    ("miniz_oxide", "packs and unpacks case files"),
    ("moxcms", "the photo's own colour profile"),
    (
        "nalgebra",
        "small matrices of the light model and of the stains",
    ),
    ("pbkdf2", "a key from a password, for case files"),
    (
        "schemars",
        "JSON Schema of what the command line prints and reads",
    ),
    ("serde", "plain data in and out"),
    (
        "serde-wasm-bindgen",
        "plain data between the core and the page",
    ),
    ("serde_json", "case files and guides as text"),
    ("sha2", "checksums of photos and of parts of a case"),
    ("thiserror", "errors with their sentences"),
    ("tiff", "decodes TIFF photos at their own bit depth"),
    ("tsify", "TypeScript types of that data"),
    (
        "unicode-normalization",
        "the same password from every keyboard",
    ),
    (
        "wasm-bindgen",
        "the bridge between WebAssembly and the page",
    ),
    ("web-sys", "the browser's console, for a stop of the core"),
];

/// Packages of npm, by name.
pub const NPM: &[(&str, &str)] = &[
    ("@preact/signals", "state that views follow"),
    ("d3-selection", "what zooming is attached to"),
    ("d3-shape", "lines and areas of the charts"),
    (
        "d3-zoom",
        "zooming and moving the photo by mouse, pen and fingers",
    ),
    (
        "idb",
        "the browser's own store, for cases kept on the device",
    ),
    ("preact", "the views"),
    ("workbox-core", "the page without a network: common parts"),
    (
        "workbox-precaching",
        "the page without a network: keeps its files",
    ),
    (
        "workbox-routing",
        "the page without a network: answers with them",
    ),
];
