//! What the tests of these commands share.

use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU32, Ordering};

/// A folder of one's own that goes when the test ends.
pub struct TempDir(PathBuf);

impl TempDir {
    pub fn new(name: &str) -> Self {
        static NEXT: AtomicU32 = AtomicU32::new(0);
        let n = NEXT.fetch_add(1, Ordering::Relaxed);
        let dir = std::env::temp_dir().join(format!("tabside-{name}-{}-{n}", std::process::id()));
        std::fs::create_dir_all(&dir).unwrap();
        // Links in the way (macOS has one) would make equal paths look different.
        Self(dir.canonicalize().unwrap())
    }

    pub fn path(&self) -> &Path {
        &self.0
    }

    /// Writes a file, folders included.
    pub fn file(&self, name: &str, content: impl AsRef<[u8]>) -> PathBuf {
        let path = self.0.join(name);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(&path, content).unwrap();
        path
    }
}

#[cfg(unix)]
impl TempDir {
    /// Writes an executable shell script. Another process writes it: were it open for writing
    /// here, a program that another test starts meanwhile would hold it open for a moment, and
    /// the system refuses to execute a file that is open for writing.
    pub fn script(&self, name: &str, body: &str) -> PathBuf {
        let path = self.file(name, "");
        std::fs::remove_file(&path).unwrap();
        let status = std::process::Command::new("sh")
            .args([
                "-c",
                r#"printf '#!/bin/sh\n%s\n' "$2" > "$1" && chmod 755 "$1""#,
                "sh",
            ])
            .arg(&path)
            .arg(body)
            .status()
            .unwrap();
        assert!(status.success());
        path
    }
}

impl Drop for TempDir {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}
