//! Kill −9 in the middle of 200 saves: nothing that was acknowledged is lost, and nothing half written is ever read.

#![cfg(unix)]

use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use folder::{Digest, Expected, save};

const SAVES: u32 = 200;
const FOLDER: &str = "STATIONWRIGHT_KILL_TEST_FOLDER";

/// A text of about 300 kB that carries its number and its own digest.
fn text(number: u32) -> String {
    let body = format!(
        "number = {number}\n{}",
        format!("# line of save {number}\n").repeat(15_000)
    );
    format!("{body}digest = \"{}\"\n", Digest::of(body.as_bytes()))
}

/// The number of a text, when it is whole.
fn number(text: &str) -> Option<u32> {
    let (body, tail) = text.rsplit_once("digest = \"")?;
    let is_whole = tail.strip_suffix("\"\n")? == Digest::of(body.as_bytes()).to_string();
    is_whole
        .then(|| body.lines().next()?.strip_prefix("number = ")?.parse().ok())
        .flatten()
}

/// Not a test of its own: what the killed process runs. It goes on from what is on disk and says each number it has saved.
#[test]
fn saver() {
    let Some(folder) = std::env::var_os(FOLDER) else {
        return;
    };
    let path = Path::new(&folder).join("station.toml");
    let before = std::fs::read_to_string(&path).expect("the file is there");
    let mut digest = Digest::of(before.as_bytes());
    for n in number(&before).expect("the file is whole") + 1..=SAVES {
        digest = save(&path, text(n).as_bytes(), Expected::Is(digest)).expect("the save goes through");
        println!("saved {n}");
    }
}

fn spawn(folder: &Path) -> Child {
    let mut command = Command::new(std::env::current_exe().expect("a test has an executable"));
    command
        .args(["--exact", "saver", "--nocapture", "--test-threads=1"])
        .env(FOLDER, folder);
    command
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .expect("the saver starts")
}

#[test]
fn kill_in_the_middle_of_200_saves_loses_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("station.toml");
    save(&path, text(0).as_bytes(), Expected::Absent).unwrap();
    let (mut kills, mut reached, mut seed) = (0, 0, 0x9e37_79b9_u32);
    while reached < SAVES {
        let mut child = spawn(folder.path());
        seed ^= seed << 13;
        seed ^= seed >> 17;
        seed ^= seed << 5;
        let lines = BufReader::new(child.stdout.take().unwrap()).lines();
        let (say, heard) = std::sync::mpsc::channel();
        let reader = std::thread::spawn(move || {
            let saved = lines
                .map_while(Result::ok)
                .filter_map(|l| l.split("saved ").nth(1)?.trim().parse::<u32>().ok());
            saved.for_each(|n| say.send(n).unwrap_or_default());
        });
        let first = heard.recv_timeout(Duration::from_secs(20)).ok();
        std::thread::sleep(Duration::from_micros(u64::from(seed % 15_000)));
        let was_running = child.try_wait().unwrap().is_none();
        child.kill().unwrap(); // SIGKILL
        child.wait().unwrap();
        reader.join().unwrap();
        let acknowledged = heard.try_iter().last().or(first);
        let on_disk =
            number(&std::fs::read_to_string(&path).unwrap()).expect("the file is whole after a kill");
        assert!(
            on_disk >= acknowledged.unwrap_or(reached),
            "save {acknowledged:?} was acknowledged, {on_disk} is there"
        );
        reached = on_disk;
        kills += u32::from(was_running);
        assert!(kills < 5_000, "no progress");
    }
    println!("{kills} kills over {SAVES} saves");
    assert!(kills > 5, "only {kills} kills hit a running saver");
    save(&path, b"last", Expected::Anything).unwrap();
    let left: Vec<_> = std::fs::read_dir(folder.path())
        .unwrap()
        .flatten()
        .map(|e| e.file_name())
        .collect();
    assert_eq!(left.len(), 2, "half-written files are swept: {left:?}");
}
