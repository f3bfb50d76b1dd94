//! The program in French: what it prints holds no word of English but the user's own, and no mark of a message that failed.

#[allow(dead_code, reason = "each test uses some of it")]
mod program;

use program::{root, stationwright, text};
use std::process::Command;

/// Words that English sentences stand on, and that are no words of French.
const ENGLISH: [&str; 30] = [
    "the",
    "of",
    "and",
    "with",
    "is",
    "are",
    "from",
    "for",
    "not",
    "by",
    "to",
    "its",
    "this",
    "that",
    "in",
    "at",
    "no",
    "above",
    "below",
    "antenna",
    "feeder",
    "bay",
    "bays",
    "power",
    "asked",
    "short",
    "licence's",
    "years",
    "people",
    "ground",
];

/// The names that a station's file gives.
fn names(folder: &str) -> Vec<String> {
    let file =
        std::fs::read_to_string(root().join(folder).join("station.toml")).expect("an example has a file");
    let name = |line: &str| {
        Some(
            line.trim()
                .strip_prefix("name = \"")?
                .split('"')
                .next()?
                .to_owned(),
        )
    };
    let mut names: Vec<String> = file.lines().filter_map(name).collect();
    names.sort_by_key(|name| std::cmp::Reverse(name.len()));
    names
}

/// Lines in which a word of English stands, or a mark that a message could not be said.
fn not_french(said: &str, names: &[String]) -> Vec<String> {
    let wrong = |line: &&str| {
        let mut line = (*line).to_owned();
        names
            .iter()
            .for_each(|name| line = line.replace(name.as_str(), ""));
        let is_path = |word: &str| word.contains('/') || word.contains("::") || word.contains('_');
        let mut words = line.split_whitespace().filter(|word| !is_path(word));
        let bare = |word: &str| word.trim_matches(|c: char| !c.is_alphanumeric()).to_lowercase();
        line.contains("{ $")
            || line.contains("there is no message")
            || words.any(|word| ENGLISH.contains(&bare(word).as_str()))
    };
    said.lines().filter(wrong).map(str::to_owned).collect()
}

fn french(args: &[&str], names: &[String]) -> String {
    let out = stationwright(&[args, &["--language", "fr"]].concat());
    let said = text(&out.stdout) + &text(&out.stderr);
    let wrong = not_french(&said, names);
    assert!(
        said.lines().count() > 3 && wrong.is_empty(),
        "{args:?}: {wrong:#?}\n{said}"
    );
    said
}

#[test]
fn words_of_english_are_seen() {
    let found = not_french(
        "Champ\nthe field\nStudio in the port : 3 W\n{ $tag }",
        &["Studio in the port".to_owned()],
    );
    assert_eq!(found, ["the field", "{ $tag }"]);
}

#[test]
fn an_enquiry_is_answered_in_french() {
    let said = french(
        &["ask", "--power", "500W", "--mast", "30m", "--ground", "rolling"],
        &[],
    );
    assert!(said.contains("Ce qui change le plus"), "{said}");
}

#[test]
fn stations_are_proved_in_french() {
    for folder in ["examples/saltlight", "examples/tremarine"] {
        let said = french(&["assess", folder, "--figures"], &names(folder));
        assert!(said.contains("cahier des charges"), "{said}");
    }
}

#[test]
fn readings_are_weighed_in_french() {
    let folder = "examples/tremarine";
    let readings = [
        "diagnose",
        folder,
        "--readings",
        "examples/tremarine/readings.toml",
    ];
    let said = french(&readings, &names(folder));
    assert!(
        said.contains("à l’envers") && said.contains("Mesurer ensuite"),
        "{said}"
    );
}

/// A refused argument, a folder that is not there and a file with a fault are told in French too, by the machine's language alone.
#[test]
fn refusals_are_told_in_the_language_of_the_machine() {
    let told = |args: &[&str]| {
        let out = Command::new(env!("CARGO_BIN_EXE_stationwright"))
            .args(args)
            .env("LC_ALL", "fr_FR.UTF-8")
            .current_dir(root())
            .output();
        let out = out.expect("the program starts");
        assert_eq!(out.status.code(), Some(2));
        text(&out.stderr)
    };
    assert!(told(&["ask", "--power", "500", "--mast", "30m"]).contains("Une puissance demande son unité"));
    let odd = told(&["ask", "--power", "500W", "--mast", "5km", "--language", "fr"]);
    assert!(
        odd.contains("une hauteur de") && not_french(&odd, &[]).is_empty(),
        "{odd}"
    );
}

/// The file says so, and its own faults are told in it.
#[test]
fn the_file_says_which_language_and_its_faults_are_told_in_it() {
    let folder = tempfile::tempdir().expect("a folder is made");
    let text_of = "format = 1\nlanguage = \"fr\"\nname = \"Essai\"\n[brief]\nbudget = \"5 GOLD\"\n";
    std::fs::write(folder.path().join("station.toml"), text_of).expect("a file is written");
    let out = stationwright(&["assess", &folder.path().display().to_string()]);
    let said = text(&out.stderr);
    assert_eq!(out.status.code(), Some(2), "{said}");
    assert!(said.contains("une faute dans le fichier de station"), "{said}");
}
