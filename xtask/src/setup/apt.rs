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

/// Installs what is good to have and nobody needs, where this system has it. Says it when that fails.
pub fn install_if_offered(package: &str) {
    let offered = || {
        output(Command::new("apt-cache").args(["policy", package]))
            .is_some_and(|text| candidate(&text))
    };
    // An empty list of packages offers nothing.
    let listed = offered() || (output(apt_get().arg("update")).is_some() && offered());
    if listed && let Err(failure) = install(&[package]) {
        println!("Going on without {package}. {failure}");
    }
}

/// Whether apt's words on a package name a version that could be installed.
fn candidate(policy: &str) -> bool {
    policy
        .lines()
        .filter_map(|line| line.trim().strip_prefix("Candidate:"))
        .any(|version| version.trim() != "(none)")
}

fn apt_get() -> Command {
    let mut command = Command::new("apt-get");
    command
        .args(["-o", "DPkg::Lock::Timeout=300"])
        .env("DEBIAN_FRONTEND", "noninteractive")
        .stdin(std::process::Stdio::null());
    command
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_package_is_offered_when_apt_names_a_version() {
        assert!(candidate(
            "one:\n  Installed: (none)\n  Candidate: 156.0-1\n"
        ));
        assert!(!candidate(
            "one:\n  Installed: (none)\n  Candidate: (none)\n"
        ));
        assert!(!candidate(""));
    }
}
