//! What `food` and `convert` need first: the foods of the kitchen that is meant, or the built-in reference where there is none.

use super::Cli;
use super::outcome::Failure;
use super::setting::nearest_folder;
use crate::foods::Foods;
use crate::kitchen::load_foods;
use crate::measure::Spoons;

pub struct Known {
    pub foods: Foods,
    pub spoons: Spoons,
}

pub fn read(cli: &Cli) -> Result<Known, Failure> {
    let folder = match &cli.kitchen {
        Some(folder) => Some(folder.clone()),
        None => nearest_folder()?,
    };
    let (foods, spoons) = match folder {
        Some(folder) => load_foods(&folder)?,
        None => (Foods::reference(), Spoons::default()),
    };
    Ok(Known { foods, spoons })
}

/// Nobody knows this food: the nearest names, and where to write down what one knows.
pub fn unknown(name: &str, foods: &Foods) -> Failure {
    let name = name.trim();
    let mend = format!("add [[food]] with name = \"{name}\" to foods.toml");
    Failure::NotKnown(match foods.nearest(name).as_slice() {
        [] => format!("\"{name}\" is not a known food, nor like one. To say what you know of it, {mend}."),
        nearest => format!("\"{name}\" is not a known food. Nearest known: {}. Or {mend}.", nearest.join(", ")),
    })
}
