//! `compare`: variants of a layout, and what each costs in stickers.

use std::path::Path;

use stickleaf_files::comparison::{self, Compared, VariantCost, differences};
use stickleaf_files::comparison_picture::{self, PictureCard, Pictures};
use stickleaf_files::report::{self, CompareReport, VariantReport};
use stickleaf_packer::{Aim, PackError};
use stickleaf_press::unit_cost;
use stickleaf_sheet::{
    Change, Layout, LengthUnit, Subject, Summary, Variant, is_same_task, summary, usual_changes, variants,
};
use stickleaf_shop::page::{Stock, plan};
use stickleaf_shop::settings::Settings;

use crate::columns::columns;
use crate::options::{CompareAim, CompareCommand};
use crate::pack::search_time;
use crate::run::read_settings;
use crate::search::{Budget, is_stopped, search};
use crate::{Outcome, Trouble, disk, layouts, output};

const UNIT: LengthUnit = LengthUnit::Millimetres;

/// Stands for a figure that is not known.
const UNKNOWN: &str = "-";

/// Why a variant has no figures.
enum Failed {
    /// It cannot be packed.
    Refused(PackError),
    /// The person at the keyboard had enough before it was its turn.
    Stopped,
}

/// What costs are told from.
struct Costing {
    settings: Settings,
    stock: Stock,
    sheets: u64,
}

impl Costing {
    /// What was typed; nothing if costs are not asked for. Looks before the work whether it makes sense.
    fn asked(typed: &CompareCommand, layout: &Layout) -> Result<Option<Costing>, Trouble> {
        let Some(file) = &typed.settings else { return Ok(None) };
        let settings = read_settings(file)?;
        settings.validate().map_err(Trouble::Settings)?;
        let stock = typed.stock.stock();
        plan(&stock, layout.sheet.width, layout.sheet.height)
            .map_err(|source| Trouble::Page { file: disk::shown(&typed.layout), source })?;
        Ok(Some(Costing { settings, stock, sheets: typed.run }))
    }

    /// What a sheet of this layout costs, and a sticker of it.
    fn of(&self, layout: &Layout) -> Option<VariantCost> {
        let (sheet_cents, sticker_cents) = unit_cost(layout, &self.stock, &self.settings, self.sheets)?;
        Some(VariantCost { sheet_cents, sticker_cents })
    }

    /// An amount of money with its currency.
    fn money(&self, cents: f64) -> String {
        format!("{} {:.3}", self.settings.currency, cents / 100.0).trim_start().to_owned()
    }
}

/// A variant's layout as it was packed.
type Packed = Result<Layout, Failed>;

/// Packs the variants and tells their figures; lacking if one could not be packed or wanted copies found no place.
pub fn run(typed: &CompareCommand) -> Result<Outcome, Trouble> {
    can_write(typed)?;
    let layout = layouts::read(&typed.layout)?;
    let costing = Costing::asked(typed, &layout)?;
    let (aim, word) = match typed.aim {
        CompareAim::Fill => (Aim::Fill, "fill"),
        CompareAim::Place => (Aim::Place, "place"),
    };
    let variants = variants(&layout, &changes(&layout, typed));
    let packed = pack_all(&variants, aim, typed);
    if let Some(source) = refusal_of_all(&packed) {
        return Err(Trouble::Pack { file: disk::shown(&typed.layout), source });
    }
    let compared: Vec<Compared> = variants
        .iter()
        .zip(&packed)
        .map(|(variant, packed)| compared(variant, packed, costing.as_ref()))
        .collect();
    if let Some(path) = &typed.table {
        disk::write(path, &comparison::table(&compared))?;
    }
    if let Some(path) = &typed.picture {
        disk::write(path, &picture(&layout, &about(word, typed), &compared, &packed, costing.as_ref()))?;
    }
    tell(typed, word, &compared, costing.as_ref());
    let is_whole = |variant: &Compared| variant.result.as_ref().is_ok_and(|summary| summary.missing == 0);
    Ok(if compared.iter().all(is_whole) { Outcome::Done } else { Outcome::Lacking })
}

/// Looks before the work whether what will be written can be.
fn can_write(typed: &CompareCommand) -> Result<(), Trouble> {
    let paths: Vec<&Path> =
        [&typed.table, &typed.picture].into_iter().flatten().map(|path| &**path).collect();
    if paths.iter().any(|path| disk::is_standard(path)) {
        // The answer itself goes there.
        return Err(Trouble::OutputTwice);
    }
    let keep: Vec<&Path> =
        [Some(&typed.layout), typed.settings.as_ref()].into_iter().flatten().map(|path| &**path).collect();
    for path in &paths {
        disk::can_write(path, &keep)?;
    }
    match paths[..] {
        [table, picture] if table == picture => Err(Trouble::WouldOverwrite { file: disk::shown(picture) }),
        _ => Ok(()),
    }
}

