//! The page of label stock: how the sheets lie on it, and its print.

use leptos::prelude::*;
use stickleaf_shop::page::{PAGE_SIZES, PageError, Plan, Stock};

use crate::messages::PressOrder;
use crate::panels::fields::{Choice, LengthField};
use crate::panels::press::made::{MadeCard, MadeFile};
use crate::panels::press::strip_card::Corrected;
use crate::shop::Shop;
use crate::state::use_desk;
use crate::words::{self, Told};

const PRINT: MadeFile = MadeFile {
    ending: ".print.pdf",
    media_type: "application/pdf",
    text: words::print_text,
    button: words::save_print,
};

/// The card of the print.
#[component]
pub fn PrintCard() -> impl IntoView {
    let shop = expect_context::<Shop>();
    let is_home = RwSignal::new(true);
    let facts = Signal::derive(move || shop.plan.with(plan_line));
    let order = Signal::derive(move || PressOrder::Print { is_home: is_home.get(), stock: shop.stock.get() });
    let is_off = Signal::derive(move || shop.plan.with(Result::is_err));
    view! {
        <MadeCard file=PRINT order facts is_off>
            <PagePicture />
            <StockFields />
            <Corrected />
            <Choice
                label=words::who_prints()
                options=vec![(true, words::prints_at_home()), (false, words::prints_in_shop())]
                chosen=Signal::derive(move || Some(is_home.get()))
                take=Callback::new(move |home| is_home.set(home))
            />
        </MadeCard>
    }
}

/// How many sheets lie on the page, and whether more could; or why none does.
fn plan_line(plan: &Result<Plan, PageError>) -> String {
    match plan {
        Ok(plan) if plan.is_proved() => {
            words::on_a_page_proved(plan.positions.len(), 100.0 * plan.waste_share())
        }
        Ok(plan) => words::on_a_page(plan.positions.len(), plan.proven_most, 100.0 * plan.waste_share()),
        Err(error) => words::sentence(&error.told()),
    }
}

/// The page: its size, what the printer leaves free, what the cutter reaches, the gap between sheets.
#[component]
fn StockFields() -> impl IntoView {
    let shop = expect_context::<Shop>();
    let set = move |edit: fn(&mut Stock, f64)| {
        Callback::new(move |mm: f64| {
            shop.change(|stock| edit(stock, mm)).map_err(|error| words::sentence(&error.told()))
        })
    };
    let length = move |look: fn(&Stock) -> f64| Signal::derive(move || shop.stock.with(look));
    let size = move |(width, height): (f64, f64)| {
        // A named page fits what was settled before, or is refused by nobody: the reach goes with the page.
        let _ = shop.change(|stock| *stock = Stock { width, height, reach: None, ..*stock });
    };
    let chosen = Signal::derive(move || {
        let stock = shop.stock.get();
        let is_it = |&&(_, width, height): &&(&str, f64, f64)| (width, height) == (stock.width, stock.height);
        PAGE_SIZES.iter().find(is_it).map(|&(_, width, height)| (width, height))
    });
    let options = PAGE_SIZES.map(|(name, width, height)| ((width, height), name)).to_vec();
    view! {
        <Choice label=words::page_size() options chosen take=Callback::new(size) />
        <div class="stock-fields">
            <LengthField label=words::page_width() mm=length(|stock| stock.width) take=set(|stock, mm| stock.width = mm) />
            <LengthField label=words::page_height() mm=length(|stock| stock.height) take=set(|stock, mm| stock.height = mm) />
            <LengthField
                label=words::printer_margin()
                mm=length(|stock| stock.printer_margin)
                take=set(|stock, mm| stock.printer_margin = mm)
            />
            <LengthField label=words::sheet_gap() mm=length(|stock| stock.gap) take=set(|stock, mm| stock.gap = mm) />
            <LengthField
                label=words::reach_width()
                mm=length(|stock| stock.reach.map_or(stock.width, |reach| reach.0))
                take=set(|stock, mm| stock.reach = Some((mm, stock.reach.map_or(stock.height, |reach| reach.1))))
            />
            <LengthField
                label=words::reach_height()
                mm=length(|stock| stock.reach.map_or(stock.height, |reach| reach.1))
                take=set(|stock, mm| stock.reach = Some((stock.reach.map_or(stock.width, |reach| reach.0), mm)))
            />
        </div>
    }
}

/// The page with its sheets, and what can be printed and cut of it.
#[component]
fn PagePicture() -> impl IntoView {
    let desk = use_desk();
    let shop = expect_context::<Shop>();
    let radius = Memo::new(move |_| desk.layout.with(|layout| layout.sheet.corner_radius));
    let view_box = move || {
        let stock = shop.stock.get();
        format!("-1 -1 {} {}", stock.width + 2.0, stock.height + 2.0)
    };
    let sheets = move || {
        let Ok(plan) = shop.plan.get() else { return Vec::new() };
        plan.positions.iter().map(|position| plan.sheet(position)).collect()
    };
    let room = move || shop.stock.get().room().ok();
    view! {
        <svg class="page-picture" viewBox=view_box role="img" aria-label=move || shop.plan.with(plan_line)>
            <rect class="page-paper" width=move || shop.stock.get().width height=move || shop.stock.get().height></rect>
            {move || room().map(|room| view! {
                <rect class="page-room" x=room.x0 y=room.y0 width=room.width() height=room.height()></rect>
            })}
            {move || sheets().into_iter().enumerate().map(|(i, sheet): (usize, kurbo::Rect)| {
                let middle = sheet.center();
                view! {
                    <rect
                        class="page-sheet"
                        x=sheet.x0
                        y=sheet.y0
                        width=sheet.width()
                        height=sheet.height()
                        rx=radius.get()
                    ></rect>
                    <text class="page-number" x=middle.x y=middle.y>{i + 1}</text>
                }
            }).collect_view()}
        </svg>
    }
}
