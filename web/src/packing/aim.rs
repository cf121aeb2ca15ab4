//! What the page's aims are to the packer, to files and to the artist.

use stickleaf_packer::Aim;

use crate::messages::PackAim;
use crate::words;

/// The same to the packer.
pub fn goal(aim: PackAim) -> Aim {
    match aim {
        PackAim::Place => Aim::Place,
        PackAim::Fill => Aim::Fill,
        PackAim::Grow => Aim::Grow,
        PackAim::Even => Aim::Even,
        PackAim::Shorten => Aim::Shorten,
    }
}

/// Its name in files, the same as at the command line.
pub fn file_word(aim: PackAim) -> &'static str {
    match aim {
        PackAim::Place => "place",
        PackAim::Fill => "fill",
        PackAim::Grow => "grow",
        PackAim::Even => "even",
        PackAim::Shorten => "shorten",
    }
}

/// What undo calls it: the words on its button.
pub fn step_word(aim: PackAim) -> &'static str {
    match aim {
        PackAim::Place => words::place_these(),
        PackAim::Fill => words::fill(),
        PackAim::Grow => words::grow(),
        PackAim::Even => words::even(),
        PackAim::Shorten => words::shorten(),
    }
}
