//! The machine that a measurement was made on.

use crate::process::output;
use std::fs;
use std::process::Command;

/// CPU, cores, system, compiler and, where one takes part, the browser: one line each.
pub fn description(browser: Option<&str>) -> String {
    let cores = std::thread::available_parallelism().map_or(0, std::num::NonZero::get);
    let unknown = || "not known".to_owned();
    let mut lines = vec![
        format!("CPU:     {}", cpu().unwrap_or_else(unknown)),
        format!("Cores:   {cores}"),
        format!("System:  {}", system().unwrap_or_else(unknown)),
        format!(
            "Rust:    {}",
            output(Command::new("rustc").arg("--version")).unwrap_or_else(unknown)
        ),
        format!(
            "Node.js: {}",
            output(Command::new("node").arg("--version")).unwrap_or_else(unknown)
        ),
    ];
    if let Some(browser) = browser {
        lines.push(format!("Browser: {browser}"));
    }
    lines.join("\n")
}

fn cpu() -> Option<String> {
    match std::env::consts::OS {
        "linux" => field(
            &fs::read_to_string("/proc/cpuinfo").ok()?,
            "model name",
            ':',
        ),
        "macos" => output(Command::new("sysctl").args(["-n", "machdep.cpu.brand_string"])),
        _ => std::env::var("PROCESSOR_IDENTIFIER").ok(),
    }
}

fn system() -> Option<String> {
    match std::env::consts::OS {
        "linux" => {
            let name = fs::read_to_string("/etc/os-release")
                .ok()
                .and_then(|text| field(&text, "PRETTY_NAME", '='))?;
            let kernel = output(Command::new("uname").arg("-srm")).unwrap_or_default();
            Some(format!("{name}, {kernel}"))
        }
        "macos" => {
            output(Command::new("sw_vers").arg("-productVersion")).map(|v| format!("macOS {v}"))
        }
        _ => output(Command::new("cmd").args(["/C", "ver"])),
    }
}

/// The value of the first line `name <separator> value`, quotes taken off.
fn field(text: &str, name: &str, separator: char) -> Option<String> {
    text.lines().find_map(|line| {
        let (key, value) = line.split_once(separator)?;
        (key.trim() == name).then(|| value.trim().trim_matches('"').to_owned())
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fields_are_read_as_the_system_writes_them() {
        let cpuinfo = "processor\t: 0\nmodel name\t: Some CPU @ 2.0GHz\n";
        assert_eq!(
            field(cpuinfo, "model name", ':').as_deref(),
            Some("Some CPU @ 2.0GHz")
        );
        let release = "NAME=\"X\"\nPRETTY_NAME=\"X Linux 12\"\n";
        assert_eq!(
            field(release, "PRETTY_NAME", '=').as_deref(),
            Some("X Linux 12")
        );
        assert_eq!(field(release, "VERSION", '='), None);
    }

    #[test]
    fn the_browser_is_named_only_when_one_takes_part() {
        assert!(description(Some("Chromium 1.2")).ends_with("Browser: Chromium 1.2"));
        assert!(!description(None).contains("Browser"));
    }
}
