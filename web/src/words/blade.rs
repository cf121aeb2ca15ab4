//! Words for finding the blade's setting, and for the log of what worked.

use super::figure;
use super::with_decimal_sign;

words! {
    part_run: "Run", "Auflage";
    part_blade: "Test cards and blade", "Testkarten und Klinge";
    month_parts: "Parts of the month", "Teile des Monats";
    trial_title: "Find the blade’s setting", "Die Einstellung der Klinge finden";
    trial_text: "A card of small trial cuts, the lightest first. Cut it, say how each trial came out, and the next card has only what is still open. Settings are your machine’s own; what suits it, its manual says.", "Eine Karte mit kleinen Probeschnitten, der leichteste zuerst. Schneide sie, gib an, wie jeder Schnitt geworden ist, und die nächste Karte enthält nur noch, was offen ist. Die Einstellungen sind die deines Plotters; was er verträgt, sagt seine Anleitung.";
    caution_manual: "The machine’s own manual goes before anything said here.", "Die Anleitung deines Plotters geht allem vor, was hier steht.";
    caution_lightest: "Begin with the lightest setting and stop as soon as one goes through the backing: stronger ones can cut the mat and the machine.", "Beginne mit der leichtesten Einstellung und hör auf, sobald eine durch den Träger geht: Stärkere können die Matte und den Plotter zerschneiden.";
    caution_triangles: "The triangles are small parts: keep them away from children under three, and throw them away.", "Die Dreiecke sind Kleinteile: Halte sie von Kindern unter drei Jahren fern und wirf sie weg.";
    scale_kind: "What is tried", "Was ausprobiert wird";
    scale_numbers: "Numbers", "Zahlen";
    passes_kind: "Passes", "Durchgänge";
    scale_names: "Named settings", "Benannte Einstellungen";
    lightest: "Lightest", "Leichteste";
    strongest: "Strongest", "Stärkste";
    scale_step: "Step between trials", "Schritt von Probe zu Probe";
    fewest_passes: "Fewest passes", "Wenigste Durchgänge";
    most_passes: "Most passes", "Meiste Durchgänge";
    setting_names: "Names, the lightest first, with commas", "Namen, die leichteste zuerst, mit Kommas";
    usual_names: "light, middle, strong", "leicht, mittel, stark";
    save_card: "Save the card as SVG", "Karte als SVG sichern";
    card_text: "At true size. Print the numbers, then give each trial its setting in your cutter’s program: every trial is a group of its own.", "In wahrer Größe. Drucke die Zahlen und gib dann jeder Probe im Programm deines Plotters ihre Einstellung: Jede Probe ist eine eigene Gruppe.";
    not_through: "Not through the face", "Nicht durch die Oberseite";
    clean_kiss: "Clean kiss", "Sauber angeritzt";
    too_deep: "Through the backing", "Durch den Träger";
    no_outcomes: "Nothing is known yet. Say below the card how its trials came out; not all of them are needed.", "Noch ist nichts bekannt. Gib unter der Karte an, wie die Proben geworden sind; es müssen nicht alle sein.";
    all_not_through: "Even the strongest setting does not go through the face. Try stronger ones as far as the manual allows, more passes, or a new blade.", "Selbst die stärkste Einstellung geht nicht durch die Oberseite. Probier stärkere, soweit die Anleitung es erlaubt, mehr Durchgänge oder eine neue Klinge.";
    all_too_deep: "Even the lightest setting goes through the backing. Try lighter ones.", "Selbst die leichteste Einstellung geht durch den Träger. Probier leichtere.";
    all_unclear: "The outcomes leave no setting that cuts clean. Try again to be sure.", "Nach diesen Ergebnissen schneidet keine Einstellung sauber. Probier es noch einmal, um sicher zu sein.";
    chances_title: "Chance to cut clean", "Wie wahrscheinlich sauber";
    next_card: "Make the next card", "Nächste Karte machen";
    begin_again: "Begin another search", "Neue Suche beginnen";
    passes_not_logged: "Numbers of passes do not go into the blade log by themselves: note the setting that you cut with beside the log, with its passes.", "Die Zahl der Durchgänge kommt nicht von selbst ins Klingenbuch: Trag die Einstellung, mit der du geschnitten hast, im Klingenbuch mit ihren Durchgängen ein.";
    log_title: "Blade log", "Klingenbuch";
    log_text: "Your own names, and what worked with them. Kept on this device for all sheets.", "Deine eigenen Namen, und was damit gut wurde. Auf diesem Gerät für alle Bögen gemerkt.";
    machine_word: "Machine", "Plotter";
    log_passes: "Passes of a kiss line", "Durchgänge beim Anritzen";
    this_blade_has_cut: "This blade has cut, m", "Diese Klinge hat geschnitten, m";
    passes_range: "type a whole number from 1 to 20", "gib eine ganze Zahl von 1 bis 20 ein";
    known_work: "What the log knows", "Was das Klingenbuch kennt";
    suggested_title: "For the blade as it is now", "Für die Klinge, wie sie jetzt ist";
    nothing_logged: "The log has no clean cut of this machine, blade, stock and passes yet. Find the setting on a test card, and note its outcomes.", "Das Klingenbuch kennt noch keinen sauberen Schnitt mit diesem Plotter, dieser Klinge, diesem Material und so vielen Durchgängen. Such die Einstellung auf einer Testkarte und trag ihre Ergebnisse ein.";
    too_few_to_say: "Fewer than four clean cuts: too few to say how sure that is. Try it on a card first.", "Weniger als vier saubere Schnitte: zu wenige, um zu sagen, wie sicher das ist. Probier es erst auf einer Karte.";
    beyond_the_log: "The blade is newer or more worn than it was in any of those cuts. Try it on a card first.", "Die Klinge ist neuer oder abgenutzter als bei jedem dieser Schnitte. Probier es erst auf einer Karte.";
    setting_by_hand: "A setting you cut with", "Eine Einstellung, mit der du geschnitten hast";
    came_out: "Note how it came out", "Eintragen, wie es wurde";
    a_setting: "type a number, or a name from the scale of the test card", "gib eine Zahl ein oder einen Namen von der Skala der Testkarte";
    entries_title: "Noted", "Eingetragen";
    save_log: "Save the log as a file", "Klingenbuch als Datei sichern";
    save_log_text: "The whole log, with every machine. The command line reads it too: stickleaf card --log.", "Das ganze Klingenbuch mit allen Plottern. Auch die Kommandozeile liest es: stickleaf card --log.";
    log_not_kept: "The browser keeps nothing: its storage is full or switched off, so this was not noted. Make room, then try again.", "Der Browser behält nichts: Sein Speicher ist voll oder abgeschaltet, also wurde das nicht eingetragen. Schaff Platz und versuch es noch einmal.";
}

