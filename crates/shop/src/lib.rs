//! The sums of a sticker shop: sheets on a page, cut time, cost and price, runs, test cards, blade log.
//!
//! Plain values in, plain values out: no file is opened, no clock read, no machine known by name. Lengths are
//! millimetres, times seconds, money whole cents; a number in another unit says so in its name.

pub mod page;
