//! The sheets that are filled: which drawings, how large, how they may turn, and on what background.
//!
//! Chosen once, by theme and before anything was packed, so that they look like sheets that somebody would make: sizes
//! from 12 to 35 mm, thin things and round ones, parts that stand out. Each background style is there twice.

use stickleaf_sheet::Style;

/// A sheet that is to be filled.
#[derive(Clone, Copy, Debug)]
pub struct Theme {
    /// What it is called.
    pub name: &'static str,
    /// Its background.
    pub style: Style,
    /// Its drawings.
    pub motifs: &'static [Motif],
}

/// A drawing as a sticker.
#[derive(Clone, Copy, Debug)]
pub struct Motif {
    /// The name of its file in the art's folder, without the ending: its code points.
    pub code: &'static str,
    /// What it shows.
    pub name: &'static str,
    /// The longer side of the drawing as it stands, in millimetres.
    pub size: f64,
    /// Whether it has an up: a face or a word, which may lean by [`LEAN`] degrees at most. Others turn freely.
    pub is_upright: bool,
}

/// How far faces and words may lean to either side, in degrees.
pub const LEAN: f64 = 15.0;

const fn free(code: &'static str, name: &'static str, size: f64) -> Motif {
    Motif { code, name, size, is_upright: false }
}

const fn upright(code: &'static str, name: &'static str, size: f64) -> Motif {
    Motif { code, name, size, is_upright: true }
}

