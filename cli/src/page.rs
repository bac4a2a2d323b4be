//! The page: a sheet filled in, seen and pulled in a browser, served on the loopback address. What it is
//! asked and answers is told in `cli/page/README.md`; everything it shows is made by the same library as
//! what the commands write.

mod assets;
mod change;
mod crowd;
mod desk;
mod door;
mod drawer;
mod files;
mod folder;
mod history;
mod lays;
mod looks;
mod open_sheet;
mod person;
mod pull;
mod reading;
mod remedy;
mod room;
mod routes;
mod server;
mod show;
mod tables;
mod trials;
mod trouble;
mod unsaved;
mod variants;

pub(crate) use desk::Desk;
pub(crate) use folder::Folder;
pub(crate) use server::{Listening, serve};
pub(crate) use trouble::Trouble;
