//! Making the page's wasm smaller and faster with Binaryen's `wasm-opt`, where there is a usable one.

use std::fs;
use std::path::Path;
use std::process::Command;

use crate::programs;
use crate::trouble::Trouble;

/// The first version that keeps both of the page's tables.
///
/// Versions 108 and 109 export the table of functions under the name of the table of JavaScript values, and the page
/// does not start; even without any optimising pass. Versions 110, 111, 112 and 116 do well. Measured with the
/// same small page in node 20.
const FIRST_USABLE: u32 = 110;

/// Optimises a wasm file in place.
///
/// The page works as well without, only larger. So it is merely noted when there is no optimiser, when it is too old,
/// or when it does not understand today's wasm.
pub fn optimise(wasm: &Path) -> Result<(), Trouble> {
    let Some(program) = programs::find(&["wasm-opt"]) else {
        println!(
            "note: wasm-opt is not on this machine, so the page is larger than need be (package binaryen)"
        );
        return Ok(());
    };
    let version = programs::output(Command::new(&program).arg("--version"))?;
    let version = String::from_utf8_lossy(&version);
    if read_version(&version).is_none_or(|version| version < FIRST_USABLE) {
        println!(
            "note: {} would break the page and is not used, so the page is larger than need be; \
             version {FIRST_USABLE} or later is fine (package binaryen)",
            version.trim()
        );
        return Ok(());
    }
    let optimised = wasm.with_extension("optimised");
    match programs::run(Command::new(program).arg("-O3").arg(wasm).arg("-o").arg(&optimised)) {
        Ok(()) => fs::rename(&optimised, wasm).map_err(Trouble::file("rename", &optimised)),
        Err(trouble) => {
            println!("note: the page is larger than need be: {trouble}");
            let _ = fs::remove_file(&optimised);
            Ok(())
        }
    }
}

/// 116 for "wasm-opt version 116 (version_116)".
fn read_version(text: &str) -> Option<u32> {
    text.split_whitespace().skip_while(|word| *word != "version").nth(1)?.parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn versions_are_read_as_the_optimiser_prints_them() {
        assert_eq!(read_version("wasm-opt version 108\n"), Some(108));
        assert_eq!(read_version("wasm-opt version 116 (version_116-12-gabc)"), Some(116));
        assert_eq!(read_version("wasm-opt"), None);
    }
}
