//! The composed sheet, the print and the cut against programs that nobody here wrote: a renderer, an SVG reader and a geometry from
//! the registry, and two readers of PDF that have nothing in common, poppler and MuPDF.

mod composed;
mod lines;
mod pictures;
mod printed;
mod readers;
mod sheets;
mod spacings;