/// What is compared: as asked, else the backgrounds.
fn changes(layout: &Layout, typed: &CompareCommand) -> Vec<Change> {
    let spacings = typed.spacings_mm.iter().map(|&mm| Change::Spacing(mm));
    let borders = typed.borders_mm.iter().map(|&mm| Change::Border(mm));
    let sheets = typed.sheets.iter().map(|size| Change::SheetSize { width: size.width, height: size.height });
    let numbers: Vec<Change> = spacings.chain(borders).chain(sheets).collect();
    let has_backgrounds = typed.backgrounds || numbers.is_empty();
    let backgrounds = if has_backgrounds { usual_changes(layout, Subject::Backgrounds) } else { Vec::new() };
    backgrounds.into_iter().chain(numbers).collect()
}

/// Packs each variant; those that are the same to stickers share one search.
fn pack_all(variants: &[Variant], aim: Aim, typed: &CompareCommand) -> Vec<Packed> {
    let budget = Budget {
        seed: typed.seed,
        threads: typed.threads,
        time: search_time(typed.seconds, typed.rounds),
        rounds: typed.rounds,
    };
    let mut packed: Vec<Packed> = Vec::with_capacity(variants.len());
    for (index, variant) in variants.iter().enumerate() {
        output::tell(&format!("{} ({} of {})", variant.change.name(UNIT), index + 1, variants.len()));
        let same = variants[..index].iter().position(|other| is_same_task(&other.layout, &variant.layout));
        let known = same.and_then(|same| packed[same].as_ref().ok()).map(|layout| layout.pieces.clone());
        packed.push(match known {
            Some(pieces) => Ok(Layout { pieces, ..variant.layout.clone() }),
            None if is_stopped() => Err(Failed::Stopped),
            None => search(&variant.layout, aim, &budget).map(|found| found.layout).map_err(Failed::Refused),
        });
    }
    packed
}

/// Why the first cannot be packed, if none of them can.
fn refusal_of_all(packed: &[Packed]) -> Option<PackError> {
    let refusals: Option<Vec<&PackError>> = packed
        .iter()
        .map(|packed| match packed {
            Err(Failed::Refused(error)) => Some(error),
            _ => None,
        })
        .collect();
    refusals?.first().copied().cloned()
}

fn compared(variant: &Variant, packed: &Packed, costing: Option<&Costing>) -> Compared {
    Compared {
        name: variant.change.name(UNIT),
        result: match packed {
            Ok(layout) => Ok(summary(layout)),
            Err(Failed::Refused(error)) => Err(error.to_string()),
            Err(Failed::Stopped) => Err("stopped before it was packed".to_owned()),
        },
        cost: packed.as_ref().ok().and_then(|layout| costing?.of(layout)),
        remarks: variant.remarks.iter().map(|remark| remark.sentence(UNIT)).collect(),
    }
}

fn tell(typed: &CompareCommand, aim: &str, compared: &[Compared], costing: Option<&Costing>) {
    if typed.report.is_json() {
        output::print(&report::text(&CompareReport {
            aim: aim.to_owned(),
            seed: typed.seed,
            seconds_each: search_time(typed.seconds, typed.rounds).map(|time| time.as_secs_f64()),
            rounds_each: typed.rounds,
            currency: costing.map(|costing| costing.settings.currency.clone()),
            variants: VariantReport::list(compared),
        }));
    } else {
        output::print(&table_lines(compared, costing));
        for path in [&typed.table, &typed.picture].into_iter().flatten() {
            output::print(&format!("wrote {}\n", path.display()));
        }
    }
}

