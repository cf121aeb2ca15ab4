//! Pages that the sheets of a run share: the fewest that hold them all, with a picture of each, to be printed and cut.

use leptos::prelude::*;
use stickleaf_sheet::Layout;
use stickleaf_shop::page::{
    PageError, PlanOfSeveral, PrintedPage, SheetOfSeveral, WantedSheets, plan_several,
};

use crate::icons::{Icon, icon};
use crate::messages::{PagesOrder, PictureAsk};
use crate::month::Month;
use crate::panels::fields::Choice;
use crate::panels::press::made::{Making, is_on_its_way};
use crate::picture_work::gather_designs;
use crate::pressing::PressJob;
use crate::run_order::RunOrder;
use crate::shop::Shop;
use crate::state::use_desk;
use crate::words::{self, Told};

/// What of a design the pages depend on and show.
#[derive(Clone, Debug, PartialEq)]
struct OnPages {
    name: String,
    corner_radius: f64,
    wanted: WantedSheets,
}

impl OnPages {
    fn of(layout: &Layout, count: u64) -> OnPages {
        let wanted = WantedSheets { width: layout.sheet.width, height: layout.sheet.height, count };
        OnPages { name: layout.name.clone(), corner_radius: layout.sheet.corner_radius, wanted }
    }
}

/// The pages of a run of several designs if they share them. They are worked out once they are looked at.
#[component]
pub fn SharedPages() -> impl IntoView {
    let desk = use_desk();
    let (shop, month, order) =
        (expect_context::<Shop>(), expect_context::<Month>(), expect_context::<RunOrder>());
    let is_open = RwSignal::new(false);
    let designs = Memo::new(move |_| {
        let own = desk.layout.with(|layout| OnPages::of(layout, month.sheets.get()));
        let others = order.others.with(|others| {
            others.iter().map(|other| OnPages::of(&other.layout, other.sheets)).collect::<Vec<OnPages>>()
        });
        [vec![own], others].concat()
    });
    let plan = Memo::new(move |_| {
        let wanted: Vec<WantedSheets> =
            designs.with(|designs| designs.iter().map(|design| design.wanted).collect());
        is_open.get().then(|| plan_several(&shop.stock.get(), &wanted))
    });
    let is_several = move || designs.with(|designs| designs.len() > 1);
    view! {
        <Show when=is_several>
            <details class="shared-pages" on:toggle=move |event| is_open.set(event_target::<web_sys::Element>(&event).has_attribute("open"))>
                <summary>{icon(Icon::Sheet)} <span>{words::shared_title()}</span></summary>
                <p class="month-note">{words::shared_text()}</p>
                {move || plan.get().map(|plan| match plan {
                    Ok(plan) => view! { <Pages plan designs /> }.into_any(),
                    Err(error) => view! { <p class="press-note">{icon(Icon::Caution)} <span>{refused(&error)}</span></p> }.into_any(),
                })}
            </details>
        </Show>
    }
}

fn refused(error: &PageError) -> String {
    words::sentence(&error.told())
}

/// The pages that differ, and what can be made of them.
#[component]
fn Pages(plan: PlanOfSeveral, designs: Memo<Vec<OnPages>>) -> impl IntoView {
    let month = expect_context::<Month>();
    let alone = move || {
        month.run.with(|run| match run {
            Some(Ok(run)) if run.designs.iter().all(|design| design.pages > 0) => Some(run.good_pages),
            _ => None,
        })
    };
    let (count, least) = (plan.count(), plan.proven_least);
    let plan = StoredValue::new(plan);
    let pages = plan.with_value(|plan| plan.pages.clone());
    view! {
        <p class="shared-line" role="status">{move || words::shared_line(count, least, alone())}</p>
        <ol class="shared-list" role="list">
            {pages.into_iter().enumerate().map(|(index, page)| view! { <OnePage index page plan designs /> }).collect_view()}
        </ol>
        <PrintPages />
        <p class="month-note">{words::shared_sums()}</p>
    }
}

