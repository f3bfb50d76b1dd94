//! What one gets: the bill without prices, like things counted together.

use crate::assessment::Assessment;
use crate::figure::Stage;
use crate::pen::Pen;
use crate::say::stage_code;
use serde::Serialize;
use words::{Message, WordsError};

/// What belongs to one stage.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Given {
    /// The stage.
    pub stage: Stage,
    /// Its name.
    pub name: String,
    /// The things.
    pub items: Vec<GivenItem>,
}

/// One kind of thing.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct GivenItem {
    /// How many, such as `2 ×` or `36 m`.
    pub quantity: String,
    /// What it is.
    pub name: String,
}

/// Things that rules added, such as connectors, stand in the price list only.
pub(super) fn gets(assessment: &Assessment, pen: Pen) -> Result<Vec<Given>, WordsError> {
    let mut given = Vec::new();
    for stage in Stage::CHAIN.iter().chain(&[Stage::Sites, Stage::Money]) {
        let mut kinds: Vec<(&str, &Message, f64)> = Vec::new();
        for line in assessment
            .bill
            .iter()
            .filter(|l| l.stage == *stage && l.why.is_none())
        {
            match kinds
                .iter_mut()
                .find(|(name, per, _)| *name == line.name && **per == line.per)
            {
                Some((.., quantity)) => *quantity += line.quantity,
                None => kinds.push((&line.name, &line.per, line.quantity)),
            }
        }
        if kinds.is_empty() {
            continue;
        }
        let items = kinds
            .into_iter()
            .map(|(name, per, quantity)| {
                Ok(GivenItem {
                    quantity: counted(per, quantity, pen)?,
                    name: name.to_owned(),
                })
            })
            .collect::<Result<_, WordsError>>()?;
        given.push(Given {
            stage: *stage,
            name: pen.word(stage_code(*stage))?,
            items,
        });
    }
    Ok(given)
}

/// Things are counted with a sign, metres and days with their unit.
fn counted(per: &Message, quantity: f64, pen: Pen) -> Result<String, WordsError> {
    let whole = (quantity - quantity.round()).abs() < 1e-9;
    let number = pen.plain(quantity, if whole { 0 } else { 1 });
    if per.code == "per-each" {
        return Ok(format!("{number}\u{a0}×"));
    }
    let unit = pen.text(&per.clone().count("count", quantity.round() as i64))?;
    Ok(format!("{number}\u{a0}{unit}"))
}
