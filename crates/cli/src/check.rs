//! `check`: what breaks a rule, by how much, and where.

use stickleaf_files::report::{self, CheckReport};
use stickleaf_sheet::{Finding, Layout, LengthUnit, check};

use crate::options::CheckCommand;
use crate::{Outcome, Trouble, layouts, output};

/// Prints the findings of the layout; lacking if a hard rule is broken.
pub fn run(typed: &CheckCommand) -> Result<Outcome, Trouble> {
    let layout = layouts::read(&typed.layout)?;
    let findings = check(&layout);
    if typed.report.is_json() {
        output::print(&report::text(&CheckReport::new(&layout, &findings)));
    } else {
        output::print(&finding_lines(&layout, &findings));
        output::print(&format!("{}\n", summary(&findings)));
    }
    Ok(outcome(&findings))
}

/// Lacking if a hard rule is broken.
pub fn outcome(findings: &[Finding]) -> Outcome {
    if findings.iter().any(Finding::is_broken) { Outcome::Lacking } else { Outcome::Done }
}

/// One line for each finding: how bad, what, and where on the sheet.
pub fn finding_lines(layout: &Layout, findings: &[Finding]) -> String {
    findings
        .iter()
        .map(|finding| {
            let how_bad = if finding.is_broken() { "broken " } else { "warning" };
            let sentence = finding.sentence(layout, LengthUnit::Millimetres);
            let place = finding.mark.map_or_else(String::new, |mark| {
                let at = mark.middle();
                format!(" (at {:.1}, {:.1})", at.x, at.y)
            });
            format!("{how_bad}  {sentence}{place}\n")
        })
        .collect()
}

/// How many of each kind there are, in words.
pub fn summary(findings: &[Finding]) -> String {
    let broken = findings.iter().filter(|finding| finding.is_broken()).count();
    let warnings = findings.len() - broken;
    let warned = match warnings {
        0 => "no warnings".to_owned(),
        1 => "1 warning".to_owned(),
        several => format!("{several} warnings"),
    };
    match broken {
        0 => format!("all hard rules hold, {warned}"),
        1 => format!("1 rule broken, {warned}"),
        several => format!("{several} rules broken, {warned}"),
    }
}
