//! A supplier's list laid over the shelf, field by field: a row with a known id changes what its cells say and no more.

use serde::Serialize;
use serde_json::{Map, Value as Json};
use station::document::{Node, Span};
use station::read::{Faults, FromNode, nearest};
use station::shelf::ItemKind;
use station::{Shelf, ShelfItem};
use words::Message;

use crate::reading::Fault;
use crate::sheet::{Row, Sheet};

/// What became of a list.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Laid {
    /// Ids that were there and are changed.
    pub changed: Vec<String>,
    /// Ids that are new.
    pub added: Vec<String>,
    /// Columns that nobody knows: nothing was taken from them.
    pub unknown_columns: Vec<UnknownColumn>,
    /// New or changed items without a rating they need: it cannot be proved.
    pub unrated: Vec<Unrated>,
    /// Rows and items that were not taken, and why. `line` and `column` are those of the file or sheet.
    pub faults: Vec<Fault>,
}

/// A column that nobody knows.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct UnknownColumn {
    /// Its cell, such as `D1`.
    pub cell: String,
    /// Its header.
    pub name: String,
    /// The known column that was perhaps meant.
    pub nearest: Option<&'static str>,
}

/// An item that lacks a rating which its kind is judged by.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Unrated {
    /// The item.
    pub id: String,
    /// The missing section or field: what depends on it cannot be proved.
    pub missing: &'static str,
}

/// Short names of columns, and the field each one fills.
const SHORT: &[(&str, &str)] = &[
    ("cost", "price.cost"),
    ("sell", "price.sell"),
    ("price", "price.sell"),
    ("per", "price.per"),
    ("date", "price.date"),
    ("source", "price.source"),
];

/// Lays the rows of a table over the shelf.
///
/// The header is the first row with a cell `id`. A column is a field of a shelf item (`name`, `mass`, `transmitter.output`) or
/// one of the short names `cost`, `sell`, `per`, `date`, `source`; `currency` completes bare amounts, and a unit in brackets
/// behind a header (`mass (kg)`) completes bare numbers. An empty cell changes nothing.
pub fn lay_price_list(shelf: &mut Shelf, sheet: &Sheet) -> Laid {
    let mut laid = Laid::default();
    let is_header = |row: &&Row| row.cells.iter().any(|c| c.eq_ignore_ascii_case("id"));
    let Some(header) = sheet.rows.iter().find(is_header) else {
        let line = sheet.rows.first().map_or(1, |r| r.line);
        let (what, help) = (
            Message::new("list-no-header"),
            Message::new("list-no-header-help"),
        );
        laid.faults.push(fault(sheet, line, 0, "", what, Some(help)));
        return laid;
    };
    let columns = columns(sheet, header, &mut laid);
    let mut seen: Vec<String> = Vec::new();
    for row in sheet
        .rows
        .iter()
        .filter(|r| r.line > header.line && r.cells.iter().any(|c| !c.is_empty()))
    {
        match item(shelf, sheet, row, &columns, &mut seen) {
            Ok(item) => {
                let ids = if shelf.get(&item.id).is_some() {
                    &mut laid.changed
                } else {
                    &mut laid.added
                };
                ids.push(item.id.clone());
                laid.unrated.extend(unrated(&item));
                shelf.lay_over(vec![item]);
            }
            Err(faults) => laid.faults.extend(faults),
        }
    }
    laid
}

/// A field that a column may fill.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Field {
    /// Dotted.
    path: &'static str,
    kind: FieldKind,
}

/// What a field takes, from the model's schema.
#[derive(Debug, Clone, Copy, PartialEq)]
enum FieldKind {
    /// A text: names, words, quantities with their unit.
    Text,
    /// An amount of money.
    Money,
    /// A whole number.
    Whole,
    /// A number without a unit.
    Number,
    /// True or false.
    Truth,
}

/// What a column fills.
struct Column {
    index: usize,
    field: &'static str,
    kind: FieldKind,
    unit: Option<String>,
}

fn columns(sheet: &Sheet, header: &Row, laid: &mut Laid) -> Vec<Column> {
    let known = known_fields();
    let mut columns = Vec::new();
    for (index, cell) in header.cells.iter().enumerate().filter(|(_, c)| !c.is_empty()) {
        let (name, unit) = name_and_unit(cell);
        let plain = name.to_lowercase().replace([' ', '-'], "_");
        let long = SHORT
            .iter()
            .find(|(short, _)| *short == plain)
            .map_or(plain.as_str(), |(_, field)| field);
        if let Some(Field { path: field, kind }) =
            known.iter().chain([&CURRENCY]).find(|f| f.path == long).copied()
        {
            columns.push(Column {
                index,
                field,
                kind,
                unit,
            });
            continue;
        }
        let short = SHORT.iter().map(|s| s.0).chain([CURRENCY.path]);
        let names: Vec<&'static str> = short.chain(known.iter().map(|f| f.path)).collect();
        let cell = sheet.cell_name(header.line, index);
        laid.unknown_columns.push(UnknownColumn {
            cell,
            name: name.into(),
            nearest: nearest(&plain, &names),
        });
    }
    columns
}

