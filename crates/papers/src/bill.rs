//! The bill of materials as a spreadsheet that works: prices and sums are formulas, with their results stored beside.

use crate::book::Book;
use crate::paper::PaperError;
use crate::wording::Wording;
use assess::assessment::{Costs, LineCost};
use assess::said::{SaidBillLine, SaidFigure, Sheet};
use rust_xlsxwriter::{DocProperties, ExcelDateTime, Format, FormatBorder, Formula, Workbook, Worksheet};
use std::io::{Cursor, Read, Write};
use zip::write::SimpleFileOptions;
use zip::{ZipArchive, ZipWriter};

/// The client's: no cost price in a cell, a name or a property.
///
/// # Errors
/// [`PaperError::Spreadsheet`], [`PaperError::Words`].
pub fn client(book: &Book) -> Result<Vec<u8>, PaperError> {
    written(book.sheet, None)
}

/// The builder's: cost prices and what is earned, line by line. Its name and its first row say whom it is for.
///
/// # Errors
/// As [`client`].
pub fn builder(book: &Book) -> Result<Vec<u8>, PaperError> {
    written(book.sheet, Some(book.costs))
}

/// First row of the table, counted from 0.
const HEAD: u32 = 4;

struct Formats {
    title: Format,
    quiet: Format,
    head: Format,
    head_right: Format,
    number: Format,
    money: Format,
    text: Format,
    sum: Format,
    sum_money: Format,
}

impl Formats {
    fn new() -> Self {
        let sans = || {
            Format::new()
                .set_font_name("Sofia Sans Semi Condensed")
                .set_font_size(10)
        };
        let ruled = || sans().set_border_bottom(FormatBorder::Hair);
        let total = || sans().set_bold().set_border_top(FormatBorder::Thin);
        Self {
            title: Format::new().set_font_name("Libertinus Serif").set_font_size(16),
            quiet: sans().set_font_color("#43515A"),
            head: sans().set_bold().set_border_bottom(FormatBorder::Medium),
            head_right: sans()
                .set_bold()
                .set_border_bottom(FormatBorder::Medium)
                .set_align(rust_xlsxwriter::FormatAlign::Right),
            number: ruled().set_num_format("#,##0.##"),
            money: ruled().set_num_format("#,##0.00"),
            text: ruled(),
            sum: total(),
            sum_money: total().set_num_format("#,##0.00"),
        }
    }
}

fn written(sheet: &Sheet, costs: Option<&Costs>) -> Result<Vec<u8>, PaperError> {
    let words = Wording::of(&sheet.language);
    let mut workbook = Workbook::new();
    let title = sheet.name.clone() + &words.word("words-colon")? + &words.word("paper-bill")?;
    let mut properties = DocProperties::new().set_title(title);
    if let Some(day) = &sheet.date {
        properties = properties.set_creation_datetime(&ExcelDateTime::parse_from_str(day)?);
    }
    workbook.set_properties(&properties);
    let formats = Formats::new();
    bill(workbook.add_worksheet(), sheet, costs, words, &formats)?;
    running(workbook.add_worksheet(), sheet, words, &formats)?;
    let bytes = workbook.save_to_buffer()?;
    match sheet.date {
        Some(_) => Ok(bytes),
        None => undated(&bytes),
    }
}

/// A workbook without the days that its writer takes from the clock: a station without a day of revision has none.
fn undated(bytes: &[u8]) -> Result<Vec<u8>, PaperError> {
    let mut from = ZipArchive::new(Cursor::new(bytes))?;
    let mut to = ZipWriter::new(Cursor::new(Vec::new()));
    for index in 0..from.len() {
        let mut part = from.by_index(index)?;
        let name = part.name()?.into_owned();
        if name != "docProps/core.xml" {
            to.raw_copy_file(part)?;
            continue;
        }
        let mut core = String::new();
        part.read_to_string(&mut core)?;
        let options = SimpleFileOptions::default().last_modified_time(zip::DateTime::default());
        to.start_file(name, options)?;
        for name in ["dcterms:created", "dcterms:modified"] {
            let (open, close) = (format!("<{name}"), format!("</{name}>"));
            if let (Some(start), Some(end)) = (core.find(&open), core.find(&close)) {
                core.replace_range(start..end + close.len(), "");
            }
        }
        to.write_all(core.as_bytes())?;
    }
    Ok(to.finish()?.into_inner())
}