/// All sheets.
pub const THEMES: [Theme; 10] = [
    Theme {
        name: "sea",
        style: Style::Plain,
        motifs: &[
            free("1F433", "whale", 35.0),
            free("1F42C", "dolphin", 32.0),
            free("1F99E", "lobster", 30.0),
            free("1F9AD", "seal", 28.0),
            free("1F419", "octopus", 26.0),
            free("1F980", "crab", 24.0),
            free("1F988", "shark", 22.0),
            free("1F420", "tropical fish", 20.0),
            free("1FABC", "jellyfish", 18.0),
            free("1F421", "blowfish", 16.0),
            free("1F41A", "shell", 14.0),
            free("1F990", "shrimp", 12.0),
        ],
    },
    Theme {
        name: "tools",
        style: Style::Plain,
        motifs: &[
            free("1FA9A", "saw", 35.0),
            free("1FA93", "axe", 33.0),
            free("1F528", "hammer", 31.0),
            free("1F527", "wrench", 29.0),
            free("1FA9B", "screwdriver", 27.0),
            free("2702", "scissors", 25.0),
            free("270F", "pencil", 24.0),
            free("1F511", "key", 22.0),
            free("1F9F2", "magnet", 20.0),
            free("2699", "gear", 18.0),
            free("1F4CE", "paperclip", 16.0),
            free("1F529", "nut and bolt", 14.0),
        ],
    },
    Theme {
        name: "garden",
        style: Style::TitleBand,
        motifs: &[
            free("1F33B", "sunflower", 34.0),
            free("1F335", "cactus", 31.0),
            free("1F339", "rose", 29.0),
            free("1F337", "tulip", 27.0),
            free("1FAB4", "potted plant", 25.0),
            free("1F98B", "butterfly", 23.0),
            free("1F344", "mushroom", 21.0),
            free("1F341", "maple leaf", 19.0),
            free("1F41D", "bee", 17.0),
            free("1F340", "clover", 15.0),
            free("1F40C", "snail", 14.0),
            free("1F41E", "lady beetle", 12.0),
        ],
    },
    Theme {
        name: "faces",
        style: Style::TitleBand,
        motifs: &[
            upright("1F920", "cowboy", 32.0),
            upright("1F973", "party", 30.0),
            upright("1F60E", "sunglasses", 27.0),
            upright("1F92F", "amazed", 26.0),
            upright("1F602", "laughing", 24.0),
            upright("1F60D", "in love", 22.0),
            upright("1F436", "dog", 21.0),
            upright("1F4AF", "hundred", 20.0),
            upright("1F4A4", "zzz", 18.0),
            free("1F4A5", "bang", 16.0),
            free("2764", "heart", 14.0),
            free("2B50", "star", 12.0),
        ],
    },
    Theme {
        name: "kitchen garden",
        style: Style::TitleAndMotifs,
        motifs: &[
            free("1F33D", "corn", 33.0),
            free("1F955", "carrot", 31.0),
            free("1F346", "eggplant", 28.0),
            free("1F966", "broccoli", 25.0),
            free("1F951", "avocado", 22.0),
            free("1FAD1", "pepper", 20.0),
            free("1F336", "hot pepper", 19.0),
            free("1F345", "tomato", 17.0),
            free("1F9C5", "onion", 15.0),
            free("1F34B", "lemon", 13.0),
        ],
    },
    Theme {
        name: "sky",
        style: Style::TitleAndMotifs,
        motifs: &[
            free("1F308", "rainbow", 35.0),
            free("1F680", "rocket", 31.0),
            free("1FA90", "ringed planet", 28.0),
            free("26C8", "storm", 25.0),
            free("1F320", "shooting star", 23.0),
            free("2600", "sun", 21.0),
            free("1F6F8", "saucer", 20.0),
            free("2601", "cloud", 18.0),
            free("1F319", "moon", 16.0),
            free("26A1", "lightning", 14.0),
            free("2744", "snowflake", 12.0),
        ],
    },
    Theme {
        name: "wheels and wings",
        style: Style::Frame,
        motifs: &[
            free("1F682", "locomotive", 32.0),
            free("1F681", "helicopter", 30.0),
            free("1F6B2", "bicycle", 28.0),
            free("1F69C", "tractor", 26.0),
            free("26F5", "sailboat", 24.0),
            free("2708", "airplane", 22.0),
            free("1F6F5", "scooter", 20.0),
            free("1F697", "car", 18.0),
            free("1F6F9", "skateboard", 16.0),
            free("2693", "anchor", 14.0),
        ],
    },
    Theme {
        name: "band",
        style: Style::Frame,
        motifs: &[
            free("1F3B8", "guitar", 35.0),
            free("1F3B7", "saxophone", 32.0),
            free("1F3BB", "violin", 30.0),
            free("1F3BA", "trumpet", 28.0),
            free("1FA97", "accordion", 25.0),
            free("1F941", "drum", 23.0),
            free("1F3A4", "microphone", 20.0),
            free("1F3A7", "headphone", 18.0),
            free("1FA87", "maracas", 16.0),
            free("1F514", "bell", 14.0),
            free("1F3B5", "note", 12.0),
        ],
    },
    Theme {
        name: "wood",
        style: Style::SceneWithWindows,
        motifs: &[
            free("1F98C", "deer", 30.0),
            upright("1F98A", "fox", 26.0),
            free("1F989", "owl", 23.0),
            free("1F994", "hedgehog", 21.0),
            free("1F407", "rabbit", 19.0),
            free("1F332", "fir", 18.0),
            free("1F342", "fallen leaf", 15.0),
            free("1F330", "chestnut", 12.0),
        ],
    },
    Theme {
        name: "sweets",
        style: Style::SceneWithWindows,
        motifs: &[
            free("1F382", "birthday cake", 28.0),
            free("1F366", "ice cream", 26.0),
            free("1F36D", "lollipop", 24.0),
            free("1F9C1", "cupcake", 20.0),
            free("1F369", "doughnut", 18.0),
            free("1F950", "croissant", 17.0),
            free("1F968", "pretzel", 16.0),
            free("1F36B", "chocolate", 14.0),
            free("1F36C", "candy", 12.0),
        ],
    },
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sheets_are_as_the_report_says() {
        for theme in THEMES {
            assert!((8..=14).contains(&theme.motifs.len()), "{}", theme.name);
            assert!(theme.motifs.iter().all(|motif| (12.0..=35.0).contains(&motif.size)), "{}", theme.name);
            for motif in theme.motifs {
                assert_eq!(theme.motifs.iter().filter(|other| other.code == motif.code).count(), 1);
            }
        }
        for style in stickleaf_sheet::STYLES {
            assert_eq!(THEMES.iter().filter(|theme| theme.style == style).count(), 2, "{style:?}");
        }
    }
}
