//! The server over real connections.

use super::*;
use crate::testing::TempDir;
use std::io::Read;

fn page() -> TempDir {
    let dir = TempDir::new("server");
    dir.file("secret.txt", "secret");
    dir.file("page/index.html", "<p>hello");
    dir.file("page/assets/core.wasm", b"\0asm");
    dir.file("page/sub/index.html", "sub");
    dir
}

fn start(dir: &TempDir) -> u16 {
    let server = Server::bind(&dir.path().join("page"), 0).unwrap();
    let port = server.port();
    server.run_in_background();
    port
}

fn ask(port: u16, request: &str) -> String {
    let mut stream = TcpStream::connect((Ipv4Addr::LOCALHOST, port)).unwrap();
    stream.write_all(request.as_bytes()).unwrap();
    let mut answer = Vec::new();
    stream.read_to_end(&mut answer).unwrap();
    String::from_utf8_lossy(&answer).into_owned()
}

fn get(port: u16, target: &str) -> String {
    ask(port, &format!("GET {target} HTTP/1.1\r\nHost: x\r\n\r\n"))
}

#[test]
fn files_come_with_type_length_and_guarding_headers() {
    let dir = page();
    let port = start(&dir);
    let answer = get(port, "/");
    assert!(answer.starts_with("HTTP/1.1 200 OK\r\n"), "{answer}");
    assert!(answer.ends_with("\r\n\r\n<p>hello"), "{answer}");
    for header in [
        "Content-Type: text/html; charset=utf-8",
        "Content-Length: 8",
        "Cache-Control: no-cache",
        "Content-Security-Policy: default-src 'none';",
        "Cross-Origin-Opener-Policy: same-origin",
        "X-Content-Type-Options: nosniff",
    ] {
        assert!(answer.contains(header), "{header} is missing in {answer}");
    }
    let core = get(port, "/assets/core.wasm");
    assert!(
        core.contains("Content-Type: application/wasm\r\n"),
        "{core}"
    );
    assert!(
        core.contains("'wasm-unsafe-eval'"),
        "a worker needs the policy too: {core}"
    );
}

#[test]
fn head_has_the_headers_alone() {
    let dir = page();
    let answer = ask(start(&dir), "HEAD / HTTP/1.1\r\n\r\n");
    assert!(answer.starts_with("HTTP/1.1 200 OK\r\n"), "{answer}");
    assert!(answer.contains("Content-Length: 8\r\n"), "{answer}");
    assert!(answer.ends_with("\r\n\r\n"), "{answer}");
}

#[test]
fn what_is_not_served_is_refused() {
    let dir = page();
    let port = start(&dir);
    assert!(get(port, "/none.js").starts_with("HTTP/1.1 404 "));
    let traversal = get(port, "/../secret.txt");
    assert!(traversal.starts_with("HTTP/1.1 404 "), "{traversal}");
    let post = ask(port, "POST / HTTP/1.1\r\n\r\n");
    assert!(
        post.starts_with("HTTP/1.1 405 ") && post.contains("Allow: GET, HEAD"),
        "{post}"
    );
    assert!(ask(port, "hello\r\n\r\n").starts_with("HTTP/1.1 400 "));
}

#[test]
fn a_folder_is_asked_for_with_its_slash() {
    let dir = page();
    let answer = get(start(&dir), "/sub");
    assert!(answer.starts_with("HTTP/1.1 308 "), "{answer}");
    assert!(answer.contains("Location: /sub/\r\n"), "{answer}");
}

#[test]
fn a_silent_connection_holds_nobody_up() {
    let dir = page();
    let port = start(&dir);
    let _silent = TcpStream::connect((Ipv4Addr::LOCALHOST, port)).unwrap();
    assert!(get(port, "/").starts_with("HTTP/1.1 200 "));
}

#[test]
fn a_taken_port_is_passed_over() {
    let dir = page();
    let root = dir.path().join("page");
    let first = Server::bind(&root, 0).unwrap();
    let second = Server::bind(&root, first.port()).unwrap();
    assert!(second.port() > first.port());
    assert_eq!(second.url(), format!("http://127.0.0.1:{}/", second.port()));
}

#[test]
fn the_highest_port_does_not_run_over() {
    let taken = TcpListener::bind((Ipv4Addr::LOCALHOST, u16::MAX));
    let result = free_listener(u16::MAX);
    // Unless another program has that port, it is taken here and nothing is left above it.
    if taken.is_ok() {
        let text = result.unwrap_err().to_string();
        assert!(text.contains("No port from 65535 to 65535"), "{text}");
    }
}

#[test]
fn the_policy_is_the_one_in_the_page() {
    let index = fs::read_to_string(crate::repo::www().join("index.html")).unwrap();
    assert!(
        index.contains(&format!("content=\"{PAGE_POLICY}\"")),
        "www/index.html has another policy than the server sends: {PAGE_POLICY}"
    );
}
