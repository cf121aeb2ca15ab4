//! What a run comes to, as a table.

use leptos::prelude::*;
use stickleaf_shop::costs::Post;
use stickleaf_shop::run::{DesignRun, RunSheet};
use stickleaf_shop::settings::Settings;

use crate::month::Month;
use crate::words;

/// Pages, time, blade, stock, ink; then the cost, post by post, and the price.
#[component]
pub fn Sums() -> impl IntoView {
    let month = expect_context::<Month>();
    let run = move || month.run.with(|run| run.clone().and_then(Result::ok));
    let rows = move || run().map(|run| plain_rows(&run)).unwrap_or_default();
    let costs = move || {
        run().map(|run| month.settings.with(|settings| cost_rows(settings, &run))).unwrap_or_default()
    };
    let inks = move || run().map(|run| ink_lines(&run)).unwrap_or_default();
    let is_known =
        move || run().is_some_and(|run| run.designs.iter().all(|design| design.coverage.is_some()));
    view! {
        <dl class="sums">
            {move || rows().into_iter().map(|(word, value)| view! { <dt>{word}</dt> <dd>{value}</dd> }).collect_view()}
            <dt>{words::ink_word()}</dt>
            <dd>
                {move || inks().into_iter().map(|line| view! { <span class="ink-line">{line}</span> " " }).collect_view()}
                <Show when=move || !is_known()>
                    <button
                        type="button"
                        class="button"
                        disabled=move || month.is_measuring.get()
                        on:click=move |_| month.measure_ink()
                    >
                        {words::measure_ink()}
                    </button>
                </Show>
            </dd>
        </dl>
        <h3>{words::cost_title()}</h3>
        <Show
            when=move || !costs().is_empty()
            fallback=|| view! { <p class="month-note">{words::no_prices()}</p> }
        >
            <table class="costs">
                <thead>
                    <tr><th scope="col">{words::cost_post()}</th><th scope="col">{words::cost_run()}</th><th scope="col">{words::cost_sheet()}</th></tr>
                </thead>
                <tbody>
                    {move || costs().into_iter().map(|[word, run, sheet]| view! {
                        <tr><th scope="row">{word}</th><td>{run}</td><td>{sheet}</td></tr>
                    }).collect_view()}
                </tbody>
            </table>
            <p class="price">
                {move || run().map(|run| month.settings.with(|settings| price_line(settings, &run)))}
            </p>
        </Show>
    }
}

/// The ink of each design; its name goes before if there are several.
fn ink_lines(run: &RunSheet) -> Vec<String> {
    let line = |design: &DesignRun| {
        let ink = design.coverage.map_or_else(
            || words::ink_unknown().to_owned(),
            |ink| words::ink_line([ink.cyan, ink.magenta, ink.yellow, ink.black]),
        );
        let name = (run.designs.len() > 1).then(|| words::named(&design.name));
        words::of_design(name, ink)
    };
    run.designs.iter().map(line).collect()
}

fn plain_rows(run: &RunSheet) -> Vec<(&'static str, String)> {
    let passes = run.designs.first().map_or(1, |design| design.passes);
    vec![
        (words::pages_word(), words::pages_with_spoilt(run.pages, run.packs_to_buy)),
        (words::printing_word(), words::duration(run.printing_s)),
        (words::cutting_word(), words::cutting_time(run.cutting_s, passes)),
        (words::done_word(), words::done_after(run.schedule.done_s, run.schedule.at_best_s)),
        (words::own_time_word(), words::duration(60.0 * run.bill.labour_min)),
        (words::blade_word(), words::blade_use(run.blade_m, run.blade_changes)),
    ]
}

fn cost_rows(settings: &Settings, run: &RunSheet) -> Vec<[String; 3]> {
    if run.bill.posts.is_empty() {
        return Vec::new();
    }
    let currency = &settings.currency;
    let mut rows: Vec<[String; 3]> = run
        .bill
        .posts
        .iter()
        .map(|&(post, cents)| {
            let sheet = words::money_parts(cents.each(run.usage.sheets), currency);
            [post_word(post).to_owned(), words::money(cents, currency), sheet]
        })
        .collect();
    rows.push([
        words::cost_all().to_owned(),
        words::money(run.bill.total, currency),
        words::money_parts(run.sheet_cents, currency),
    ]);
    rows
}

fn post_word(post: Post) -> &'static str {
    match post {
        Post::Stock => words::stock_word(),
        Post::Ink => words::ink_word(),
        Post::Blades => words::blades_word(),
        Post::Mats => words::mats_word(),
        Post::Packaging => words::packaging_word(),
        Post::Labour => words::own_time_word(),
    }
}

fn price_line(settings: &Settings, run: &RunSheet) -> String {
    let currency = &settings.currency;
    words::price_line(
        &words::money_parts(run.sticker_cents, currency),
        &words::money(run.price.sheet, currency),
        settings.selling.margin_percent,
        &words::money_parts(run.price.fees, currency),
    )
}