/// The figures as a table, and below it what else is to be known.
fn table_lines(compared: &[Compared], costing: Option<&Costing>) -> String {
    let headings = ["variant", "placed", "difference", "at most", "density", "smallest gap", "largest dot"];
    let mut rows = vec![headings.map(str::to_owned).to_vec()];
    for (variant, difference) in compared.iter().zip(differences(compared)) {
        rows.push(row(variant, difference));
    }
    if let Some(costing) = costing {
        rows[0].extend(["a sheet", "a sticker"].map(str::to_owned));
        let told =
            |cents: Option<f64>| cents.map_or_else(|| UNKNOWN.to_owned(), |cents| costing.money(cents));
        for (row, variant) in rows[1..].iter_mut().zip(compared) {
            row.push(told(variant.cost.map(|cost| cost.sheet_cents)));
            row.push(told(variant.cost.map(|cost| cost.sticker_cents)));
        }
    }
    let mut text = columns(&rows);
    text.push_str("gaps lie between cut lines; dots are empty room, mm across\n");
    if let Some(costing) = costing {
        text.push_str(&match compared.iter().any(|variant| variant.cost.is_some()) {
            true => format!("costs are those of a run of {} sheets, ink aside\n", costing.sheets),
            false => "the settings hold no prices, so there is no cost\n".to_owned(),
        });
    }
    for variant in compared {
        let missing = variant.result.as_ref().map_or(0, |summary| summary.missing);
        let missing = (missing > 0).then(|| format!("{missing} wanted copies found no place"));
        let why = variant.result.as_ref().err().map(|why| format!("not packed: {why}"));
        for remark in why.into_iter().chain(missing).chain(variant.remarks.iter().cloned()) {
            text.push_str(&format!("{}: {remark}\n", variant.name));
        }
    }
    text
}

fn row(variant: &Compared, difference: Option<i64>) -> Vec<String> {
    let length = |mm: Option<f64>| mm.map_or_else(|| UNKNOWN.to_owned(), |mm| format!("{mm:.2} mm"));
    let figures = match &variant.result {
        Ok(Summary { placed, ceiling, density, smallest_gap, largest_dot, .. }) => [
            placed.to_string(),
            match difference {
                None => UNKNOWN.to_owned(),
                Some(0) => "0".to_owned(),
                Some(difference) => format!("{difference:+}"),
            },
            ceiling.to_string(),
            format!("{:.1} %", 100.0 * density),
            length(*smallest_gap),
            // Never more than fits.
            length(largest_dot.map(|mm| (mm * 100.0).floor() / 100.0)),
        ],
        Err(_) => std::array::from_fn(|_| UNKNOWN.to_owned()),
    };
    std::iter::once(variant.name.clone()).chain(figures).collect()
}

/// How they were packed, in one line.
fn about(aim: &str, typed: &CompareCommand) -> String {
    let enough = match (search_time(typed.seconds, typed.rounds), typed.rounds) {
        (Some(time), None) => format!("{} s", time.as_secs_f64()),
        (Some(time), Some(rounds)) => format!("{} s or {rounds} rounds", time.as_secs_f64()),
        (None, rounds) => format!("{} rounds", rounds.unwrap_or_default()),
    };
    format!("packed with aim {aim}, {enough} each, from seed {}", typed.seed)
}

/// The sheets side by side, without artwork.
fn picture(
    layout: &Layout,
    about: &str,
    compared: &[Compared],
    packed: &[Packed],
    costing: Option<&Costing>,
) -> String {
    let first = compared.first().map(|variant| variant.name.clone()).unwrap_or_default();
    let cards: Vec<PictureCard<'_>> = compared
        .iter()
        .zip(differences(compared))
        .zip(packed)
        .map(|((variant, difference), packed)| picture_card(variant, difference, packed, &first, costing))
        .collect();
    let title = if layout.name.is_empty() { "Comparison" } else { &layout.name };
    comparison_picture::write(title, about, &cards, &Pictures::NONE)
}

fn picture_card<'a>(
    variant: &Compared,
    difference: Option<i64>,
    packed: &'a Packed,
    first: &str,
    costing: Option<&Costing>,
) -> PictureCard<'a> {
    let (headline, mut lines) = match &variant.result {
        Ok(summary) => {
            let against = match difference {
                Some(more) if more > 0 => Some(format!("{more} more than {first}")),
                Some(fewer) if fewer < 0 => Some(format!("{} fewer than {first}", -fewer)),
                _ => None,
            };
            let gap = summary.smallest_gap.map(|gap| format!("smallest gap between cut lines {gap:.2} mm"));
            let dense = format!("{:.1} % dense", 100.0 * summary.density);
            let costs = costing.zip(variant.cost).map(|(costing, cost)| {
                let (sheet, sticker) = (costing.money(cost.sheet_cents), costing.money(cost.sticker_cents));
                [format!("a sheet costs {sheet}, ink aside"), format!("a sticker costs {sticker}")]
            });
            let lines = against.into_iter().chain([dense]).chain(gap).chain(costs.into_iter().flatten());
            let lines = lines.collect();
            (format!("{} placed · at most {}", summary.placed, summary.ceiling), lines)
        }
        Err(why) => ("not packed".to_owned(), vec![why.clone()]),
    };
    lines.extend(variant.remarks.iter().cloned());
    PictureCard { name: variant.name.clone(), layout: packed.as_ref().ok(), headline, lines }
}
