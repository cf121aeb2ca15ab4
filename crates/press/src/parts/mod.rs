//! Each sticker with its own part of a larger picture, pixel for pixel, so that its art stays with it.
//!
//! Whatever is made of a layout is the same to the byte before and after: a part lies where it lay in the whole, and holds
//! all that is looked up from within the sticker's cut line as it is now.

mod cut_out;
mod window;

use std::collections::{BTreeMap, BTreeSet};

use stickleaf_sheet::{Layout, Part};

use crate::parts::cut_out::{NoParts, cut_out, size};
use crate::parts::window::Window;
use crate::progress::{Progress, Stopped};

/// A single drawing that takes in more of its picture than this keeps it whole: little would be left out.
const MOST_OF_PICTURE: f64 = 0.75;

/// Parts together are at most so many times as many bytes as the picture; else it stays whole. They are more where they
/// overlap, or where the picture was packed with more patience.
const MOST_BYTES: f64 = 1.25;

/// A layout whose stickers have their own parts of pictures.
#[derive(Clone, Debug, PartialEq)]
pub struct Parted {
    /// The layout. Names of pictures that stayed whole are as they were.
    pub layout: Layout,
    /// The bytes of the parts, by the names by which this layout knows them.
    pub parts: BTreeMap<String, Vec<u8>>,
    /// The pictures that are not needed any more, as the layout called them; what no sticker has of them is in no part.
    pub left: Vec<String>,
}

/// Gives each sticker of a picture that has more on it than its own drawing a file of just its part; stickers that need the
/// same pixels share one. `bytes` gives the files that the layout names.
///
/// What stays whole: drawings without pixels, files that are missing, damaged or parts already, pictures that a background
/// shows too, pictures of which a sticker takes in all or that are little more than its drawing, pictures of stickers that do
/// not say how large a pixel is, and those whose parts would be a quarter larger than they are.
///
/// Cost: each picture is read once, row by row; the parts are packed anew, and held in memory together.
pub fn parted(
    layout: &Layout,
    mut bytes: impl FnMut(&str) -> Option<Vec<u8>>,
    progress: &mut Progress<'_>,
) -> Result<Parted, Stopped> {
    let mut made = Parted { layout: layout.clone(), parts: BTreeMap::new(), left: Vec::new() };
    let of_backgrounds = layout.backgrounds.iter().filter_map(|background| background.picture.as_deref());
    let behind: BTreeSet<&str> = of_backgrounds.collect();
    let of_stickers = layout.stickers.iter().filter_map(|sticker| sticker.art.as_ref());
    let files: BTreeSet<&str> = of_stickers.map(|art| &*art.file).collect();
    let all = files.len().max(1) as f64;
    for (number, file) in files.iter().enumerate() {
        progress.tell(number as f64 / all)?;
        if behind.contains(file) {
            continue;
        }
        let Some(bytes) = bytes(file) else { continue };
        let Some(plan) = Plan::of(layout, file, &bytes) else { continue };
        let mut tell = |share: f64| progress.tell((number as f64 + share) / all).is_ok();
        match cut_out(&bytes, &plan.windows, &mut Progress::new(&mut tell)) {
            Ok(parts) => {
                let sum: usize = parts.iter().map(Vec::len).sum();
                if sum as f64 <= MOST_BYTES * bytes.len() as f64 {
                    made.take(file, &plan, parts);
                }
            }
            Err(NoParts::LeaveWhole) => {}
            Err(NoParts::Stopped) => return Err(Stopped),
        }
    }
    progress.tell(1.0)?;
    Ok(made)
}

/// What a picture is cut into.
struct Plan {
    size: (u32, u32),
    /// Each once, from the top.
    windows: Vec<Window>,
    /// The stickers of the picture by their position, each with the window that it needs.
    stickers: Vec<(usize, Window)>,
}

impl Plan {
    /// Nothing if the picture stays whole.
    fn of(layout: &Layout, file: &str, bytes: &[u8]) -> Option<Plan> {
        let size = size(bytes)?;
        let mut stickers = Vec::new();
        for (index, sticker) in layout.stickers.iter().enumerate() {
            if sticker.art.as_ref().is_some_and(|art| art.file == file) {
                stickers.push((index, Window::of(sticker, &layout.rules, size)?));
            }
        }
        let windows: BTreeSet<Window> = stickers.iter().map(|&(_, window)| window).collect();
        let whole = Window::whole(size);
        let is_one = |window: &Window| window.pixels() as f64 > MOST_OF_PICTURE * whole.pixels() as f64;
        if windows.contains(&whole) || (windows.len() == 1 && windows.iter().all(is_one)) {
            return None;
        }
        Some(Plan { size, windows: windows.into_iter().collect(), stickers })
    }
}

impl Parted {
    fn take(&mut self, file: &str, plan: &Plan, parts: Vec<Vec<u8>>) {
        let mut names: BTreeMap<Window, String> = BTreeMap::new();
        for &(index, window) in &plan.stickers {
            let id = self.layout.stickers[index].id.clone();
            let name = names.entry(window).or_insert_with(|| unused_name(&self.layout, file, &id)).clone();
            if let Some(art) = &mut self.layout.stickers[index].art {
                art.part = Some(Part {
                    of: std::mem::replace(&mut art.file, name),
                    of_width_px: plan.size.0,
                    of_height_px: plan.size.1,
                    left_px: window.left,
                    top_px: window.top,
                });
            }
        }
        let names = plan.windows.iter().filter_map(|window| names.remove(window));
        self.parts.extend(names.zip(parts));
        self.left.push(file.to_owned());
    }
}

/// A name beside the picture's for a sticker's part of it, that no picture of the layout has.
fn unused_name(layout: &Layout, picture: &str, id: &str) -> String {
    let stem = match picture.rsplit_once('.') {
        Some((stem, ending)) if !ending.contains(['/', '\\']) => stem,
        _ => picture,
    };
    let id = id.replace(['/', '\\', '.'], "-");
    let of_stickers = layout.stickers.iter().filter_map(|sticker| Some(&*sticker.art.as_ref()?.file));
    let of_backgrounds = layout.backgrounds.iter().filter_map(|background| background.picture.as_deref());
    let used: BTreeSet<&str> = of_stickers.chain(of_backgrounds).collect();
    let numbered = (2..).map(|number| format!("{stem}-{id}-{number}.png"));
    let names = std::iter::once(format!("{stem}-{id}.png")).chain(numbered);
    names.into_iter().find(|name| !used.contains(&**name)).unwrap_or_default()
}
