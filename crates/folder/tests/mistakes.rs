//! Complaints about a station file: all at once, each at its place.

use folder::Reading;

/// Line, column and part of the message, as written behind each planted mistake.
fn planted(text: &str) -> Vec<(usize, usize, &str)> {
    let marked = text
        .lines()
        .enumerate()
        .filter_map(|(i, line)| Some((i + 1, line.split_once("#! ")?.1)));
    marked
        .map(|(line, mark)| {
            let (column, part) = mark
                .split_once(' ')
                .expect("a mark is a column and a part of the message");
            (line, column.parse().expect("a column is a number"), part)
        })
        .collect()
}

#[test]
fn twenty_mistakes_give_twenty_messages_each_at_its_place() {
    let text = include_str!("files/twenty-mistakes.toml");
    let planted = planted(text);
    assert_eq!(planted.len(), 20);
    let reading = Reading::of("twenty-mistakes.toml", text);
    let told: Vec<String> = reading.faults.iter().map(ToString::to_string).collect();
    println!("{}", told.join("\n"));
    let places: Vec<(usize, usize)> = reading.faults.iter().map(|f| (f.line, f.column)).collect();
    let expected: Vec<(usize, usize)> = planted.iter().map(|p| (p.0, p.1)).collect();
    assert_eq!(places, expected);
    for (told, (.., part)) in told.iter().zip(&planted) {
        assert!(told.contains(part), "{told}\n does not say: {part}");
    }
    assert!(reading.station.is_none());
}