/// `mass (kg)` or `mass [kg]`: a name and the unit of its bare numbers.
fn name_and_unit(header: &str) -> (&str, Option<String>) {
    for (open, close) in [('(', ')'), ('[', ']')] {
        if let Some((name, unit)) = header.strip_suffix(close).and_then(|h| h.rsplit_once(open)) {
            return (name.trim(), Some(unit.trim().to_owned()));
        }
    }
    (header.trim(), None)
}

/// The column that completes bare amounts of money.
const CURRENCY: Field = Field {
    path: "currency",
    kind: FieldKind::Text,
};

/// The fields a column may fill, from the schema of a shelf item; lists (ports, sizes) are for TOML.
fn known_fields() -> &'static [Field] {
    static FIELDS: std::sync::LazyLock<Vec<Field>> = std::sync::LazyLock::new(|| {
        let schema = schemars::schema_for!(ShelfItem).to_value();
        let mut fields = Vec::new();
        collect(&schema, &schema, "", &mut fields);
        fields
    });
    &FIELDS
}

fn collect(root: &Json, schema: &Json, path: &str, fields: &mut Vec<Field>) {
    let Some(properties) = resolved(root, schema).get("properties").and_then(Json::as_object) else {
        return;
    };
    for (key, inner) in properties {
        let path = if path.is_empty() {
            key.clone()
        } else {
            format!("{path}.{key}")
        };
        let plain = resolved(root, inner);
        if has_type(plain, "object") {
            collect(root, plain, &path, fields);
        } else if let Some(kind) = field_kind(inner, plain) {
            fields.push(Field {
                path: path.leak(),
                kind,
            }); // once, for the life of the program
        }
    }
}

/// What a field takes; none for lists.
fn field_kind(declared: &Json, resolved: &Json) -> Option<FieldKind> {
    let is = |name| has_type(resolved, name);
    Some(match () {
        () if is("array") => return None,
        () if is("integer") => FieldKind::Whole,
        () if is("number") => FieldKind::Number,
        () if is("boolean") => FieldKind::Truth,
        () if declared.to_string().contains("/Money\"") => FieldKind::Money,
        () => FieldKind::Text,
    })
}

fn has_type(schema: &Json, name: &str) -> bool {
    let types = schema.get("type");
    types.is_some_and(|t| t == name || t.as_array().is_some_and(|list| list.iter().any(|t| t == name)))
}

/// Follows references, and takes what is not null of an optional field.
fn resolved<'a>(root: &'a Json, schema: &'a Json) -> &'a Json {
    if let Some(reference) = schema.get("$ref").and_then(Json::as_str) {
        let pointer = reference.trim_start_matches('#');
        return root
            .pointer(pointer)
            .map_or(schema, |inner| resolved(root, inner));
    }
    let options = schema.get("anyOf").and_then(Json::as_array);
    let not_null = options.and_then(|o| {
        o.iter()
            .find(|s| s.get("type").and_then(Json::as_str) != Some("null"))
    });
    match not_null {
        Some(inner) if options.is_some_and(|o| o.len() == 2) => resolved(root, inner),
        _ => schema,
    }
}

/// The item of a row: the shelf's own with the row's cells laid over it, or a new one.
fn item(
    shelf: &Shelf,
    sheet: &Sheet,
    row: &Row,
    columns: &[Column],
    seen: &mut Vec<String>,
) -> Result<ShelfItem, Vec<Fault>> {
    let cell = |field: &str| {
        let column = columns.iter().find(|c| c.field == field)?;
        row.cells
            .get(column.index)
            .filter(|c| !c.is_empty())
            .map(|text| (column, text.as_str()))
    };
    let Some((id_column, id)) = cell("id") else {
        let (what, help) = (Message::new("list-no-id"), Message::new("list-no-id-help"));
        return Err(vec![fault(sheet, row.line, 0, "", what, Some(help))]);
    };
    if seen.iter().any(|s| s == id) {
        let what = Message::new("list-id-twice").text("id", id);
        return Err(vec![fault(sheet, row.line, id_column.index, id, what, None)]);
    }
    seen.push(id.to_owned());
    let old = shelf.get(id).and_then(|item| serde_json::to_value(item).ok());
    let mut json = old
        .filter(Json::is_object)
        .unwrap_or_else(|| Json::Object(Map::new()));
    let currency = cell("currency").map(|(_, text)| text);
    for column in columns.iter().filter(|c| c.field != "currency") {
        let Some(text) = row.cells.get(column.index).filter(|c| !c.is_empty()) else {
            continue;
        };
        put(&mut json, column.field, value(column, text, currency));
    }
    let mut faults = Faults::default();
    let read = ShelfItem::from_node(&Node::from_json(&json), "", &mut faults);
    match read {
        Some(item) if faults.0.is_empty() => Ok(item),
        _ => Err(faults
            .0
            .into_iter()
            .map(|f| placed(sheet, row, columns, f))
            .collect()),
    }
}

