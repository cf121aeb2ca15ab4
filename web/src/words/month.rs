//! Words for runs: sums, tasks, and the shop's figures.

use stickleaf_sheet::LengthUnit;
use stickleaf_shop::money::Cents;

use super::{figure, number, with_decimal_sign};

words! {
    run_title: "A run of this sheet", "Eine Auflage dieses Bogens";
    sheets_wanted: "Sheets wanted", "Gewünschte Bögen";
    no_page: "The sheet does not fit on the page of label stock. See to the page in the Press.", "Der Bogen passt nicht auf die Seite Etikettenpapier. Sieh dir die Seite in der Ausgabe an.";
    estimates: "Times and costs are estimates from your figures.", "Zeiten und Kosten sind Schätzungen aus deinen Zahlen.";
    figures_title: "Your figures", "Deine Zahlen";
    figures_text: "Kept on this device for all sheets. Until you type in your own they are guesses of what is ordinary; prices are 0 and count for nothing.", "Auf diesem Gerät für alle Bögen gemerkt. Bis du deine eigenen eingibst, sind es Vermutungen, was üblich ist; Preise sind 0 und zählen nicht.";
    pages_word: "Pages", "Seiten";
    printing_word: "Printing", "Drucken";
    cutting_word: "Cutting", "Schneiden";
    done_word: "Side by side", "Nebeneinander";
    own_time_word: "Your own time", "Deine Zeit";
    blade_word: "Blade", "Klinge";
    ink_word: "Ink", "Tinte";
    ink_unknown: "not measured yet; until it is, ink counts for nothing", "noch nicht gemessen; bis dahin zählt Tinte nicht mit";
    measure_ink: "Measure it", "Messen";
    cost_title: "Cost", "Kosten";
    no_prices: "No prices are given yet, so there is no cost. Type them in with your figures.", "Noch sind keine Preise angegeben, also gibt es keine Kosten. Gib sie bei deinen Zahlen ein.";
    cost_post: "For", "Wofür";
    cost_run: "Run", "Auflage";
    cost_sheet: "A sheet", "Ein Bogen";
    cost_all: "All", "Alles";
    stock_word: "Label stock", "Etikettenpapier";
    blades_word: "Blades", "Klingen";
    mats_word: "Mats", "Matten";
    packaging_word: "Packaging", "Verpackung";
    tasks_title: "What to do", "Was zu tun ist";
    try_setting: "Try the setting on a test card", "Die Einstellung auf einer Testkarte ausprobieren";
    tasks_again: "Begin the list again", "Die Liste neu beginnen";
    tasks_begin_again: "The list begins again, for another run.", "Die Liste beginnt neu, für eine weitere Auflage.";
    sheet_like_this: "Another sheet like this", "Noch so ein Bogen";
    sheet_like_this_text: "Another sheet has the same size, rules and zones, and no stickers or pictures yet: for the next theme. This one stays in My sheets.", "Ein weiterer Bogen hat dieselbe Größe, dieselben Regeln und Zonen und noch keine Aufkleber oder Bilder: für das nächste Thema. Dieser bleibt unter Meine Bögen.";
    step_sheet_like_this: "Another sheet", "Weiterer Bogen";
    sheet_like_this_is_begun: "Another sheet of the same size, rules and zones. Bring the next drawings in.", "Ein weiterer Bogen mit derselben Größe, denselben Regeln und Zonen. Hol die nächsten Zeichnungen herein.";
    prices_title: "Stock and prices", "Material und Preise";
    selling_title: "Your time and selling", "Deine Zeit und Verkauf";
    currency_sign: "Currency sign", "Währungszeichen";
    page_seconds: "Seconds to print a page", "Sekunden je gedruckter Seite";
    printers: "Printers", "Drucker";
    spoilage: "Spoilt, of 100 pages", "Ausschuss, von 100 Seiten";
    pack_pages: "Pages in a pack", "Seiten in einer Packung";
    cut_speed: "Cutting speed, mm/s", "Schneidetempo, mm/s";
    travel_speed: "Lifted speed, mm/s", "Tempo angehoben, mm/s";
    acceleration: "Acceleration, mm/s²", "Beschleunigung, mm/s²";
    lift_seconds: "Seconds to put down and lift", "Sekunden zum Senken und Heben";
    load_seconds: "Seconds to load a page", "Sekunden zum Einlegen";
    passes_word: "Passes for the card", "Durchgänge für die Karte";
    cutters: "Cutters", "Plotter";
    blade_metres: "A blade lasts, m", "Eine Klinge hält, m";
    blade_used: "It has cut already, m", "Schon geschnitten, m";
    pack_price: "Price of a pack", "Preis einer Packung";
    in_hand: "Pages in hand", "Seiten vorrätig";
    ink_price: "Price of a set of ink", "Preis eines Satzes Tinte";
    ink_lasted: "A set lasted so many postcards", "Ein Satz reichte für so viele Postkarten";
    blade_price: "Price of a blade", "Preis einer Klinge";
    mat_price: "Price of a mat", "Preis einer Matte";
    mat_pages: "Pages a mat lasts", "Seiten, die eine Matte hält";
    packaging_price: "Packaging of a sheet", "Verpackung eines Bogens";
    hour_price: "An hour of yours is worth", "Eine Stunde von dir ist wert";
    page_minutes: "Minutes of work a page", "Minuten Arbeit je Seite";
    sheet_minutes: "Minutes of work a sheet", "Minuten Arbeit je Bogen";
    order_fee: "Fee an order", "Gebühr je Bestellung";
    fee_percent: "Fee, % of the price", "Gebühr, % vom Preis";
    order_sheets: "Sheets in an order", "Bögen je Bestellung";
    what_if_title: "What if?", "Was wäre, wenn?";
    what_if_text: "Slide, and see what the run would come to. Nothing changes until you say so; what is cut and the ink stay those of this sheet.", "Schieb und sieh, was aus der Auflage würde. Nichts ändert sich, bevor du es sagst; Schnitt und Tinte bleiben die dieses Bogens.";
    sheets_on_page: "Sheets on a page", "Bögen auf einer Seite";
    stickers_on_sheet: "Stickers on a sheet", "Aufkleber auf einem Bogen";
    timed_title: "Speeds from two timed jobs", "Tempo aus zwei gestoppten Schnitten";
    timed_text: "Time two cuts from the first line to the last, loading left out: one with few long lines, one with many short ones. With a single sheet, cut the stickers and note that, then the card.", "Stoppe zwei Schnitte vom ersten bis zum letzten Strich, das Einlegen nicht mitgezählt: einen mit wenigen langen Linien, einen mit vielen kurzen. Mit einem einzigen Bogen: erst die Aufkleber schneiden und notieren, dann die Karte.";
    what_was_cut: "What was cut", "Was geschnitten wurde";
    cut_all: "Stickers and card", "Aufkleber und Karte";
    cut_stickers: "Stickers only", "Nur die Aufkleber";
    cut_card: "Card only", "Nur die Karte";
    sheets_cut: "Sheets cut", "Geschnittene Bögen";
    time_taken: "Time it took, min:s", "Gedauert, min:s";
    note_job: "Note this job", "Schnitt notieren";
    time_is_missing: "Type in how long it took first, as in 4:30.", "Gib zuerst an, wie lange es gedauert hat, etwa 4:30.";
    not_a_time: "Give minutes and seconds, as in 4:30, or seconds.", "Gib Minuten und Sekunden an, etwa 4:30, oder Sekunden.";
    nothing_to_cut: "There is nothing of that to cut on this sheet.", "Davon gibt es auf diesem Bogen nichts zu schneiden.";
    one_more_job: "One more job, and cutting speed and lift time follow.", "Noch ein Schnitt, dann folgen Tempo und Hebezeit.";
    leave_out: "Leave it out", "Weglassen";
    take_into_figures: "Take these into my figures", "In meine Zahlen übernehmen";
    as_it_is: "As it is", "Wie es ist";
    figures_are_taken: "Your figures are changed.", "Deine Zahlen sind geändert.";
    what_it_is: "Figure", "Zahl";
    now_word: "Now", "Jetzt";
    then_word: "Then", "Dann";
    difference_word: "Difference", "Unterschied";
    no_difference: "same", "gleich";
    cost_sticker: "A sticker", "Ein Aufkleber";
    cost_of_run: "Cost of the run", "Kosten der Auflage";
    price_word: "To ask for a sheet", "Zu verlangen je Bogen";
    margin_percent: "To be left, % of the price", "Übrig bleiben soll, % vom Preis";
}

