//! `count`: how many pieces, how dense, and how many could fit at most.

use stickleaf_files::report::{self, PackReport};
use stickleaf_sheet::{Layout, LengthUnit, Score, check, score};

use crate::check::{outcome, summary};
use crate::columns::columns;
use crate::options::CountCommand;
use crate::{Outcome, Trouble, layouts, output};

/// Prints the score of the layout; lacking if a hard rule is broken.
pub fn run(typed: &CountCommand) -> Result<Outcome, Trouble> {
    let layout = layouts::read(&typed.layout)?;
    let (score, findings) = (score(&layout), check(&layout));
    if typed.report.is_json() {
        let mut report = PackReport::new(&layout, &score, &findings);
        if let Some(packed) = stickleaf_files::packed::packed(&layout) {
            report.aim = Some(packed.aim);
            report.seed = Some(packed.seed);
            report.rounds = Some(packed.rounds);
        }
        output::print(&report::text(&report));
    } else {
        output::print(&score_lines(&layout, &score));
        output::print(&format!("{}\n", summary(&findings)));
    }
    Ok(outcome(&findings))
}

/// The score as a table and a few lines.
pub fn score_lines(layout: &Layout, score: &Score) -> String {
    let row = |cells: [&str; 3]| cells.map(str::to_owned).to_vec();
    let mut rows = vec![row(["sticker", "wanted", "placed"])];
    for (sticker, (_, placed)) in layout.stickers.iter().zip(&score.by_sticker) {
        let least = sticker.wanted.least();
        let wanted = if sticker.wanted.most().is_some() { least.to_string() } else { format!("{least}+") };
        rows.push(row([&sticker.name, &wanted, &placed.to_string()]));
    }
    rows.push(row(["all", &score.wanted.to_string(), &score.placed.to_string()]));
    let mut text = columns(&rows);
    text.push_str(&format!("at most        {} pieces under these rules, proven\n", score.ceiling.most));
    text.push_str(&format!("density        {:.1} % of the usable area\n", 100.0 * score.density));
    text.push_str(&format!("cover          {:.1} % of the card\n", 100.0 * score.cover));
    if let Some(gap) = score.smallest_gap {
        text.push_str(&format!("smallest gap   {}\n", LengthUnit::Millimetres.text(gap)));
    }
    text
}

/// The wanted copies that have no place, in words; nothing if there are none.
pub fn missing_line(layout: &Layout, score: &Score) -> Option<String> {
    let name = |id: &str| layout.sticker(id).map_or_else(|| id.to_owned(), |sticker| sticker.name.clone());
    let parts: Vec<String> =
        score.missing.iter().map(|(id, count)| format!("{count} of {}", name(id))).collect();
    (!parts.is_empty()).then(|| format!("no place found for {}", parts.join(", ")))
}
