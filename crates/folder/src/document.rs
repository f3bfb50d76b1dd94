//! TOML text to a document tree with places, going on after faults.

use station::document::{Entry, Node, Span, Value};
use station::read::Fault;
use toml::Spanned;
use toml::de::{DeTable, DeValue};
use words::Message;

/// The largest text that is read, in bytes. A station file has some tens of kilobytes.
pub const LARGEST_BYTES: usize = 4_000_000;

/// Reads `text` as TOML: the tree of what could be read, and every fault of syntax with its place.
pub fn parse(text: &str) -> (Node, Vec<Fault>) {
    if text.len() > LARGEST_BYTES {
        let what = Message::new("file-too-large")
            .count("bytes", text.len() as i64)
            .count("limit", LARGEST_BYTES as i64);
        let help = Message::new("file-too-large-help");
        return (Node::empty_table(), vec![fault(0..0, what, Some(help))]);
    }
    let (table, errors) = DeTable::parse_recoverable(text);
    let mut faults: Vec<Fault> = errors.iter().map(|e| syntax_fault(text, e)).collect();
    faults.sort_by_key(|f| (f.span.start, f.span.end));
    faults.dedup_by_key(|f| f.span.start);
    let whole = Span { start: 0, end: 0 };
    let mut numbers = Vec::new();
    let node = table_node(table.get_ref(), whole, &mut numbers);
    faults.extend(numbers);
    (node, faults)
}

fn fault(span: std::ops::Range<usize>, what: Message, help: Option<Message>) -> Fault {
    Fault {
        span: Span {
            start: span.start,
            end: span.end,
        },
        path: String::new(),
        what,
        help,
    }
}

/// A fault of syntax in our words. The library points behind a comment where a value is missing; we point where it should stand.
fn syntax_fault(text: &str, error: &toml::de::Error) -> Fault {
    let span = error.span().unwrap_or(0..0);
    let message = error.message().lines().next().unwrap_or("invalid TOML").trim();
    let said = message.strip_prefix("invalid ").map_or_else(
        || Message::foreign(message),
        |what| Message::new("file-not-a").text("what", what),
    );
    if text[span.start..].starts_with(['\n', '\r', '#']) || span.start == text.len() {
        let line_start = text[..span.start].rfind('\n').map_or(0, |i| i + 1);
        let code = without_comment(&text[line_start..span.start]).trim_end();
        let at = line_start + code.len();
        return if code.ends_with('=') {
            let help = Message::new("file-nothing-behind-help");
            fault(at..at, Message::new("file-nothing-behind"), Some(help))
        } else {
            fault(at..at, Message::new("file-syntax").message("why", said), None)
        };
    }
    let offending = text
        .get(span.clone())
        .and_then(|t| t.lines().next())
        .unwrap_or("")
        .trim();
    if offending.is_empty() {
        fault(span, Message::new("file-syntax").message("why", said), None)
    } else {
        let what = Message::new("file-syntax-at");
        fault(span, what.text("text", offending).message("why", said), None)
    }
}

/// A line up to its comment; a `#` in quotes begins none.
fn without_comment(line: &str) -> &str {
    let mut quote = None;
    for (i, c) in line.char_indices() {
        match (c, quote) {
            ('#', None) => return &line[..i],
            ('"' | '\'', None) => quote = Some(c),
            (c, Some(open)) if c == open => quote = None,
            _ => {}
        }
    }
    line
}

fn table_node(table: &DeTable<'_>, span: Span, faults: &mut Vec<Fault>) -> Node {
    let entries = table.iter().map(|(key, value)| Entry {
        key: key.get_ref().to_string(),
        key_span: span_of(key),
        node: value_node(value, faults),
    });
    Node {
        span,
        value: Value::Table(entries.collect()),
    }
}

fn value_node(value: &Spanned<DeValue<'_>>, faults: &mut Vec<Fault>) -> Node {
    let span = span_of(value);
    let value = match value.get_ref() {
        DeValue::String(text) => Value::Text(text.to_string()),
        DeValue::Integer(digits) => match i64::from_str_radix(digits.as_str(), digits.radix()) {
            Ok(number) => Value::Integer(number),
            Err(_) => {
                let what = Message::new("file-number-too-large").text("text", digits.to_string());
                faults.push(fault(span.start..span.end, what, None));
                Value::Integer(0)
            }
        },
        DeValue::Float(digits) => Value::Float(digits.as_str().parse().unwrap_or(f64::NAN)),
        DeValue::Boolean(is) => Value::Bool(*is),
        DeValue::Datetime(when) => Value::Date(when.to_string()),
        DeValue::Array(items) => Value::List(items.iter().map(|item| value_node(item, faults)).collect()),
        DeValue::Table(table) => return table_node(table, span, faults),
    };
    Node { span, value }
}

fn span_of<T>(spanned: &Spanned<T>) -> Span {
    let span = spanned.span();
    Span {
        start: span.start,
        end: span.end,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn values_keep_their_places() {
        let text = "name = \"x\"\n[[items]]\ntag = \"TX1\"\nmass = 2.5\non = 2031-03-14\n";
        let (node, faults) = parse(text);
        assert!(faults.is_empty());
        let mass = node.at("items.TX1.mass").unwrap();
        assert_eq!(&text[mass.span.start..mass.span.end], "2.5");
        assert_eq!(
            node.at("items.TX1.on").unwrap().value,
            Value::Date("2031-03-14".into())
        );
    }

    #[test]
    fn bad_syntax_is_told_several_times_and_the_rest_is_read() {
        let (node, faults) = parse("a = \nb = 2\nc = [1, \nd = 'x\ne = 5\n");
        assert!(faults.len() >= 2, "{faults:?}");
        assert_eq!(node.get("b").map(|n| n.value.clone()), Some(Value::Integer(2)));
    }

    #[test]
    fn bad_depth_and_size_are_refused_without_a_crash() {
        let deep = format!("a = {}", "[".repeat(100_000));
        assert!(!parse(&deep).1.is_empty());
        let dotted = format!("{} = 1", vec!["a"; 50_000].join("."));
        assert!(parse(&dotted).1.len() <= 1);
        let huge = format!("# {}\n", "x".repeat(LARGEST_BYTES));
        assert!(parse(&huge).1[0].what.code == "file-too-large");
    }
}
