//! The sums of a sticker shop: sheets on a page, cut time, ink, cost and price, runs.
//!
//! Plain values in, plain values out: no file is opened, no clock read, no machine known by name. Lengths are
//! millimetres, times seconds, money whole cents; a number in another unit says so in its name. Start reading at `run.rs`,
//! which joins the others, and at `page/mod.rs` for how sheets lie on a page;
//! `trial/mod.rs` finds the blade's setting.

pub mod costs;
pub mod cutting;
pub mod history;
pub mod ink;
pub mod money;
pub mod page;
pub mod run;
pub mod schedule;
pub mod settings;
pub mod shop_file;
pub mod spoilage;
pub mod trial;
pub mod what_if;
