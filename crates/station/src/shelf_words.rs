//! What the equipment of the built-in shelf is called in a language.

use crate::shelf::Shelf;
use words::{Language, Message, say};

impl Shelf {
    /// The shelf with the names of a language where the name is ours. What a user's list calls otherwise stays as it was written.
    pub fn named_in(mut self, language: Language) -> Shelf {
        for item in &mut self.items {
            let name = Message::new(format!("item-{}", item.id));
            if say(&name, Language::English).is_ok_and(|ours| ours == item.name) {
                item.name = say(&name, language).unwrap_or_else(|_| item.name.clone());
            }
        }
        self
    }
}
