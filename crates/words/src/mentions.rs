//! What a message mentions: arguments, choices by them, other messages.

use std::collections::{BTreeMap, BTreeSet};

use fluent_bundle::FluentResource;
use fluent_syntax::ast::{
    CallArguments, Entry, Expression, InlineExpression, Pattern, PatternElement, Variant, VariantKey,
};

/// A choice in a message: the argument that chooses, and the variants there are.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Selection {
    /// The argument.
    pub argument: String,
    /// Keys of the variants.
    pub keys: BTreeSet<String>,
    /// Key of the one that is taken for every other value. `other` is made for that; any other name means one value.
    pub default: String,
}

/// What one message mentions: its own arguments and choices, and the messages it refers to.
#[derive(Default)]
pub(crate) struct Mentions {
    pub arguments: BTreeSet<String>,
    pub selections: BTreeSet<Selection>,
    messages: BTreeSet<String>,
}

/// Adds what every message and attribute of a file mentions.
pub(crate) fn collect(resource: &FluentResource, found: &mut BTreeMap<String, Mentions>) {
    for entry in resource.entries() {
        let Entry::Message(message) = entry else { continue };
        if let Some(pattern) = &message.value {
            mentions_of(pattern, found.entry(message.id.name.to_owned()).or_default());
        }
        for attribute in &message.attributes {
            let code = format!("{}.{}", message.id.name, attribute.id.name);
            mentions_of(&attribute.value, found.entry(code).or_default());
        }
    }
}

/// What a message mentions together with the messages it refers to.
pub(crate) fn all_mentions(
    code: &str,
    found: &BTreeMap<String, Mentions>,
    seen: &mut BTreeSet<String>,
) -> Mentions {
    let mut all = Mentions::default();
    let Some(own) = found.get(code).filter(|_| seen.insert(code.to_owned())) else {
        return all;
    };
    all.arguments.clone_from(&own.arguments);
    all.selections.clone_from(&own.selections);
    for other in &own.messages {
        let theirs = all_mentions(other, found, seen);
        all.arguments.extend(theirs.arguments);
        all.selections.extend(theirs.selections);
    }
    all
}

fn mentions_of(pattern: &Pattern<&str>, mentions: &mut Mentions) {
    for element in &pattern.elements {
        if let PatternElement::Placeable { expression } = element {
            mentions_in(expression, mentions);
        }
    }
}

fn mentions_in(expression: &Expression<&str>, mentions: &mut Mentions) {
    match expression {
        Expression::Inline(inline) => mentions_inline(inline, mentions),
        Expression::Select { selector, variants } => {
            mentions_inline(selector, mentions);
            mentions.selections.extend(selection(selector, variants));
            for variant in variants {
                mentions_of(&variant.value, mentions);
            }
        }
    }
}

/// A choice by an argument; none by anything else.
fn selection(selector: &InlineExpression<&str>, variants: &[Variant<&str>]) -> Option<Selection> {
    let InlineExpression::VariableReference { id } = selector else {
        return None;
    };
    let key = |variant: &Variant<&str>| match &variant.key {
        VariantKey::Identifier { name } => (*name).to_owned(),
        VariantKey::NumberLiteral { value } => (*value).to_owned(),
    };
    Some(Selection {
        argument: id.name.to_owned(),
        keys: variants.iter().map(key).collect(),
        default: variants.iter().find(|v| v.default).map(key)?,
    })
}

fn mentions_inline(inline: &InlineExpression<&str>, mentions: &mut Mentions) {
    match inline {
        InlineExpression::VariableReference { id } => {
            mentions.arguments.insert(id.name.to_owned());
        }
        InlineExpression::MessageReference { id, attribute } => {
            let code = attribute
                .as_ref()
                .map_or(id.name.to_owned(), |a| format!("{}.{}", id.name, a.name));
            mentions.messages.insert(code);
        }
        InlineExpression::FunctionReference {
            arguments: CallArguments { positional, .. },
            ..
        } => {
            for argument in positional {
                mentions_inline(argument, mentions);
            }
        }
        InlineExpression::Placeable { expression } => mentions_in(expression, mentions),
        _ => {}
    }
}
