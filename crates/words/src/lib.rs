//! Every sentence shown to a person: a message by code with typed arguments, said in a language.
//!
//! The texts are Fluent files under `messages/<language>/*.ftl`, embedded when this crate is built; a new file needs no code.
//! Codes are kebab-case and unique over all files of a language. Whoever finds something makes a [`Message`]; whoever shows it
//! says it: [`say`]. A code that does not exist, or an argument that is missing, is an error, never an empty or half sentence.
//!
//! In the message files:
//! - `{ $power }`, `{ $field }`: quantities, numbers, money and positions arrive as finished text in the language's spelling;
//! - `{ $people }` with [`Arg::Count`] chooses the plural **and** prints grouped (`8,130`);
//! - `{ $kind -> [mast] .. *[other] .. }`: tags choose a variant; they are never printed themselves;
//! - `{ $why }` with [`Arg::Said`]: another message, said in the same language.
//!
//! # Example
//! ```
//! use words::{say, Language, Message};
//! let fault = <quantity::Power as quantity::Quantity>::parse("500").unwrap_err();
//! assert_eq!(say(&Message::from(&fault), Language::English).unwrap(), "A power needs its unit: 500 W, 0.5 kW or 27 dBW.");
//! ```

mod catalogue;
mod faults;
mod language;
mod mentions;
mod message;

pub use catalogue::{Said, Words, WordsError, said, say, say_best, words};
pub use language::Language;
pub use mentions::Selection;
pub use message::{Arg, Message};
