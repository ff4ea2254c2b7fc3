//! Locks between processes, so that two runs at once do not work on the same folder.

use crate::fail::{Failure, Result};
use std::fs::{self, File, OpenOptions, TryLockError};
use std::io::{Read, Seek, SeekFrom, Write};
use std::path::Path;

/// Held until dropped. The system gives it back when the process ends, however it ends, so a
/// lock never stays behind.
#[derive(Debug)]
pub struct Lock(#[allow(dead_code, reason = "holding the open file is the point")] File);

impl Lock {
    /// Takes the lock, waiting for whoever holds it. `doing` says what the other one is busy
    /// with.
    pub fn take(path: &Path, doing: &str) -> Result<Self> {
        if let Some(dir) = path.parent() {
            fs::create_dir_all(dir).map_err(|e| Failure::file("create", dir, &e))?;
        }
        let mut file = OpenOptions::new()
            .read(true)
            .write(true)
            .create(true)
            .truncate(false)
            .open(path)
            .map_err(|e| Failure::file("open", path, &e))?;
        match file.try_lock() {
            Ok(()) => {}
            Err(TryLockError::WouldBlock) => {
                println!("Waiting for {} to finish {doing} …", holder(&mut file));
                file.lock().map_err(|e| Failure::file("lock", path, &e))?;
            }
            // Some network file systems have no locks. Results are moved into place whole, so
            // the worst that two runs do to each other there is work done twice.
            Err(TryLockError::Error(_)) => {}
        }
        // For the message above only; the lock does not depend on it.
        let _ = file
            .set_len(0)
            .and_then(|()| file.seek(SeekFrom::Start(0)))
            .and_then(|_| write!(file, "{}", std::process::id()));
        Ok(Self(file))
    }
}

fn holder(file: &mut File) -> String {
    let mut text = String::new();
    match file.take(20).read_to_string(&mut text) {
        Ok(1..) if text.bytes().all(|b| b.is_ascii_digit()) => format!("process {text}"),
        _ => "another process".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::TempDir;
    use std::sync::atomic::{AtomicBool, Ordering};
    use std::time::Duration;

    #[test]
    fn the_second_waits_for_the_first() {
        let dir = TempDir::new("lock");
        let path = dir.path().join("deep").join("a.lock");
        let released = AtomicBool::new(false);
        let first = Lock::take(&path, "testing").unwrap();
        std::thread::scope(|scope| {
            scope.spawn(|| {
                let _second = Lock::take(&path, "testing").unwrap();
                assert!(
                    released.load(Ordering::SeqCst),
                    "both held the lock at once"
                );
            });
            std::thread::sleep(Duration::from_millis(100));
            released.store(true, Ordering::SeqCst);
            drop(first);
        });
    }

    #[test]
    fn a_file_left_behind_is_no_lock() {
        let dir = TempDir::new("lock-left");
        let path = dir.file("a.lock", "999999999");
        let _lock = Lock::take(&path, "testing").unwrap();
        assert_eq!(
            fs::read_to_string(&path).unwrap(),
            std::process::id().to_string()
        );
    }
}
