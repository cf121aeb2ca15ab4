//! Words for what is made for the printer, and for the groups of what leaves.

words! {
    to_print: "To print", "Zum Drucken";
    to_cut: "To cut", "Zum Schneiden";
    to_keep: "To keep and pass on", "Zum Aufheben und Weitergeben";
    save_sheet: "Make the sheet", "Bogen erzeugen";
    sheet_text: "The whole sheet as one picture: background, white borders and drawings at true size, as PNG.", "Der ganze Bogen als ein Bild: Hintergrund, weiße Ränder und Zeichnungen in wahrer Größe, als PNG.";
    bleed: "Past the edge", "Über die Kante";
    no_bleed: "Card only", "Nur die Karte";
    with_bleed: "2 mm bleed", "2 mm Beschnitt";
    being_made: "being made", "entsteht gerade";
}

pub fn sheet_pixels(width_px: u32, height_px: u32, ppi: f64) -> String {
    say!(
        "{width_px} x {height_px} pixels, {ppi} to the inch",
        "{width_px} x {height_px} Pixel, {ppi} auf einen Zoll"
    )
}

pub fn made(file: &str, pixels: Option<(u32, u32)>) -> String {
    match pixels {
        Some((width, height)) => say!(
            "{file} is saved where this browser keeps downloads: {width} x {height} pixels.",
            "{file} liegt jetzt bei den Downloads dieses Browsers: {width} x {height} Pixel."
        ),
        None => say!(
            "{file} is saved where this browser keeps downloads.",
            "{file} liegt jetzt bei den Downloads dieses Browsers."
        ),
    }
}