/// An amount with its currency.
pub fn money(cents: Cents, currency: &str) -> String {
    with_decimal_sign(&cents.text(currency))
}

/// An amount in cents and parts of them, with its currency.
pub fn money_parts(cents: f64, currency: &str) -> String {
    let amount = figure(cents / 100.0, 3);
    if currency.is_empty() { amount } else { format!("{currency} {amount}") }
}

/// A number with at most two decimals, none of them for nothing.
pub fn plain_number(value: f64) -> String {
    number(LengthUnit::Millimetres, value)
}

/// A length of blade.
pub fn metres(value: f64) -> String {
    format!("{} m", figure(value, 0))
}

/// A difference with its sign, as `text` writes its size; a word if it is too small to show.
pub fn signed(difference: f64, text: &dyn Fn(f64) -> String) -> String {
    let size = text(difference.abs());
    if size == text(0.0) {
        return no_difference().to_owned();
    }
    format!("{}{size}", if difference < 0.0 { '−' } else { '+' })
}

/// A time in minutes and seconds.
pub fn clock(seconds: f64) -> String {
    let whole = seconds.round() as u64;
    format!("{}:{:02} min", whole / 60, whole % 60)
}

/// A timed job: what was cut, how long it took, and how long it takes by the figures as they are.
pub fn timed_job(name: &str, part: &str, sheets: u32, took_s: f64, by_figures_s: f64) -> String {
    let (name, took, by_figures) = (super::named(name), clock(took_s), clock(by_figures_s));
    if sheets == 1 {
        return say!(
            "{name} · {part} · one sheet: {took}. By your figures it takes {by_figures}.",
            "{name} · {part} · ein Bogen: {took}. Nach deinen Zahlen dauert es {by_figures}."
        );
    }
    say!(
        "{name} · {part} · {sheets} sheets: {took}. By your figures it takes {by_figures}.",
        "{name} · {part} · {sheets} Bögen: {took}. Nach deinen Zahlen dauert es {by_figures}."
    )
}

