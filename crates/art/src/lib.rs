//! Reads artwork: PNG and SVG bytes to separate drawings with outlines.
//!
//! Start reading at [`import`]. Bytes come in, drawings come out; no file is opened here. Of a PNG only the cover
//! counts, of an SVG only where something is painted; colours are passed over.
//!
//! Conventions everywhere: millimetres, x to the right, y down, the artwork's top left corner at (0, 0). A number in
//! another unit says so in its name.
//!
//! ```
//! use stickleaf_art::{ImportOptions, import};
//!
//! let svg = br#"<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="20mm" viewBox="0 0 40 20">
//!     <rect id="box" x="2" y="2" width="16" height="16"/>
//!     <circle id="ball" cx="30" cy="10" r="8"/>
//! </svg>"#;
//! let import = import(svg, &ImportOptions::default())?;
//! let names: Vec<&str> = import.drawings.iter().map(|drawing| drawing.name.as_str()).collect();
//! assert_eq!(names, ["box", "ball"]);
//! assert!((import.drawings[0].outline.area() - 256.0).abs() < 0.1);
//! # Ok::<(), stickleaf_art::ImportError>(())
//! ```

mod drawing;
mod import;
mod kinds;
mod note;
mod png;
mod progress;
mod svg;

pub use drawing::Drawing;
pub use import::{
    Import, ImportError, ImportOptions, MOST_DRAWINGS, TrueSize, USUAL_PER_INCH, USUAL_SMALLEST, import,
    import_with,
};
pub use kinds::{Emptiness, FileKind};
pub use note::{Note, Speck};
pub use png::{MOST_PIXELS, Picture, PngError, read_png};
pub use progress::{Progress, Stopped};
pub use svg::SvgError;
