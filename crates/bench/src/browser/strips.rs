//! Strip instances, shortened in the page by one worker.

use stickleaf_packer::Aim;
use stickleaf_sheet::Layout;

use crate::browser::page::{End, Page};
use crate::cases::{Case, Verdict, cases, lowest};
use crate::options::BrowserCommand;
use crate::output;
use crate::picture::Panel;
use crate::published::{Published, SOURCE, WIDENED};
use crate::table::{Table, figure, mean};
use crate::trouble::Trouble;

/// What one instance came to.
pub struct Shortened {
    verdict: Verdict,
    /// How long the worker was busy.
    seconds: f64,
}

impl Shortened {
    /// Whether all pieces lie there and the layout stands the second look.
    pub fn is_sound(&self) -> bool {
        self.density().is_some()
    }

    /// In per cent; nothing if the layout is not sound or lacks pieces.
    fn density(&self) -> Option<f64> {
        match self.verdict {
            Verdict::Sound(density) => Some(density),
            Verdict::Lacking(_) | Verdict::Invalid(_) => None,
        }
    }
}

/// The instances that are asked for; none without a folder.
pub fn asked(typed: &BrowserCommand) -> Result<Vec<Case>, Trouble> {
    typed.instances.as_ref().map_or(Ok(Vec::new()), |folder| cases(folder, &typed.only))
}

/// Shortens an instance in the page. Only the places of the pieces are taken from there, so that it is the outlines as
/// they were read that are looked at again.
pub fn measure(page: &mut Page, case: &Case, typed: &BrowserCommand) -> Result<Shortened, Trouble> {
    let name = &case.instance.name;
    let text = stickleaf_files::write(&case.strip.layout);
    let answer = page.pack(name, &text, Aim::Shorten, typed.seed, End::Seconds(typed.seconds))?;
    let packed = Layout { pieces: answer.layout.pieces, ..case.strip.layout.clone() };
    let verdict = case.judge(&packed);
    eprintln!("{name}: {verdict} after {:.1} s in the page", answer.seconds);
    let caption = format!("{} pieces, density {verdict} %, packed in the page", packed.pieces.len());
    let size = (packed.sheet.width, lowest(&packed));
    output::picture(&typed.output, name, &[Panel { size, ..Panel::of(&packed, name, caption) }])?;
    Ok(Shortened { verdict, seconds: answer.seconds })
}

/// The table, and what it means.
pub fn report(cases: &[Case], strips: &[Shortened], typed: &BrowserCommand) -> String {
    let mut table =
        Table::new(["instance", "pieces", "published best", "published mean", "in the page", "seconds"]);
    let rows = || cases.iter().zip(strips);
    let published = |value: fn(&Published) -> Option<f64>| {
        mean(rows().filter_map(|(case, _)| value(case.published.as_ref().filter(|row| row.mean.is_some())?)))
    };
    for (case, strip) in rows() {
        table.rows.push(vec![
            case.instance.name.clone(),
            case.instance.pieces().to_string(),
            figure(case.published.map(|row| row.best), 2),
            figure(case.published.and_then(|row| row.mean), 2),
            strip.verdict.to_string(),
            figure(Some(strip.seconds), 1),
        ]);
    }
    // A mean over fewer instances than the published one would not compare.
    let compared = rows().filter(|(case, _)| case.published.is_some_and(|row| row.mean.is_some()));
    let densities: Option<Vec<f64>> = compared.map(|(_, strip)| strip.density()).collect();
    let count = densities.as_ref().map_or(0, Vec::len);
    table.rows.push(vec![
        format!("mean of the {count} with a published mean"),
        String::new(),
        figure(published(|row| Some(row.best)), 2),
        figure(published(|row| row.mean), 2),
        figure(densities.and_then(mean), 2),
    ]);
    format!(
        "{}\n\
         Density in per cent: area of the pieces over strip width times used length. Higher is better.\n\n\
         - Published: {SOURCE}. {WIDENED}\n\
         - In the page: shortened by one worker from seed {} and stopped after {} s, on {}. The seconds go from the \
         page's word to the worker until the worker's last word.\n\
         - Every layout is looked at again by code that the packer does not use.\n",
        table.markdown(),
        typed.seed,
        typed.seconds,
        output::machine(),
    )
}