/// What two timed jobs say of the machine.
pub fn machine_found(speed_mm_s: f64, lift_s: f64) -> String {
    let (speed, lift) = (figure(speed_mm_s, 1), figure(lift_s, 2));
    say!(
        "So the blade cuts at {speed} mm/s, and it takes {lift} s to put it down and lift it.",
        "Demnach schneidet die Klinge mit {speed} mm/s, und sie zu senken und zu heben dauert {lift} s."
    )
}

/// The largest sheet of which so many lie on a page.
pub fn largest_for(count: usize, width: &str, height: &str, is_proved: bool) -> String {
    match (count, is_proved) {
        (1, true) => say!(
            "A sheet of these proportions lies on the page up to {width} x {height}, no larger: proven.",
            "Ein Bogen mit diesen Proportionen passt bis {width} x {height} auf die Seite, größer nicht: bewiesen."
        ),
        (1, false) => say!(
            "A sheet of these proportions lies on the page up to {width} x {height}.",
            "Ein Bogen mit diesen Proportionen passt bis {width} x {height} auf die Seite."
        ),
        (_, true) => say!(
            "{count} sheets of these proportions lie on the page up to {width} x {height} each, no larger: proven.",
            "{count} Bögen mit diesen Proportionen passen bis je {width} x {height} auf die Seite, größer nicht: bewiesen."
        ),
        (_, false) => say!(
            "{count} sheets of these proportions lie on the page up to {width} x {height} each.",
            "{count} Bögen mit diesen Proportionen passen bis je {width} x {height} auf die Seite."
        ),
    }
}

/// That no sheet worth the name is so small.
pub fn no_sheet_for(count: usize) -> String {
    say!(
        "For {count} on a page a side of the sheet would be under 20 mm.",
        "Für {count} auf einer Seite wäre eine Kante des Bogens unter 20 mm."
    )
}

/// A time in hours and minutes, or in minutes where it is short.
pub fn duration(seconds: f64) -> String {
    let minutes = (seconds / 60.0).round() as u64;
    let (hours, minutes) = (minutes / 60, minutes % 60);
    if hours == 0 {
        say!("{minutes} min", "{minutes} min")
    } else {
        say!("{hours} h {minutes} min", "{hours} h {minutes} min")
    }
}

pub fn pages_with_spoilt(pages: u64, packs: u64) -> String {
    match packs {
        0 => say!("{pages}, spoilt ones with them", "{pages}, Ausschuss mitgezählt"),
        1 => say!(
            "{pages}, spoilt ones with them; one pack to buy",
            "{pages}, Ausschuss mitgezählt; eine Packung zu kaufen"
        ),
        _ => say!(
            "{pages}, spoilt ones with them; {packs} packs to buy",
            "{pages}, Ausschuss mitgezählt; {packs} Packungen zu kaufen"
        ),
    }
}

pub fn cutting_time(seconds: f64, passes: u32) -> String {
    let time = duration(seconds);
    if passes == 1 {
        return say!("{time}, the card in one pass", "{time}, die Karte in einem Durchgang");
    }
    say!("{time}, the card in {passes} passes", "{time}, die Karte in {passes} Durchgängen")
}

pub fn done_after(done_s: f64, at_best_s: f64) -> String {
    let (done, best) = (duration(done_s), duration(at_best_s));
    if done == best {
        return say!("done after {done}, no sooner", "fertig nach {done}, schneller geht es nicht");
    }
    say!("done after {done}; not before {best}", "fertig nach {done}; nicht vor {best}")
}

