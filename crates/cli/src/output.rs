//! Printing: answers to standard output, everything else to standard error.

use std::io::{self, Write};

/// Prints the text to standard output, as it is.
///
/// A reader that has gone away, as `head` does, is no trouble.
pub fn print(text: &str) {
    let mut out = io::stdout().lock();
    let _ = out.write_all(text.as_bytes()).and_then(|()| out.flush());
}

/// Prints a line to standard error.
pub fn tell(line: &str) {
    let _ = writeln!(io::stderr().lock(), "{line}");
}

/// Prints whole lines of text to standard error, as they are.
pub fn tell_lines(text: &str) {
    let _ = io::stderr().lock().write_all(text.as_bytes());
}