/// A share of one as a whole percentage; what is neither none nor all is never shown as such.
pub fn percent(share: f64) -> String {
    let shown =
        if share > 0.0 && share < 1.0 { (100.0 * share).round().clamp(1.0, 99.0) } else { 100.0 * share };
    format!("{} %", figure(shown, 0))
}

/// A setting of the log as a number.
pub fn setting_text(setting: f64) -> String {
    with_decimal_sign(&((setting * 100.0).round() / 100.0 + 0.0).to_string())
}

pub fn card_title(number: usize) -> String {
    say!("Card {number}", "Karte {number}")
}

pub fn card_size(trials: usize, width: &str, height: &str) -> String {
    if trials == 1 {
        return say!("one trial on {width} x {height}", "eine Probe auf {width} x {height}");
    }
    say!("{trials} trials on {width} x {height}", "{trials} Proben auf {width} x {height}")
}

pub fn card_picture(trials: usize) -> String {
    if trials == 1 {
        return say!("The card: one triangle in a square", "Die Karte: ein Dreieck in einem Quadrat");
    }
    say!(
        "The card: {trials} numbered triangles in squares",
        "Die Karte: {trials} nummerierte Dreiecke in Quadraten"
    )
}

/// What a trial is called: what is printed below it, and its setting if that is something else.
pub fn trial_name(label: &str, setting: &str) -> String {
    if label == setting { label.to_owned() } else { format!("{label}: {setting}") }
}

pub fn is_clean(setting: &str, chance: f64) -> String {
    let chance = percent(chance);
    say!(
        "{setting} cuts clean, with a chance of {chance}.",
        "{setting} schneidet sauber, mit einer Wahrscheinlichkeit von {chance}."
    )
}

pub fn most_likely(setting: &str, chance: f64) -> String {
    let chance = percent(chance);
    say!(
        "{setting} most likely cuts clean, with a chance of {chance}. Try it again to be sure.",
        "{setting} schneidet am ehesten sauber, mit einer Wahrscheinlichkeit von {chance}. Probier es noch einmal, um sicher zu sein."
    )
}

pub fn only_one(setting: &str) -> String {
    say!(
        "If any setting cuts clean, it is {setting}.",
        "Wenn eine Einstellung sauber schneidet, dann {setting}."
    )
}

