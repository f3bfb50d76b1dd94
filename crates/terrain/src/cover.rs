//! Land cover: from the class of a satellite map to the clutter category and height that P.1812 wants.
//!
//! The built-in table is `data/land-cover.csv`, each row with its source and mark; a user's own table has the same columns.

use std::io::Read;
use std::sync::LazyLock;

use words::Message;

/// Class of a land-cover map with no data at a place.
pub const NO_DATA: u8 = 0;
/// ESA WorldCover: trees.
pub const TREES: u8 = 10;
/// ESA WorldCover: shrub.
pub const SHRUB: u8 = 20;
/// ESA WorldCover: grass.
pub const GRASS: u8 = 30;
/// ESA WorldCover: crops.
pub const CROPS: u8 = 40;
/// ESA WorldCover: built-up.
pub const BUILT_UP: u8 = 50;
/// ESA WorldCover: bare ground, rock.
pub const BARE: u8 = 60;
/// ESA WorldCover: snow and ice.
pub const SNOW: u8 = 70;
/// ESA WorldCover: water, sea or inland.
pub const WATER: u8 = 80;
/// ESA WorldCover: wetland.
pub const WETLAND: u8 = 90;

/// What stands on the ground, in the words of P.1812 § 3.2.1.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum CoverCategory {
    /// Sea or inland water.
    Water,
    /// Open or rural.
    Open,
    /// Suburban.
    Suburban,
    /// Urban, outside the dense centre.
    Urban,
    /// Trees or forest.
    Trees,
    /// Dense urban.
    DenseUrban,
}

/// One class of the table.
#[derive(Debug, Clone, PartialEq)]
pub struct CoverClass {
    /// Code in the raster.
    pub code: u8,
    /// Name in plain words.
    pub name: String,
    /// Clutter category.
    pub category: CoverCategory,
    /// Representative clutter height R, metres above ground.
    pub clutter_m: f64,
    /// Where the row comes from.
    pub source: String,
    /// Mark of the row: V, C, M, P or I.
    pub mark: char,
}

/// Land-cover classes by code.
#[derive(Debug, Clone, PartialEq)]
pub struct ClutterTable {
    classes: Vec<CoverClass>,
    clutter_m: [f32; 256],
}

/// Why a table of land cover cannot be read.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum CoverError {
    /// A row that is no class.
    Row {
        /// Line, the header being line 1.
        line: u64,
        /// What was expected there.
        expected: Message,
    },
}

static BUILT_IN: LazyLock<ClutterTable> = LazyLock::new(|| {
    ClutterTable::read_csv(include_str!("../data/land-cover.csv").as_bytes())
        .expect("the built-in table is read by a test")
});

impl Default for ClutterTable {
    /// ESA WorldCover classes with draft heights, mark P.
    fn default() -> Self {
        BUILT_IN.clone()
    }
}

impl ClutterTable {
    /// A table from CSV with the columns `code,name,category,clutter_m,source,mark`.
    ///
    /// # Errors
    /// [`CoverError::Row`] with the line of the first row that is no class, names a class twice, or whose height is not
    /// between 0 and 100 m.
    pub fn read_csv(from: impl Read) -> Result<Self, CoverError> {
        let mut reader = csv::ReaderBuilder::new().trim(csv::Trim::All).from_reader(from);
        let mut table = Self {
            classes: Vec::new(),
            clutter_m: [0.0; 256],
        };
        for (index, row) in reader.records().enumerate() {
            let line = row
                .as_ref()
                .ok()
                .and_then(|r| r.position())
                .map_or(index as u64 + 2, |p| p.line());
            let class = row
                .map_err(Message::foreign)
                .and_then(|row| class_of(&row))
                .and_then(|class| table.refuse_twice(class))
                .map_err(|expected| CoverError::Row { line, expected })?;
            table.clutter_m[usize::from(class.code)] = class.clutter_m as f32;
            table.classes.push(class);
        }
        Ok(table)
    }

    fn refuse_twice(&self, class: CoverClass) -> Result<CoverClass, Message> {
        match self.class(class.code) {
            Some(before) => Err(Message::new("terrain-cover-twice")
                .count("class", i64::from(class.code))
                .text("name", &before.name)),
            None => Ok(class),
        }
    }

    /// The classes, in the order of the table.
    pub fn classes(&self) -> &[CoverClass] {
        &self.classes
    }

    /// The class with this code.
    pub fn class(&self, code: u8) -> Option<&CoverClass> {
        self.classes.iter().find(|class| class.code == code)
    }

    /// Category of a code; [`CoverCategory::Open`] for codes the table does not hold.
    pub fn category(&self, code: u8) -> CoverCategory {
        self.class(code)
            .map_or(CoverCategory::Open, |class| class.category)
    }

