//! A small static file server for this machine alone: loopback only, reading only.

mod mime;
mod request;

use crate::fail::{Failure, Result, YOU};
use request::{Found, Unread};
use std::fs;
use std::io::{self, Write};
use std::net::{Ipv4Addr, Shutdown, TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::thread;
use std::time::Duration;

/// How many ports after the wanted one are tried.
const PORTS_TRIED: u16 = 50;

/// The page's own policy, sent with every file because a worker lives under the policy of its
/// own script. The page may load from its own place and compile WebAssembly, and nothing else.
const PAGE_POLICY: &str = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; \
    worker-src 'self'; style-src 'self'; img-src 'self' blob: data:; connect-src 'self'; \
    manifest-src 'self'; base-uri 'none'; form-action 'none'";

/// A server that has its port.
#[derive(Debug)]
pub struct Server {
    listener: TcpListener,
    port: u16,
    root: PathBuf,
}

impl Server {
    /// Takes `port` on 127.0.0.1, or the next free one; port 0 leaves the choice to the system.
    pub fn bind(root: &Path, port: u16) -> Result<Self> {
        let root = fs::canonicalize(root).map_err(|e| Failure::file("open", root, &e))?;
        let listener = free_listener(port)?;
        let port = listener
            .local_addr()
            .map_err(|e| {
                Failure::new(
                    format!("The new server has no address: {e}."),
                    YOU,
                    "Run the same command again.",
                )
            })?
            .port();
        Ok(Self {
            listener,
            port,
            root,
        })
    }

    /// The port that it has.
    pub fn port(&self) -> u16 {
        self.port
    }

    /// The page's address.
    pub fn url(&self) -> String {
        format!("http://{}:{}/", Ipv4Addr::LOCALHOST, self.port)
    }

    /// Serves until the process ends.
    pub fn run(self) {
        let root = Arc::new(self.root);
        for stream in self.listener.incoming() {
            let Ok(stream) = stream else {
                // Out of file handles, most likely: let some connections end.
                thread::sleep(Duration::from_millis(50));
                continue;
            };
            let root = Arc::clone(&root);
            // When no thread can be had, the connection is dropped and the browser asks again.
            let _ = thread::Builder::new().spawn(move || serve_one(&root, stream));
        }
    }

    /// Serves in the background until the process ends.
    pub fn run_in_background(self) {
        thread::spawn(move || self.run());
    }
}

fn free_listener(port: u16) -> Result<TcpListener> {
    let last = if port == 0 {
        0
    } else {
        port.saturating_add(PORTS_TRIED)
    };
    let mut refused = None;
    for candidate in port..=last {
        match TcpListener::bind((Ipv4Addr::LOCALHOST, candidate)) {
            Ok(listener) => return Ok(listener),
            Err(error) => refused = Some(error),
        }
    }
    let why = refused.map_or_else(String::new, |e| format!(" ({e})"));
    Err(Failure::new(
        format!("No port from {port} to {last} on 127.0.0.1 can be used{why}."),
        YOU,
        "Choose another one with `--port N` (1024 to 65535).",
    ))
}

fn serve_one(root: &Path, mut stream: TcpStream) {
    let limits = stream
        .set_read_timeout(Some(Duration::from_secs(30)))
        .and_then(|()| stream.set_write_timeout(Some(Duration::from_secs(30))));
    if limits.is_err() {
        return;
    }
    let (response, with_body) = match request::read(&mut stream) {
        Ok(request) => {
            let with_body = request.method != "HEAD";
            (respond(root, &request.method, &request.target), with_body)
        }
        Err(Unread::Gone) => return,
        Err(Unread::TooLarge) => (Response::plain("431 Request Header Fields Too Large"), true),
        Err(Unread::Malformed) => (Response::plain("400 Bad Request"), true),
    };
    // A browser that went away needs no answer.
    let _ = response.send(&mut stream, with_body);
    let _ = stream.shutdown(Shutdown::Write);
}

struct Response {
    status: &'static str,
    content_type: &'static str,
    extra: Option<(&'static str, String)>,
    body: Vec<u8>,
}

impl Response {
    fn plain(status: &'static str) -> Self {
        Self {
            status,
            content_type: "text/plain; charset=utf-8",
            extra: None,
            body: format!("{status}\n").into_bytes(),
        }
    }

    fn with(self, name: &'static str, value: impl Into<String>) -> Self {
        Self {
            extra: Some((name, value.into())),
            ..self
        }
    }

    fn send(&self, stream: &mut impl Write, with_body: bool) -> io::Result<()> {
        let mut head = format!(
            "HTTP/1.1 {}\r\nContent-Type: {}\r\nContent-Length: {}\r\n\
             Cache-Control: no-cache\r\n\
             Content-Security-Policy: {PAGE_POLICY}; frame-ancestors 'none'\r\n\
             Cross-Origin-Opener-Policy: same-origin\r\n\
             Cross-Origin-Resource-Policy: same-origin\r\n\
             X-Content-Type-Options: nosniff\r\n\
             Referrer-Policy: no-referrer\r\n\
             Connection: close\r\n",
            self.status,
            self.content_type,
            self.body.len()
        );
        if let Some((name, value)) = &self.extra {
            head.push_str(&format!("{name}: {value}\r\n"));
        }
        head.push_str("\r\n");
        stream.write_all(head.as_bytes())?;
        if with_body {
            stream.write_all(&self.body)?;
        }
        stream.flush()
    }
}

fn respond(root: &Path, method: &str, target: &str) -> Response {
    if !matches!(method, "GET" | "HEAD") {
        return Response::plain("405 Method Not Allowed").with("Allow", "GET, HEAD");
    }
    match request::find(root, target) {
        Found::File(path) => match fs::read(&path) {
            Ok(body) => Response {
                status: "200 OK",
                content_type: mime::of(&path),
                extra: None,
                body,
            },
            Err(_) => Response::plain("404 Not Found"),
        },
        Found::Folder(address) => {
            Response::plain("308 Permanent Redirect").with("Location", address)
        }
        Found::Nothing => Response::plain("404 Not Found"),
    }
}

#[cfg(test)]
mod tests;
