//! Masses, volumes and densities of uom over [`Number`], in grams and millilitres.

use num_traits::Pow;
use uom::si::amount_of_substance::mole;
use uom::si::electric_current::ampere;
use uom::si::length::centimeter;
use uom::si::luminous_intensity::candela;
use uom::si::mass::gram;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::time::second;
use uom::{Conversion, ConversionFactor};

use super::Number;

impl Conversion<Number> for Number {
    type T = Number;
    fn conversion(&self) -> Number {
        self.clone()
    }
}

impl ConversionFactor<Number> for Number {
    fn powi(self, exponent: i32) -> Self {
        Number::from_big(Pow::pow(self.to_big(), exponent))
    }
    fn value(self) -> Number {
        self
    }
}

/// What one of a base unit is in those of the SI.
macro_rules! base_units {
    ($($unit:ty = $above:literal / $below:literal),+ $(,)?) => {
        $(impl Conversion<Number> for $unit {
            type T = Number;
            fn coefficient() -> Number {
                Number::over($above, $below)
            }
        })+
    };
}

base_units! {
    gram = 1 / 1000,
    centimeter = 1 / 100,
    second = 1 / 1,
    ampere = 1 / 1,
    kelvin = 1 / 1,
    mole = 1 / 1,
    candela = 1 / 1,
}

/// Grams, and cubic centimetres, which are millilitres.
pub type KitchenUnits = dyn uom::si::Units<
        Number,
        length = centimeter,
        mass = gram,
        time = second,
        electric_current = ampere,
        thermodynamic_temperature = kelvin,
        amount_of_substance = mole,
        luminous_intensity = candela,
    >;

/// In grams.
pub type Mass = uom::si::mass::Mass<KitchenUnits, Number>;

/// In millilitres.
pub type Volume = uom::si::volume::Volume<KitchenUnits, Number>;

/// In grams a millilitre: what a mass is over a volume, and the only way from one to the other.
pub type Density = uom::si::mass_density::MassDensity<KitchenUnits, Number>;

/// So many grams.
pub fn mass(grams: impl Into<Number>) -> Mass {
    Mass { dimension: std::marker::PhantomData, units: std::marker::PhantomData, value: grams.into() }
}

/// So many millilitres.
pub fn volume(millilitres: impl Into<Number>) -> Volume {
    Volume { dimension: std::marker::PhantomData, units: std::marker::PhantomData, value: millilitres.into() }
}
