//! The real program, run in a folder of its own for each story.

mod answers;
mod compare;
mod press;
mod program;
mod refusals;
