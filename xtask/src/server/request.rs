//! What a browser asks for: the head of an HTTP/1.1 request, and the file that its target
//! stands for.

use std::fs;
use std::io::{self, Read};
use std::path::{Path, PathBuf};

/// Longest request head that is read. Browsers send about 1 KB.
const HEAD_LIMIT_BYTES: usize = 16 * 1024;

/// The part of a request that matters here.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Request {
    /// `GET`, `HEAD`, …
    pub method: String,
    /// Path and query as sent.
    pub target: String,
}

/// Why there is no request.
#[derive(Debug)]
pub enum Unread {
    /// The connection ended or stalled before a request came.
    Gone,
    /// The head is larger than what is read.
    TooLarge,
    /// Not HTTP.
    Malformed,
}

/// Reads a request head.
pub fn read(stream: &mut impl Read) -> Result<Request, Unread> {
    let mut head = Vec::new();
    let mut chunk = [0_u8; 2048];
    while !head.windows(4).any(|w| w == b"\r\n\r\n") {
        if head.len() > HEAD_LIMIT_BYTES {
            return Err(Unread::TooLarge);
        }
        match stream.read(&mut chunk) {
            Ok(0) => return Err(Unread::Gone),
            Ok(n) => head.extend_from_slice(&chunk[..n]),
            Err(e) if e.kind() == io::ErrorKind::Interrupted => {}
            Err(_) => return Err(Unread::Gone),
        }
    }
    let line = head.split(|b| *b == b'\r').next().unwrap_or_default();
    parse_line(line).ok_or(Unread::Malformed)
}

fn parse_line(line: &[u8]) -> Option<Request> {
    let mut words = std::str::from_utf8(line).ok()?.split(' ');
    let (method, target, version) = (words.next()?, words.next()?, words.next()?);
    let well_formed = words.next().is_none()
        && version.starts_with("HTTP/1.")
        && target.starts_with('/')
        && !target.contains(char::is_control);
    well_formed.then(|| Request {
        method: method.to_owned(),
        target: target.to_owned(),
    })
}

/// What a target stands for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Found {
    /// A file below the root.
    File(PathBuf),
    /// A folder asked for without its final slash: relative addresses would go wrong.
    Folder(String),
    /// Nothing that is served.
    Nothing,
}

/// Looks a target up below `root`, which must be canonical. Nothing outside is ever given, by
/// whichever spelling or link it is asked for.
pub fn find(root: &Path, target: &str) -> Found {
    let raw = target.split(['?', '#']).next().unwrap_or_default();
    let Some(path) = decoded(raw) else {
        return Found::Nothing;
    };
    let mut file = root.to_path_buf();
    for part in path.split('/').filter(|part| !part.is_empty()) {
        // A leading dot covers `..` and hidden files; a backslash or a colon means another
        // place on Windows.
        if part.starts_with('.') || part.contains(['\\', ':', '\0']) {
            return Found::Nothing;
        }
        file.push(part);
    }
    if file.is_dir() {
        if !path.ends_with('/') {
            // One leading slash: two would name another host.
            return Found::Folder(format!("/{}/", raw.trim_start_matches('/')));
        }
        file.push("index.html");
    } else if path.ends_with('/') {
        return Found::Nothing;
    }
    match fs::canonicalize(&file) {
        Ok(real) if real.starts_with(root) && real.is_file() => Found::File(real),
        _ => Found::Nothing,
    }
}

/// Percent-decoding by RFC 3986, once.
fn decoded(raw: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(raw.len());
    let mut rest = raw.bytes();
    while let Some(byte) = rest.next() {
        bytes.push(if byte == b'%' {
            let high = char::from(rest.next()?).to_digit(16)?;
            let low = char::from(rest.next()?).to_digit(16)?;
            u8::try_from(high * 16 + low).ok()?
        } else {
            byte
        });
    }
    String::from_utf8(bytes).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::TempDir;

    #[test]
    fn only_http_requests_are_requests() {
        let request = read(&mut &b"GET /a?b HTTP/1.1\r\nHost: x\r\n\r\n"[..]).unwrap();
        assert_eq!(
            (request.method.as_str(), request.target.as_str()),
            ("GET", "/a?b")
        );
        for bad in [
            "GET /\r\n\r\n",
            "GET a HTTP/1.1\r\n\r\n",
            "GET / x HTTP/1.1\r\n\r\n",
            "GET /a\nb HTTP/1.1\r\n\r\n",
            "\r\n\r\n",
        ] {
            let read = read(&mut bad.as_bytes());
            assert!(matches!(read, Err(Unread::Malformed)), "{bad:?}: {read:?}");
        }
        assert!(matches!(
            read(&mut &b"GET / HTTP/1.1\r\n"[..]),
            Err(Unread::Gone)
        ));
        let endless = vec![b'a'; HEAD_LIMIT_BYTES * 2];
        assert!(matches!(read(&mut &endless[..]), Err(Unread::TooLarge)));
    }

    #[test]
    fn files_folders_and_names_with_special_characters_are_found() {
        let dir = TempDir::new("find");
        let index = dir.file("page/index.html", "");
        let odd = dir.file("page/a b é.js", "");
        let sub = dir.file("page/sub/index.html", "");
        dir.file("page/empty/x.txt", "");
        let root = dir.path().join("page");
        assert_eq!(find(&root, "/"), Found::File(index.clone()));
        assert_eq!(find(&root, "/?x=1"), Found::File(index.clone()));
        assert_eq!(find(&root, "/index.html#top"), Found::File(index));
        assert_eq!(find(&root, "/a%20b%20%C3%A9.js"), Found::File(odd));
        assert_eq!(find(&root, "/sub"), Found::Folder("/sub/".to_owned()));
        assert_eq!(find(&root, "//sub"), Found::Folder("/sub/".to_owned()));
        assert_eq!(find(&root, "/sub/"), Found::File(sub));
        for nothing in ["/empty/", "/none", "/index.html/", "/%", "/%zz", "/%ff"] {
            assert_eq!(find(&root, nothing), Found::Nothing, "{nothing}");
        }
    }

    #[test]
    fn nothing_outside_the_root_is_found() {
        let dir = TempDir::new("traversal");
        dir.file("secret.txt", "");
        dir.file("page/index.html", "");
        dir.file("page/.hidden", "");
        dir.file("page/sub/x.txt", "");
        let root = dir.path().join("page");
        for attempt in [
            "/../secret.txt",
            "/sub/../../secret.txt",
            "/%2e%2e/secret.txt",
            "/..%2fsecret.txt",
            "/%2e%2e%2fsecret.txt",
            "/..\\secret.txt",
            "/..%5csecret.txt",
            "//../secret.txt",
            "/.hidden",
            "/%2ehidden",
            "/secret.txt%00.html",
            "/C:/secret.txt",
        ] {
            assert_eq!(find(&root, attempt), Found::Nothing, "{attempt}");
        }
    }

    #[cfg(unix)]
    #[test]
    fn a_link_out_of_the_root_is_not_followed() {
        let dir = TempDir::new("link");
        let secret = dir.file("secret.txt", "");
        dir.file("page/index.html", "");
        std::os::unix::fs::symlink(secret, dir.path().join("page/link.txt")).unwrap();
        std::os::unix::fs::symlink(dir.path(), dir.path().join("page/up")).unwrap();
        let root = dir.path().join("page");
        assert_eq!(find(&root, "/link.txt"), Found::Nothing);
        assert_eq!(find(&root, "/up/secret.txt"), Found::Nothing);
    }
}
