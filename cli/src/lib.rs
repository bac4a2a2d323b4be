//! The command `quarterpin`: what a person types, what it means, what comes of it.

pub mod answer;
pub mod args;
pub mod commands;
mod dialogue;
pub mod file_name;
pub(crate) mod harmless;
pub mod output;
pub mod own_file;
mod page;
pub mod people;
pub mod schema;
pub mod sheet;
pub mod template;
pub mod terminal;
