//! Words for a run of several designs, and for its list on paper.

use super::named;

words! {
    add_sheet: "Make other sheets in the same run", "Andere Bögen in derselben Auflage machen";
    no_other_sheets: "No other sheet with pieces on it is kept on this device.", "Auf diesem Gerät ist kein anderer Bogen mit Stücken gesichert.";
    order_title: "In this order", "In dieser Reihenfolge";
    design_word: "Design", "Entwurf";
    sheets_word: "Sheets", "Bögen";
    print_run: "Print this list", "Diese Liste drucken";
}

words! {
    shared_title: "Let the sheets share pages", "Bögen auf gemeinsamen Seiten";
    shared_text: "The fewest pages that hold as many of each as are wanted, if different sheets may lie on one page. The numbers on the sheets are those of the designs in the order above, this sheet the first.", "Die wenigsten Seiten, auf denen von jedem so viele liegen wie gewünscht, wenn verschiedene Bögen auf einer Seite liegen dürfen. Die Zahlen auf den Bögen sind die der Entwürfe in der Reihenfolge oben, dieser Bogen zuerst.";
    shared_sums: "Spoilt pages are not allowed for here. The sums and the list below are for pages of their own.", "Ausschuss ist hier nicht eingerechnet. Summen und Liste darunter gelten für eigene Seiten.";
    save_pages: "Make these pages", "Diese Seiten erzeugen";
    no_such_page: "There is no such page any more. Look at the pages again.", "Diese Seite gibt es nicht mehr. Sieh dir die Seiten noch einmal an.";
}

/// How many pages hold all that is wanted, and how many are needed if none is shared.
pub fn shared_line(count: u64, least: u64, alone: Option<u64>) -> String {
    let pages = |count: u64| match count {
        1 => say!("One page", "Eine Seite"),
        _ => say!("{count} pages", "{count} Seiten"),
    };
    let all = pages(count);
    let proof = if count == least {
        say!("no plan needs fewer: proven", "kein Plan braucht weniger: bewiesen")
    } else {
        say!("at least {least} by proof", "bewiesen sind mindestens {least}")
    };
    let alone = alone.map_or_else(String::new, |alone| {
        say!(" On pages of their own they take {alone}.", " Auf eigenen Seiten sind es {alone}.")
    });
    say!("{all} in all; {proof}.{alone}", "Insgesamt {all}; {proof}.{alone}")
}

/// A page and how often it is printed.
pub fn page_printed(number: usize, times: u64) -> String {
    let page = page_number(number);
    if times == 1 {
        return say!("{page}, printed once", "{page}, einmal gedruckt");
    }
    say!("{page}, printed {times} times", "{page}, {times}-mal gedruckt")
}

pub fn page_number(number: usize) -> String {
    say!("Page {number}", "Seite {number}")
}

pub fn cut_of_page(number: usize) -> String {
    say!("Make the cut lines of page {number}", "Schnittlinien von Seite {number} erzeugen")
}

/// What lies on a page: so many sheets of each design.
pub fn holds_sheets(designs: &[(u64, String)]) -> String {
    let all: Vec<String> = designs.iter().map(|(sheets, name)| sheets_of_one(*sheets, named(name))).collect();
    all.join(", ")
}

pub fn sheets_of(name: &str) -> String {
    say!("Sheets of {name}", "Bögen von {name}")
}

pub fn out_of_run(name: &str) -> String {
    say!("Take {name} out of the run", "{name} aus der Auflage nehmen")
}

pub fn no_page_for(name: &str) -> String {
    say!(
        "No sheet of {name} lies on the page of label stock, so none is made. See to the page in the Press.",
        "Von {name} passt kein Bogen auf die Seite Etikettenpapier, also wird keiner gemacht. Sieh dir die Seite in der Ausgabe an."
    )
}

/// A task with the design that it is about, if there are several.
pub fn of_design(name: Option<&str>, deed: String) -> String {
    match name {
        Some(name) => format!("{name}: {deed}"),
        None => deed,
    }
}

/// What stands above the printed list: so many sheets of each, and the day.
pub fn run_head(designs: &[(u64, String)], day: &str) -> String {
    let all: Vec<String> = designs.iter().map(|(sheets, name)| sheets_of_one(*sheets, named(name))).collect();
    format!("{} · {day}", all.join(", "))
}

fn sheets_of_one(sheets: u64, name: &str) -> String {
    if sheets == 1 {
        return say!("one sheet of {name}", "ein Bogen {name}");
    }
    say!("{sheets} sheets of {name}", "{sheets} Bögen {name}")
}