    /// Clutter height of a code, metres; 0 for codes the table does not hold.
    #[inline]
    pub fn clutter_m(&self, code: u8) -> f64 {
        f64::from(self.clutter_m[usize::from(code)])
    }

    /// The same table with another height for one class, such as 20 m for a built-up centre. Marked I (the user's).
    ///
    /// # Errors
    /// [`CoverError::Row`] (line 0) when the class is unknown or the height is not between 0 and 100 m.
    pub fn with_height(mut self, code: u8, clutter_m: f64) -> Result<Self, CoverError> {
        let refuse = |expected: Message| CoverError::Row { line: 0, expected };
        let height_m = checked_height(clutter_m).map_err(refuse)?;
        let Some(class) = self.classes.iter_mut().find(|class| class.code == code) else {
            return Err(refuse(
                Message::new("terrain-cover-unknown").count("class", i64::from(code)),
            ));
        };
        class.clutter_m = height_m;
        class.source = "set by the user".into();
        class.mark = 'I';
        self.clutter_m[usize::from(code)] = height_m as f32;
        Ok(self)
    }
}

fn class_of(row: &csv::StringRecord) -> Result<CoverClass, Message> {
    let cell = |index: usize, name: &str| {
        row.get(index)
            .ok_or_else(|| Message::new("terrain-cover-column").text("column", name))
    };
    let code = cell(0, "code")?;
    let height = cell(3, "clutter_m")?;
    let mark = cell(5, "mark")?;
    Ok(CoverClass {
        code: code
            .parse()
            .map_err(|_| Message::new("terrain-cover-code").text("text", code))?,
        name: cell(1, "name")?.into(),
        category: category_of(cell(2, "category")?)?,
        clutter_m: height
            .parse()
            .map_err(|_| Message::new("terrain-cover-metres").text("text", height))
            .and_then(checked_height)?,
        source: cell(4, "source")?.into(),
        mark: match mark {
            "V" | "C" | "M" | "P" | "I" => mark.chars().next().unwrap_or('I'),
            _ => return Err(Message::new("terrain-cover-mark").text("text", mark)),
        },
    })
}

fn category_of(word: &str) -> Result<CoverCategory, Message> {
    Ok(match word {
        "water" => CoverCategory::Water,
        "open" => CoverCategory::Open,
        "suburban" => CoverCategory::Suburban,
        "urban" => CoverCategory::Urban,
        "trees" => CoverCategory::Trees,
        "dense urban" => CoverCategory::DenseUrban,
        _ => {
            return Err(Message::new("terrain-cover-category").text("text", word));
        }
    })
}

fn checked_height(height_m: f64) -> Result<f64, Message> {
    if (0.0..=100.0).contains(&height_m) {
        Ok(height_m)
    } else {
        Err(Message::new("terrain-cover-height").given("height", height_m))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ESA WorldCover 10 m v200 product user manual: class codes; P.1812 § 3.2.1: defaults for trees and suburban.
    #[test]
    fn ref_built_in_table() {
        let table = ClutterTable::default();
        assert_eq!(table.classes().len(), 12);
        assert_eq!(
            (table.clutter_m(TREES), table.category(TREES)),
            (15.0, CoverCategory::Trees)
        );
        assert_eq!(
            (table.clutter_m(BUILT_UP), table.category(BUILT_UP)),
            (10.0, CoverCategory::Suburban)
        );
        assert_eq!(
            (table.clutter_m(WATER), table.category(WATER)),
            (0.0, CoverCategory::Water)
        );
        assert_eq!(table.clutter_m(77), 0.0);
        assert!(table.classes().iter().all(|class| class.mark == 'P'));
    }

    #[test]
    fn bad_rows_are_told_with_their_line() {
        let read = |body: &str| {
            let text = format!("code,name,category,clutter_m,source,mark\n10,trees,trees,15,x,P\n{body}\n");
            ClutterTable::read_csv(text.as_bytes()).unwrap_err().to_string()
        };
        assert!(read("300,a,open,0,x,P").contains("line 3: code `300`"));
        assert!(read("20,a,woods,0,x,P").contains("line 3: category `woods`"));
        assert!(read("20,a,open,-3,x,P").contains("line 3: clutter_m `−3`"));
        assert!(read("20,a,open,NaN,x,P").contains("line 3: clutter_m `NaN`"));
        assert!(read("20,a,open,0,x,Q").contains("line 3: mark `Q`"));
        assert!(read("10,a,open,0,x,P").contains("line 3: class 10 stands twice"));
    }
}
