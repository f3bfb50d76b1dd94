//! The program: a station folder opened, assessed and shown on the terminal, on the page and on paper.

mod answers;
pub mod commands;
pub mod desk;
pub mod language;
mod memory;
pub mod office;