/// A page: its picture, how often it is printed, what is on it, and its cut.
#[component]
fn OnePage(
    index: usize,
    page: PrintedPage,
    plan: StoredValue<PlanOfSeveral>,
    designs: Memo<Vec<OnPages>>,
) -> impl IntoView {
    let month = expect_context::<Month>();
    let job = expect_context::<PressJob>();
    let make = use_pages();
    let file = format!("page-{}.page-cut.svg", index + 1);
    let cut = {
        let file = file.clone();
        move |_| {
            let passes = month.settings.with_untracked(|settings| settings.cutting.passes);
            make(PagesOrder::Cut { page: index, passes }, file.clone(), "image/svg+xml");
        }
    };
    let what = StoredValue::new(words::page_printed(index + 1, page.times));
    let holds = designs.with_untracked(|designs| holds(&page, designs));
    let picture = plan.with_value(|plan| designs.with_untracked(|designs| picture(plan, &page, designs)));
    let cut = StoredValue::new(cut);
    view! {
        <li class="shared-page">
            {picture}
            <div class="shared-facts">
                <strong>{what.get_value()}</strong>
                <p>{holds}</p>
                <Show when=move || !is_on_its_way(job, &file) fallback=|| view! { <Making /> }>
                    <button
                        type="button"
                        class="button"
                        aria-label=words::cut_of_page(index + 1)
                        on:click=move |event| cut.with_value(|cut| cut(event))
                    >
                        {icon(Icon::Save)} <span>{words::save_cut()}</span>
                    </button>
                </Show>
            </div>
        </li>
    }
}

/// All pages that differ, as one file for the printer.
#[component]
fn PrintPages() -> impl IntoView {
    const FILE: &str = "pages.print.pdf";
    let job = expect_context::<PressJob>();
    let is_home = RwSignal::new(true);
    let make = use_pages();
    let print = move |_| {
        make(PagesOrder::Print { is_home: is_home.get_untracked() }, FILE.to_owned(), "application/pdf");
    };
    let print = StoredValue::new(print);
    view! {
        <Show when=move || !is_on_its_way(job, FILE) fallback=|| view! { <Making /> }>
            <div class="shared-print">
                <Choice
                    label=words::who_prints()
                    options=vec![(true, words::prints_at_home()), (false, words::prints_in_shop())]
                    chosen=Signal::derive(move || Some(is_home.get()))
                    take=Callback::new(move |home| is_home.set(home))
                />
                <button type="button" class="button primary-soft" on:click=move |event| print.with_value(|print| print(event))>
                    {icon(Icon::Save)} <span>{words::save_pages()}</span>
                </button>
            </div>
        </Show>
    }
}

/// Makes something of the pages of the run as it is when it is asked for.
fn use_pages() -> impl Fn(PagesOrder, String, &'static str) + Copy + 'static {
    let desk = use_desk();
    let (shop, month, run, job) = (
        expect_context::<Shop>(),
        expect_context::<Month>(),
        expect_context::<RunOrder>(),
        expect_context::<PressJob>(),
    );
    move |order, file, media_type| {
        let stock = shop.stock.get_untracked();
        let others = run.others.with_untracked(|others| {
            others.iter().map(|other| (other.id.clone(), other.sheets)).collect::<Vec<(String, u64)>>()
        });
        let wanted = month.sheets.get_untracked();
        job.make_of(file, media_type, async move || {
            let (designs, buffers) = gather_designs(desk, wanted, others)
                .await
                .map_err(|why| words::could_not_do(words::save_pages(), why))?;
            Ok((PictureAsk::Pages { designs, stock, order }, buffers))
        });
    }
}

/// How many sheets of which design lie on a page.
fn holds(page: &PrintedPage, designs: &[OnPages]) -> String {
    let count = |design: usize| page.sheets.iter().filter(|sheet| sheet.design == design).count() as u64;
    let all = (0..designs.len()).map(|design| (count(design), designs[design].name.clone()));
    words::holds_sheets(&all.filter(|(count, _)| *count > 0).collect::<Vec<_>>())
}

/// A page with its sheets, each with the number of its design.
fn picture(plan: &PlanOfSeveral, page: &PrintedPage, designs: &[OnPages]) -> impl IntoView + use<> {
    let (stock, room) = (plan.stock, plan.room);
    let sheet = |sheet: &SheetOfSeveral| {
        let (area, middle) = (sheet.area, sheet.area.center());
        view! {
            <rect
                class="page-sheet"
                data-design=sheet.design % 6
                x=area.x0
                y=area.y0
                width=area.width()
                height=area.height()
                rx=designs[sheet.design].corner_radius
            ></rect>
            <text class="page-number" x=middle.x y=middle.y>{sheet.design + 1}</text>
        }
    };
    let sheets = page.sheets.iter().map(sheet).collect_view();
    view! {
        <svg
            class="page-picture"
            viewBox=format!("-1 -1 {} {}", stock.width + 2.0, stock.height + 2.0)
            role="img"
            aria-label=holds(page, designs)
        >
            <rect class="page-paper" width=stock.width height=stock.height></rect>
            <rect class="page-room" x=room.x0 y=room.y0 width=room.width() height=room.height()></rect>
            {sheets}
        </svg>
    }
}