pub fn between(from: &str, to: &str) -> String {
    say!(
        "If any setting cuts clean, it lies from {from} to {to}.",
        "Wenn eine Einstellung sauber schneidet, dann liegt sie zwischen {from} und {to}, beide mitgezählt."
    )
}

pub fn none_between(below: &str, above: &str) -> String {
    say!(
        "No setting cuts clean: {below} does not go through, {above} goes too deep. Try finer steps between them, or change the blade.",
        "Keine Einstellung schneidet sauber: {below} geht nicht durch, {above} geht zu tief. Probier feinere Schritte dazwischen oder wechsle die Klinge."
    )
}

pub fn contradicting(settings: &str) -> String {
    say!(
        "The outcomes contradict each other; against the rest speaks {settings}. Look at it again, or try it again.",
        "Die Ergebnisse widersprechen sich; gegen die übrigen spricht {settings}. Sieh noch einmal hin oder probier es noch einmal."
    )
}

pub fn try_next(settings: &str) -> String {
    say!("Try next: {settings}.", "Probier als Nächstes: {settings}.")
}

pub fn chances_text(misread: f64) -> String {
    let misread = percent(misread);
    say!(
        "Reckoned with {misread} of all outcomes misread or come out by chance; that is a guess.",
        "Gerechnet damit, dass {misread} der Ergebnisse falsch abgelesen oder Zufall sind; das ist eine Annahme."
    )
}

pub fn log_outcomes(count: usize) -> String {
    if count == 1 {
        return say!("Note one outcome in the blade log", "Ein Ergebnis ins Klingenbuch eintragen");
    }
    say!("Note {count} outcomes in the blade log", "{count} Ergebnisse ins Klingenbuch eintragen")
}

pub fn logged(count: usize) -> String {
    if count == 1 {
        return say!("One outcome is in the blade log now.", "Ein Ergebnis steht jetzt im Klingenbuch.");
    }
    say!("{count} outcomes are in the blade log now.", "{count} Ergebnisse stehen jetzt im Klingenbuch.")
}

/// Machine, blade and stock in a row, and the passes if they are several.
pub fn work_names(machine: &str, blade: &str, material: &str, passes: u32) -> String {
    let names: Vec<&str> = [machine, blade, material].into_iter().filter(|name| !name.is_empty()).collect();
    let names = if names.is_empty() { say!("no names", "ohne Namen") } else { names.join(" · ") };
    if passes == 1 { names } else { say!("{names} · {passes} passes", "{names} · {passes} Durchgänge") }
}

pub fn suggested(setting: &str, entries: usize) -> String {
    if entries == 1 {
        return say!("Try {setting}, from one clean cut.", "Probier {setting}, nach einem sauberen Schnitt.");
    }
    say!("Try {setting}, from {entries} clean cuts.", "Probier {setting}, nach {entries} sauberen Schnitten.")
}

pub fn suggested_name(name: &str, place: &str, entries: usize) -> String {
    let from = if entries == 1 {
        say!("one clean cut", "einem sauberen Schnitt")
    } else {
        say!("{entries} clean cuts", "{entries} sauberen Schnitten")
    };
    say!(
        "Try {name}, nearest to place {place} on the scale, from {from}.",
        "Probier {name}, am nächsten an Platz {place} der Skala, nach {from}."
    )
}

pub fn suggested_range(from: &str, to: &str) -> String {
    say!(
        "In about four of five cases a clean cut lies from {from} to {to}.",
        "In etwa vier von fünf Fällen liegt ein sauberer Schnitt zwischen {from} und {to}."
    )
}

pub fn against(entries: usize) -> String {
    if entries == 1 {
        return say!(
            "One outcome in the log speaks against it.",
            "Ein Ergebnis im Klingenbuch spricht dagegen."
        );
    }
    say!(
        "{entries} outcomes in the log speak against it.",
        "{entries} Ergebnisse im Klingenbuch sprechen dagegen."
    )
}

pub fn entry(setting: &str, outcome: &str, metres: f64) -> String {
    let metres = setting_text(metres);
    say!("{setting}: {outcome}, after {metres} m", "{setting}: {outcome}, nach {metres} m")
}

pub fn remove_entry(entry: &str) -> String {
    say!("Remove from the log: {entry}", "Aus dem Klingenbuch nehmen: {entry}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_chance_is_never_shown_surer_than_it_is() {
        assert_eq!([0.0, 0.001, 0.496, 0.999, 1.0].map(percent), ["0 %", "1 %", "50 %", "99 %", "100 %"]);
    }

    #[test]
    fn settings_have_no_decimals_without_need() {
        assert_eq!([12.0, 13.75, 1.0 / 3.0].map(setting_text), ["12", "13.75", "0.33"]);
    }
}