words! {
    part_history: "Runs made", "Gemachte Auflagen";
    note_run: "Note this run as made", "Diese Auflage als gemacht eintragen";
    runs_title: "Runs made", "Gemachte Auflagen";
    runs_text: "What each run was planned to use, as your figures were then. Kept on this device for all sheets.", "Was jede Auflage nach deinen damaligen Zahlen brauchen sollte. Auf diesem Gerät für alle Bögen gemerkt.";
    no_runs: "No run is noted yet. When one is made, note it in Run, below its list.", "Noch ist keine Auflage eingetragen. Wenn eine gemacht ist, trag sie bei Auflage unter ihrer Liste ein.";
    save_runs: "Save the runs as a table", "Auflagen als Tabelle sichern";
    spoilt_title: "Spoilt pages", "Ausschuss";
    nothing_counted: "Count the spoilt pages of a run and type them in beside it: then the next allowance follows from what really happened.", "Zähl die verdorbenen Seiten einer Auflage und gib sie daneben ein: Dann ergibt sich der nächste Ausschuss aus dem, was wirklich war.";
    spoilt_text: "Reckoned as if pages were spoilt one by one. Where a whole stack goes wrong at once, this is surer of itself than it should be.", "Gerechnet, als würden Seiten einzeln verdorben. Wenn ein ganzer Stapel auf einmal misslingt, ist das hier sicherer, als es sein dürfte.";
}

pub fn run_noted(blade_changes: u64) -> String {
    if blade_changes == 0 {
        return say!(
            "The run is noted under Runs made, and what the blade has cut counts it in.",
            "Die Auflage steht bei den gemachten Auflagen, und die Klinge hat ihre Meter dazubekommen."
        );
    }
    say!(
        "The run is noted under Runs made. What the blade has cut counts from its last change; look at it in your figures.",
        "Die Auflage steht bei den gemachten Auflagen. Die Meter der Klinge zählen ab ihrem letzten Wechsel; sieh sie dir bei deinen Zahlen an."
    )
}

/// What a run used, in one sentence.
pub fn run_used(sheets: u64, pages: u64, blade_m: f64, machines_s: f64) -> String {
    let (metres, time) = (super::figure(blade_m, 0), super::duration(machines_s));
    say!(
        "{sheets} sheets from {pages} pages; {metres} m cut, {time} at the machines.",
        "{sheets} Bögen aus {pages} Seiten; {metres} m geschnitten, {time} an den Maschinen."
    )
}

pub fn run_cost(cost: &str) -> String {
    say!("It cost {cost}.", "Sie kostete {cost}.")
}

pub fn spoilt_of(name: &str, allowed: u64) -> String {
    say!("Pages spoilt of {name}, {allowed} allowed", "Ausschuss bei {name}, {allowed} eingeplant")
}

pub fn remove_run(name: &str, day: &str) -> String {
    say!("Remove the run {name} of {day}", "Auflage {name} vom {day} entfernen")
}

pub fn spoilt_so_far(spoilt: u64, pages: u64, percent: f64, allowed: f64) -> String {
    let (percent, allowed) = (super::figure(percent, 1), super::figure(allowed, 1));
    say!(
        "{spoilt} of {pages} pages were spoilt: {percent} %. {allowed} % were allowed for.",
        "{spoilt} von {pages} Seiten waren Ausschuss: {percent} %. Eingeplant waren {allowed} %."
    )
}

pub fn spoilt_range((from, to): (f64, f64)) -> String {
    let (from, to) = (super::figure(from, 1), super::figure(to, 1));
    say!(
        "In about four of five cases the true share lies from {from} % to {to} %.",
        "In etwa vier von fünf Fällen liegt der wahre Anteil zwischen {from} % und {to} %."
    )
}

pub fn allowance(next: f64, now: f64) -> String {
    let (next_text, now_text) = (super::figure(next, 0), super::figure(now, 1));
    if next == now {
        return say!(
            "{next_text} % is allowed for, and that is enough in about nine of ten cases.",
            "{next_text} % sind eingeplant, und das reicht in etwa neun von zehn Fällen."
        );
    }
    say!(
        "Allow for {next_text} % next: enough in about nine of ten cases. Now it is {now_text} %.",
        "Plan als Nächstes {next_text} % ein: Das reicht in etwa neun von zehn Fällen. Jetzt sind es {now_text} %."
    )
}

pub fn take_allowance(next: f64) -> String {
    let next = super::figure(next, 0);
    say!("Allow for {next} % from now on", "Ab jetzt {next} % einplanen")
}
