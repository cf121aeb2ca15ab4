//! What to ask for a sheet so that enough is left.

use serde::Serialize;

use crate::money::Cents;
use crate::settings::Selling;

/// What to ask for a sheet, and where it goes.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Price {
    /// What to ask for one sheet: the least whole cents at which enough is left.
    pub sheet: Cents,
    /// Of it the fees, in cents and parts of them.
    pub fees: f64,
    /// Of it what is left after costs and fees.
    pub left: f64,
}

/// The price of a sheet that costs so much to make, in cents and parts of them.
///
/// Of a price p a share f goes to the selling place and a share m is to be left, so that p = (cost + fee an order / sheets
/// an order) / (1 − f − m).
pub fn price(selling: &Selling, cost: f64) -> Price {
    let fixed = selling.order_fee_cents.0 as f64 / selling.sheets_per_order;
    let (fee, margin) = (selling.fee_percent / 100.0, selling.margin_percent / 100.0);
    // The trace of arithmetic in parts of cents is no cent.
    let sheet = Cents(((cost + fixed) / (1.0 - fee - margin) - 1e-6).ceil() as i64);
    let fees = sheet.0 as f64 * fee + fixed;
    Price { sheet, fees, left: sheet.0 as f64 - cost - fees }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_price_leaves_what_was_wished() {
        // Cost 1.06, 0.30 an order of 2 sheets, 10 % fee, 50 % to be left: (106 + 15) / 0.4 = 302.5, so 303 cents. Fees are
        // 30.3 + 15 = 45.3, and 303 - 106 - 45.3 = 151.7 are left: half of 303 and a little.
        let selling = Selling {
            order_fee_cents: Cents(30),
            sheets_per_order: 2.0,
            fee_percent: 10.0,
            margin_percent: 50.0,
            ..Selling::default()
        };
        let price = price(&selling, 106.0);
        assert_eq!(price.sheet, Cents(303));
        assert!((price.fees - 45.3).abs() < 1e-9 && (price.left - 151.7).abs() < 1e-9);
    }

    #[test]
    fn no_margin_and_no_fees_is_the_cost() {
        let selling = Selling { margin_percent: 0.0, ..Selling::default() };
        assert_eq!(price(&selling, 106.0).sheet, Cents(106));
    }
}
