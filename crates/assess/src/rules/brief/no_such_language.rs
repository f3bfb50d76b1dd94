//! BR 07: There are no sentences in the language the file asks for.
//!
//! Page and papers are then in the language of the machine, or in English: not what the client was promised.

use crate::figure::Stage;
use crate::finding::{Finding, Remedy, Rule, Severity};
use crate::rules::Look;
use station::Mark;
use words::{Arg, Language, Message};

/// BR 07.
pub static RULE: Rule = Rule {
    code: "BR 07",
    severity: Severity::Warning,
    clause: "clause-language-tags",
    mark: Mark::Computed,
    check,
};

fn check(look: &Look, rule: &Rule) -> Vec<Finding> {
    let Some(tag) = look.case.station.language.as_deref() else {
        return Vec::new();
    };
    if Language::from_tag(tag).is_some() {
        return Vec::new();
    }
    let known = Language::ALL.iter().map(|l| l.tag().to_owned()).collect();
    let says = Message::new("br-07")
        .text("tag", tag)
        .with("known", Arg::All(known));
    let plain = Language::default().tag();
    vec![rule.finding(Stage::Brief, "language", says).remedy(Remedy::new(
        Message::new("br-07-do").text("tag", plain),
        vec![look.case.set("language", plain)],
    ))]
}