pub fn blade_use(metres: f64, changes: u64) -> String {
    let metres = figure(metres, 0);
    match changes {
        0 => say!("cuts {metres} m, no change", "schneidet {metres} m, kein Wechsel"),
        1 => say!("cuts {metres} m, one change", "schneidet {metres} m, ein Wechsel"),
        _ => say!("cuts {metres} m, {changes} changes", "schneidet {metres} m, {changes} Wechsel"),
    }
}

words! {
    shop_file_title: "To keep, and for another device", "Zum Aufheben und für ein anderes Gerät";
    shop_file_text: "Your figures, the page of label stock, the blade log and the runs made, in one file. The command line takes it as settings.", "Deine Zahlen, die Seite Etikettenpapier, das Klingenbuch und die gemachten Auflagen in einer Datei. Die Kommandozeile nimmt sie als Einstellungen.";
    save_shop: "Save my figures", "Meine Zahlen sichern";
    open_shop: "Open saved figures", "Gesicherte Zahlen öffnen";
}

/// That figures could not be had from a file.
pub fn shop_not_opened(file: &str, why: &str) -> String {
    say!(
        "{file} was not opened: {why}. Your figures are as they were.",
        "{file} wurde nicht geöffnet: {why}. Deine Zahlen sind, wie sie waren."
    )
}

/// That figures came from a file, and what was added from it.
pub fn shop_opened(file: &str, entries: usize, runs: usize) -> String {
    let entries = match entries {
        0 => say!("nothing new in the blade log", "nichts Neues im Klingenbuch"),
        1 => say!("one entry new in the blade log", "ein Eintrag neu im Klingenbuch"),
        _ => say!("{entries} entries new in the blade log", "{entries} Einträge neu im Klingenbuch"),
    };
    let runs = match runs {
        0 => say!("no new runs", "keine neuen Auflagen"),
        1 => say!("one new run", "eine neue Auflage"),
        _ => say!("{runs} new runs", "{runs} neue Auflagen"),
    };
    say!(
        "Your figures are those of {file}; {entries}, {runs}.",
        "Deine Zahlen sind die aus {file}; {entries}, {runs}."
    )
}

/// How much of a sheet each ink covers.
pub fn ink_line(shares: [f64; 4]) -> String {
    let [cyan, magenta, yellow, black] = shares.map(|share| figure(100.0 * share, 0));
    say!(
        "cyan {cyan} %, magenta {magenta} %, yellow {yellow} %, black {black} % of a sheet",
        "Cyan {cyan} %, Magenta {magenta} %, Gelb {yellow} %, Schwarz {black} % eines Bogens"
    )
}

pub fn price_line(sticker: &str, price: &str, margin_percent: f64, fees: &str) -> String {
    let margin = figure(margin_percent, 0);
    say!(
        "A sticker costs {sticker}. Ask {price} a sheet, and {margin} % of it are left after {fees} in fees.",
        "Ein Aufkleber kostet {sticker}. Verlange {price} je Bogen, dann bleiben nach {fees} Gebühren {margin} % davon übrig."
    )
}

pub fn buy_packs(packs: u64) -> String {
    if packs == 1 {
        return say!("Buy one pack of label stock", "Eine Packung Etikettenpapier kaufen");
    }
    say!("Buy {packs} packs of label stock", "{packs} Packungen Etikettenpapier kaufen")
}

pub fn print_pages(pages: u64) -> String {
    if pages == 1 {
        return say!("Print one page, at 100 %", "Eine Seite drucken, mit 100 %");
    }
    say!("Print {pages} pages, at 100 %", "{pages} Seiten drucken, mit 100 %")
}

pub fn cut_pages(pages: u64) -> String {
    if pages == 1 {
        return say!(
            "Cut one page, kiss lines first, the card last",
            "Eine Seite schneiden, erst anritzen, zuletzt die Karte"
        );
    }
    say!(
        "Cut {pages} pages, kiss lines first, the card last",
        "{pages} Seiten schneiden, erst anritzen, zuletzt die Karte"
    )
}

pub fn change_blade(after_m: f64) -> String {
    let metres = figure(after_m, 0);
    say!(
        "Change the blade after {metres} m, with the plug pulled",
        "Nach {metres} m die Klinge wechseln, mit gezogenem Stecker"
    )
}

pub fn pack_sheets(sheets: u64) -> String {
    if sheets == 1 {
        return say!("Pack one sheet", "Einen Bogen verpacken");
    }
    say!("Pack {sheets} sheets", "{sheets} Bögen verpacken")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn differences_have_their_sign_and_none_is_a_word() {
        let text: &dyn Fn(f64) -> String = &|value| figure(value, 1);
        assert_eq!([signed(-1.25, text), signed(3.0, text), signed(0.01, text)], ["−1.2", "+3.0", "same"]);
    }
}
