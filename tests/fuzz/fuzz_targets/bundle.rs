//! Any bytes as a bundle: a layout with its pictures that comes back the same, or a named error.

#![no_main]

use libfuzzer_sys::fuzz_target;
use stickleaf_files::bundle;

fuzz_target!(|data: &[u8]| {
    let Ok(read) = bundle::read(data) else { return };
    assert_eq!(read.layout.validate(), Ok(()), "what is read makes sense");
    let (bytes, missing) = bundle::write(&read.layout, |file| read.pictures.get(file).cloned())
        .expect("what was read can be written");
    let again = bundle::read(&bytes).expect("what is written can be read");
    assert_eq!(again.pictures.len() + missing.len(), named(&read.layout), "every picture is there or missed");
    assert!(again.passed_over.is_empty());
    let pieces = |layout: &stickleaf_sheet::Layout| layout.pieces.clone();
    assert_eq!(pieces(&again.layout), pieces(&read.layout), "no piece has moved");
});

/// How many picture files a layout names.
fn named(layout: &stickleaf_sheet::Layout) -> usize {
    let of_stickers = layout.stickers.iter().filter_map(|sticker| Some(&sticker.art.as_ref()?.file));
    let of_backgrounds = layout.backgrounds.iter().filter_map(|background| background.picture.as_ref());
    of_stickers.chain(of_backgrounds).collect::<std::collections::BTreeSet<_>>().len()
}
