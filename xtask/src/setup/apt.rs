//! Debian's packages, where they may be installed without asking anybody.

use crate::fail::{ADMIN, Result};
use crate::process::{output, run};
use std::process::Command;

/// One thing to have, by the Debian package that brings it.
pub struct Need {
    /// The package.
    pub package: &'static str,
    /// Whether it is here.
    pub here: fn() -> bool,
}

/// The packages of what is not here.
pub fn missing(needs: &[Need]) -> Vec<&'static str> {
    needs
        .iter()
        .filter(|need| !(need.here)())
        .map(|need| need.package)
        .collect()
}

/// Whether this is a system with apt-get, used by the one who may install for the whole machine.
pub fn may_use() -> bool {
    cfg!(target_os = "linux")
        && output(Command::new("apt-get").arg("--version")).is_some()
        && output(Command::new("id").arg("-u")).as_deref() == Some("0")
}

/// Installs packages, all in one go.
pub fn install(packages: &[&str]) -> Result<()> {
    println!(
        "Installing {} with apt-get (half a minute for each) …",
        packages.join(", ")
    );
    let remedy = "Connect to the network, let other installations finish, and run the same command \
                  again; or install what is named above by hand.";
    run(apt_get().arg("update"), ADMIN, remedy)?;
    run(
        apt_get()
            .args(["install", "-y", "--no-install-recommends"])
            .args(packages),
        ADMIN,
        remedy,
    )
}

fn apt_get() -> Command {
    let mut command = Command::new("apt-get");
    command
        .args(["-o", "DPkg::Lock::Timeout=300"])
        .env("DEBIAN_FRONTEND", "noninteractive")
        .stdin(std::process::Stdio::null());
    command
}