/// A cell's value as its field takes it; a bare number is completed by the header's unit or the row's currency. What does not fit
/// stays text, for the model to complain about.
fn value(column: &Column, text: &str, currency: Option<&str>) -> Json {
    let is_bare = text.parse::<f64>().is_ok_and(f64::is_finite);
    let fitting = match column.kind {
        FieldKind::Whole => text.parse::<i64>().ok().map(Json::from),
        FieldKind::Number if is_bare => text.parse::<f64>().ok().map(Json::from),
        FieldKind::Truth => text.to_lowercase().parse::<bool>().ok().map(Json::from),
        FieldKind::Money if is_bare => column
            .unit
            .as_deref()
            .or(currency)
            .map(|unit| Json::from(format!("{text} {unit}"))),
        FieldKind::Text if is_bare => column
            .unit
            .as_deref()
            .map(|unit| Json::from(format!("{text} {unit}"))),
        _ => None,
    };
    fitting.unwrap_or_else(|| Json::from(text))
}

fn put(json: &mut Json, field: &str, value: Json) {
    let mut at = json;
    let mut steps = field.split('.').peekable();
    while let Some(step) = steps.next() {
        if !at.is_object() {
            *at = Json::Object(Map::new());
        }
        let Some(map) = at.as_object_mut() else { return };
        if steps.peek().is_none() {
            map.insert(step.to_owned(), value);
            return;
        }
        at = map.entry(step).or_insert_with(|| Json::Object(Map::new()));
    }
}

/// A complaint of the model at the cell that caused it.
fn placed(sheet: &Sheet, row: &Row, columns: &[Column], fault: station::Fault) -> Fault {
    let column = columns.iter().find(|c| c.field == fault.path.as_str());
    let index = column.map_or(0, |c| c.index);
    let text = row.cells.get(index).map_or("", String::as_str);
    self::fault(sheet, row.line, index, text, fault.what, fault.help)
}

fn fault(
    sheet: &Sheet,
    line: usize,
    index: usize,
    text: &str,
    what: Message,
    help: Option<Message>,
) -> Fault {
    Fault {
        file: sheet.name.clone(),
        line,
        column: index + 1,
        span: Span::default(),
        text: text.into(),
        path: sheet.cell_name(line, index),
        what,
        help,
    }
}

/// What an item's kind is judged by and the item does not give.
pub fn unrated(item: &ShelfItem) -> Vec<Unrated> {
    let ratings = match item.kind {
        ItemKind::Transmitter => ("transmitter", item.transmitter.is_some()),
        ItemKind::Feeder => ("line", item.line.is_some()),
        ItemKind::Splitter => ("splitter", item.splitter.is_some()),
        ItemKind::Filter | ItemKind::Arrester | ItemKind::Adapter => ("inline", item.inline.is_some()),
        ItemKind::Bay => ("bay", item.bay.is_some()),
        ItemKind::LinkRadio | ItemKind::Codec => ("link", item.link.is_some()),
        ItemKind::LinkAntenna => ("dish_gain", item.dish_gain.is_some()),
        ItemKind::Console | ItemKind::Microphone | ItemKind::Processor => ("audio", item.audio.is_some()),
        ItemKind::Ups | ItemKind::Generator | ItemKind::Solar => ("supply", item.supply.is_some()),
        ItemKind::Mast => ("mast", item.mast.is_some()),
        _ => ("", true),
    };
    let needs = [ratings, ("price", item.price.is_some())];
    let missing = needs.into_iter().filter(|(_, is_there)| !is_there);
    missing
        .map(|(missing, _)| Unrated {
            id: item.id.clone(),
            missing,
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fields_and_what_they_take_come_from_the_model() {
        let kind = |path| known_fields().iter().find(|f| f.path == path).map(|f| f.kind);
        assert_eq!(kind("price.sell"), Some(FieldKind::Money));
        assert_eq!(kind("mast.fixed.sell"), Some(FieldKind::Money));
        assert_eq!(kind("audio.microphone_inputs"), Some(FieldKind::Whole));
        assert_eq!(kind("line.a"), Some(FieldKind::Number));
        assert_eq!(kind("transmitter.harmonic_filter"), Some(FieldKind::Truth));
        assert_eq!(kind("transmitter.output"), Some(FieldKind::Text));
        assert_eq!(kind("ports"), None);
        assert_eq!(kind("transmitter"), None);
    }
}
