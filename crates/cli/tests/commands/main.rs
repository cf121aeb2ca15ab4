//! The real program, run in a folder of its own for each story.

mod answers;
mod bundle;
mod card;
mod compare;
mod finish;
mod history;
mod moves;
mod page;
mod page_files;
mod press;
mod program;
mod refusals;
mod timed;
mod update;
