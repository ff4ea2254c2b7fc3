//! `cargo xtask serve`: from a fresh clone to the page in the browser.

use crate::fail::{Failure, Result, YOU};
use crate::process::output;
use crate::server::Server;
use crate::{page, repo, setup};
use std::process::{Command, Stdio};

/// Where the page is served unless something else has that port.
pub const DEFAULT_PORT: u16 = 8600;

/// Sets up, builds and serves until Ctrl-C.
pub fn run(port: u16, open: bool) -> Result<()> {
    let tools = setup::for_page()?;
    page::build(&tools)?;
    let server = Server::bind(&repo::built_page(), port)?;
    // From here on only: a build is ended by the system's own handling, its programs included.
    ctrlc::set_handler(|| {
        println!("\nStopped.");
        std::process::exit(0);
    })
    .map_err(|e| {
        Failure::new(
            format!("Ctrl-C cannot be listened for: {e}."),
            YOU,
            "Run the same command again.",
        )
    })?;
    if port != 0 && server.port() != port {
        println!("\nPort {port} is taken; using {} instead.", server.port());
    }
    println!("\nTabside is ready: {}\nStop with Ctrl-C.", server.url());
    if open {
        open_in_browser(&server.url());
    }
    server.run();
    Ok(())
}

/// Best effort: the address is on the screen anyway.
fn open_in_browser(url: &str) {
    let Some(mut command) = opener() else {
        return;
    };
    let quiet = command
        .arg(url)
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null());
    if let Ok(mut child) = quiet.spawn() {
        // Waited for, so that it leaves no dead process behind.
        std::thread::spawn(move || child.wait());
    }
}

fn opener() -> Option<Command> {
    match std::env::consts::OS {
        "macos" => Some(Command::new("open")),
        "windows" => {
            let mut command = Command::new("cmd");
            command.args(["/C", "start", ""]);
            Some(command)
        }
        // Without a desktop there is nothing to open.
        _ if ["DISPLAY", "WAYLAND_DISPLAY"]
            .iter()
            .all(|name| std::env::var_os(name).is_none_or(|v| v.is_empty())) =>
        {
            None
        }
        _ => output(Command::new("xdg-open").arg("--version")).map(|_| Command::new("xdg-open")),
    }
}
