//! Printing amounts as a cook reads them. Rounding for display never changes what is computed.

use super::Quantity;

/// How sheets print amounts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Units {
    #[default]
    Metric,
    Us,
}

/// `1.2 kg`, `830 g`, `1⅓ cups`, `2½`, `3 portions`, `1 sprig`.
pub fn show(quantity: &Quantity, units: Units) -> String {
    let _ = (quantity, units);
    todo!()
}
