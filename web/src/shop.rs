//! What the artist settled about the shop, for all layouts: the page of label stock. Kept on the device.

use leptos::prelude::*;
use stickleaf_shop::page::{PageError, Plan, Stock, plan};

use crate::browser::keep::{keep, kept};
use crate::state::Desk;

const STOCK: &str = "stickleaf.stock";

/// The shop's settings, and what follows from them for the sheet on the desk. A handle, copied freely.
#[derive(Clone, Copy)]
pub struct Shop {
    /// The page of label stock.
    pub stock: RwSignal<Stock>,
    /// How the sheets lie on it.
    pub plan: Memo<Result<Plan, PageError>>,
}

impl Shop {
    /// As it was left, or as is usual.
    pub fn new(desk: Desk) -> Shop {
        let kept_stock = kept(STOCK).and_then(|text| serde_json::from_str(&text).ok());
        let stock: RwSignal<Stock> = RwSignal::new(kept_stock.unwrap_or_default());
        let size = Memo::new(move |_| desk.layout.with(|layout| (layout.sheet.width, layout.sheet.height)));
        let plan = Memo::new(move |_| {
            let (width, height) = size.get();
            plan(&stock.get(), width, height)
        });
        Shop { stock, plan }
    }

    /// Changes the page, if the page that comes of it makes sense, and keeps it.
    pub fn change(self, edit: impl FnOnce(&mut Stock)) -> Result<(), PageError> {
        let mut stock = self.stock.get_untracked();
        edit(&mut stock);
        stock.room()?;
        self.stock.set(stock);
        if let Ok(text) = serde_json::to_string(&stock) {
            // Without storage it holds for this visit.
            keep(STOCK, &text);
        }
        Ok(())
    }
}
