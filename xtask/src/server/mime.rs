//! Media types by file extension. Sources: the IANA media type registry; `text/javascript` by
//! RFC 9239, `application/wasm` by the WebAssembly Web API (a browser compiles while loading
//! only under that very type).

use std::path::Path;

/// The value for `Content-Type`.
pub fn of(path: &Path) -> &'static str {
    let extension = path.extension().and_then(|e| e.to_str()).unwrap_or("");
    match extension.to_ascii_lowercase().as_str() {
        "html" => "text/html; charset=utf-8",
        "js" | "mjs" => "text/javascript; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "wasm" => "application/wasm",
        "json" | "map" => "application/json",
        "webmanifest" => "application/manifest+json",
        "svg" => "image/svg+xml",
        "jpg" | "jpeg" => "image/jpeg",
        "png" => "image/png",
        "webp" => "image/webp",
        "tif" | "tiff" => "image/tiff",
        "ico" => "image/vnd.microsoft.icon",
        "woff2" => "font/woff2",
        "csv" => "text/csv; charset=utf-8",
        "txt" | "md" => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_page_s_files_have_their_types() {
        for (name, expected) in [
            ("a/core_bg.wasm", "application/wasm"),
            ("index-abc.js", "text/javascript; charset=utf-8"),
            ("index.css", "text/css; charset=utf-8"),
            ("icon.svg", "image/svg+xml"),
            ("demo.JPG", "image/jpeg"),
            ("scene.json", "application/json"),
            ("index.html", "text/html; charset=utf-8"),
            ("unknown.xyz", "application/octet-stream"),
            ("noextension", "application/octet-stream"),
        ] {
            assert_eq!(of(Path::new(name)), expected, "{name}");
        }
    }
}