fn titled(
    page: &mut Worksheet,
    sheet: &Sheet,
    about: &str,
    words: Wording,
    formats: &Formats,
) -> Result<(), PaperError> {
    page.write_with_format(0, 0, sheet.name.as_str(), &formats.title)?;
    page.write_with_format(1, 0, about, &formats.quiet)?;
    let mut says = vec![format!("{} {}", words.word("paper-revision")?, sheet.revision)];
    says.extend(sheet.date.clone());
    says.extend(sheet.client.clone());
    if sheet.invented {
        says.push(words.word("paper-invented")?);
    }
    page.write_with_format(2, 0, says.join(", "), &formats.quiet)?;
    Ok(())
}

fn bill(
    page: &mut Worksheet,
    sheet: &Sheet,
    costs: Option<&Costs>,
    words: Wording,
    formats: &Formats,
) -> Result<(), PaperError> {
    page.set_name(words.word("paper-bill-tab")?)?;
    let about = if costs.is_some() {
        "paper-builder-says"
    } else {
        "paper-bill-says"
    };
    titled(page, sheet, &words.word(about)?, words, formats)?;
    let currency = &sheet.currency;
    let mut heads = vec![
        (words.word("paper-col-tag")?, 12.0),
        (words.word("paper-col-stage")?, 13.0),
        (words.word("paper-col-item")?, 48.0),
        (words.word("paper-col-quantity")?, 9.0),
        (words.word("paper-col-unit")?, 8.0),
        (format!("{}, {currency}", words.word("paper-col-each")?), 14.0),
        (format!("{}, {currency}", words.word("paper-col-price")?), 14.0),
        (format!("{}, kg", words.word("paper-col-mass")?), 11.0),
    ];
    if costs.is_some() {
        heads.push((format!("{}, {currency}", words.word("paper-col-cost")?), 14.0));
        heads.push((format!("{}, {currency}", words.word("paper-col-earned")?), 14.0));
    }
    for (col, (head, wide)) in heads.iter().enumerate() {
        let format = if matches!(col, 3 | 5..) {
            &formats.head_right
        } else {
            &formats.head
        };
        page.write_with_format(HEAD, col as u16, head.as_str(), format)?;
        page.set_column_width(col as u16, *wide)?;
    }
    page.set_freeze_panes(HEAD + 1, 0)?;
    for (index, line) in sheet.bill.iter().enumerate() {
        let row = HEAD + 1 + index as u32;
        bill_line(page, row, line, formats)?;
        if let Some(costs) = costs {
            cost_cells(page, row, costs.lines.iter().find(|c| c.id == line.id), formats)?;
        }
    }
    sums(page, sheet, costs, words, formats)
}

fn bill_line(
    page: &mut Worksheet,
    row: u32,
    line: &SaidBillLine,
    formats: &Formats,
) -> Result<(), PaperError> {
    page.write_with_format(row, 0, line.id.as_str(), &formats.text)?;
    page.write_with_format(row, 1, line.stage_name.as_str(), &formats.text)?;
    page.write_with_format(row, 2, line.name.as_str(), &formats.text)?;
    match line.quantity.number {
        Some(number) => page.write_with_format(row, 3, number, &formats.number)?,
        None => page.write_with_format(row, 3, line.quantity.text.as_str(), &formats.text)?,
    };
    page.write_with_format(row, 4, line.quantity.unit.as_str(), &formats.text)?;
    if let (Some(each), Some(price)) = (number(&line.each), number(&line.line)) {
        page.write_with_format(row, 5, each, &formats.money)?;
        let formula = Formula::new(format!("=ROUND(D{0}*F{0},2)", row + 1)).set_result(price.to_string());
        page.write_formula_with_format(row, 6, formula, &formats.money)?;
    }
    if let Some(mass) = number(&line.mass) {
        page.write_with_format(row, 7, mass, &formats.number)?;
    }
    Ok(())
}

fn number(shown: &Option<assess::said::Shown>) -> Option<f64> {
    shown.as_ref()?.number
}

fn cost_cells(
    page: &mut Worksheet,
    row: u32,
    line: Option<&LineCost>,
    formats: &Formats,
) -> Result<(), PaperError> {
    let Some((line, cost)) = line.and_then(|l| Some((l, l.cost?))) else {
        return Ok(());
    };
    page.write_with_format(row, 8, cost.to_f64(), &formats.money)?;
    if let Some(earned) = line.earned {
        let formula = Formula::new(format!("=G{0}-I{0}", row + 1)).set_result(hundredths(earned.to_f64()));
        page.write_formula_with_format(row, 9, formula, &formats.money)?;
    }
    Ok(())
}

