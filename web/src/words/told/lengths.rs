//! Why a text is no length.

use stickleaf_sheet::LengthTextError;

/// What to type instead.
pub fn length_trouble(error: &LengthTextError) -> String {
    match error {
        LengthTextError::Empty => {
            say!("type a length, such as 2 or 1/8 in", "gib eine Länge ein, etwa 2 oder 1/8 in")
        }
        LengthTextError::NotANumber(text) => say!(
            "\"{text}\" is not a number; type a length such as 2, 2.5 mm or 1/8 in",
            "„{text}“ ist keine Zahl; gib eine Länge ein wie 2, 2,5 mm oder 1/8 in"
        ),
        LengthTextError::UnknownUnit(unit) => say!(
            "\"{unit}\" is not a unit; use mm, cm, in or pt",
            "„{unit}“ ist keine Einheit; nimm mm, cm, in oder pt"
        ),
        LengthTextError::Ambiguous(text) => say!(
            "\"{text}\" can be read in two ways; write decimals with a point",
            "„{text}“ lässt sich auf zwei Arten lesen; schreib Nachkommastellen mit einem Komma"
        ),
        LengthTextError::DividesByZero(text) => {
            say!("\"{text}\" divides by zero", "„{text}“ teilt durch null")
        }
    }
}