/// An amount as a stored result: what a reader that does not reckon shows.
fn hundredths(value: f64) -> String {
    format!("{value:.2}")
}

/// Goods, freight, duty and the price: the sums are formulas, their stored results the assessment's figures.
fn sums(
    page: &mut Worksheet,
    sheet: &Sheet,
    costs: Option<&Costs>,
    words: Wording,
    formats: &Formats,
) -> Result<(), PaperError> {
    let (first, last) = (HEAD + 2, HEAD + 1 + sheet.bill.len() as u32);
    let mut row = last + 1;
    let sum = |col: char| format!("=SUM({col}{first}:{col}{last})");
    if let Some(goods) = figure(sheet, "money.goods") {
        page.write_with_format(row, 2, goods.label.as_str(), &formats.sum)?;
        let result = goods.value.number.map(hundredths).unwrap_or_default();
        page.write_formula_with_format(
            row,
            6,
            Formula::new(sum('G')).set_result(result),
            &formats.sum_money,
        )?;
        if let Some(mass) = figure(sheet, "money.mass").and_then(|f| f.value.number) {
            let formula = Formula::new(sum('H')).set_result(mass.to_string());
            page.write_formula_with_format(row, 7, formula, &formats.sum_money)?;
        }
        let paid = costs.map(|c| [(8, 'I', c.cost), (9, 'J', c.earned)]);
        for (col, letter, amount) in paid.into_iter().flatten() {
            let Some(amount) = amount else { continue };
            let formula = Formula::new(sum(letter)).set_result(hundredths(amount.to_f64()));
            page.write_formula_with_format(row, col, formula, &formats.sum_money)?;
        }
    }
    let top = row;
    for id in ["money.freight", "money.duty"] {
        let Some(part) = figure(sheet, id) else { continue };
        row += 1;
        page.write_with_format(row, 2, part.label.as_str(), &formats.text)?;
        if let Some(number) = part.value.number {
            page.write_with_format(row, 6, number, &formats.money)?;
        }
    }
    if let Some(capital) = figure(sheet, "money.capital") {
        page.write_with_format(
            row + 1,
            2,
            format!("{}, {}", capital.label, words.word("paper-without-tax")?),
            &formats.sum,
        )?;
        let result = capital.value.number.map(hundredths).unwrap_or_default();
        let formula = Formula::new(format!("=SUM(G{}:G{})", top + 1, row + 1)).set_result(result);
        page.write_formula_with_format(row + 1, 6, formula, &formats.sum_money)?;
    }
    Ok(())
}

fn running(page: &mut Worksheet, sheet: &Sheet, words: Wording, formats: &Formats) -> Result<(), PaperError> {
    page.set_name(words.word("paper-running-tab")?)?;
    titled(page, sheet, &words.word("paper-running")?, words, formats)?;
    page.set_column_width(0, 48)?;
    page.set_column_width(1, 14)?;
    page.write_with_format(HEAD, 0, words.word("paper-col-item")?, &formats.head)?;
    let head = format!("{}, {}", words.word("paper-col-year")?, sheet.currency);
    page.write_with_format(HEAD, 1, head, &formats.head_right)?;
    let parts: Vec<_> = sheet
        .figures
        .iter()
        .filter(|f| f.id.starts_with("money.running."))
        .collect();
    for (index, part) in parts.iter().enumerate() {
        let row = HEAD + 1 + index as u32;
        page.write_with_format(row, 0, part.label.as_str(), &formats.text)?;
        if let Some(number) = part.value.number {
            page.write_with_format(row, 1, number, &formats.money)?;
        }
    }
    if let Some(yearly) = figure(sheet, "money.yearly") {
        let row = HEAD + 1 + parts.len() as u32;
        page.write_with_format(row, 0, yearly.label.as_str(), &formats.sum)?;
        let result = yearly.value.number.map(hundredths).unwrap_or_default();
        let formula = Formula::new(format!("=SUM(B{}:B{})", HEAD + 2, row)).set_result(result);
        page.write_formula_with_format(row, 1, formula, &formats.sum_money)?;
    }
    Ok(())
}

fn figure<'a>(sheet: &'a Sheet, id: &str) -> Option<&'a SaidFigure> {
    sheet.figures.iter().find(|f| f.id == id)
}
