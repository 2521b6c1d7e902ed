//! The plain data of the plan. Sessions and meals are indices into the [`Week`](crate::kitchen::Week).

use jiff::civil::{Date, DateTime};

use super::yields::Batches;
use crate::foods::{FoodId, Foods, Place};
use crate::kitchen::asked::Asked;
use crate::kitchen::{Recipe, RecipeId, Spot, Ware, Whose};
use crate::measure::{Dimension, Minutes, Number, Quantity, is_nothing_of};

/// Where a making is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum MadeAt {
    Session(usize),
    /// `made = "at the meal"`.
    Meal(usize),
}

/// Who eats or uses what a making yields.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum User {
    Meal(usize),
    /// An index into [`Makings::makings`]: the making of a dish this component goes into.
    Making(usize),
}

/// How it is kept until then.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kept {
    /// Used in the session that makes it, at the meal that makes it, or served hot soon after its session: never boxed.
    Straight,
    Fridge,
    /// Boxed without chilling, where that keeps it longer.
    Cupboard,
    /// Frozen, and moved to the fridge the day before.
    Freezer,
}

impl Kept {
    /// Where it stands when it is wanted; `None` straight from the pot.
    pub fn place(self) -> Option<Place> {
        match self {
            Kept::Straight => None,
            Kept::Fridge | Kept::Freezer => Some(Place::Fridge),
            Kept::Cupboard => Some(Place::Cupboard),
        }
    }
}

/// One use of a making.
#[derive(Debug, Clone, PartialEq)]
pub struct Use {
    pub by: User,
    pub on: Date,
    /// In the unit of `makes`.
    pub amount: Quantity,
    pub kept: Kept,
    /// Of `amount`, what is a single eater's: in place of what the others get, or without something.
    pub own: Vec<Apart>,
    /// "Mon supper", or the name of the dish.
    pub label: String,
}

impl Use {
    /// What of it lacks something for a single eater, each by itself, and before that the rest.
    pub fn by_whom(&self) -> Vec<(Option<Whose>, Quantity)> {
        let set_aside = || self.own.iter().filter(|own| !own.without.is_empty());
        let own: Number = set_aside().map(|own| &own.amount).sum();
        let of = |amount: Number| Quantity::of(&self.amount.dimension(), amount);
        let rest = self.amount.exact() - &own;
        let shared = (rest > 0 && !is_nothing_of(&rest, self.amount.exact())).then(|| (None, of(rest)));
        let whose = |own: &Apart| Some(Whose { eater: own.who.clone(), without: own.without.clone() });
        shared.into_iter().chain(set_aside().map(|own| (whose(own), of(own.amount.clone())))).collect()
    }
}

/// What a making puts into boxes, one entry a place, use-by day and eater.
#[derive(Debug, Clone, PartialEq)]
pub struct Boxed {
    pub amount: Quantity,
    pub place: Place,
    pub use_by: Date,
    /// Labels of the uses; empty for spare.
    pub what_for: Vec<String>,
    /// How much each of the uses takes, in the unit of `amount`.
    pub parts: Vec<Number>,
    /// Whose it is, where it is a single eater's.
    pub eater: Option<String>,
    /// What it lacks of what goes into the rest.
    pub without: Vec<Ware>,
}

/// Some number of batches of one recipe made at one time.
#[derive(Debug, Clone, PartialEq)]
pub struct Making {
    pub recipe: RecipeId,
    pub at: MadeAt,
    pub on: Date,
    pub batches: Batches,
    /// `batches` × what the recipe makes.
    pub makes: Quantity,
    pub uses: Vec<Use>,
    /// What nobody has planned to eat.
    pub spare: Option<Spare>,
    pub boxes: Vec<Boxed>,
    /// Of `makes`, what single eaters get without something that goes into it.
    pub apart: Vec<Apart>,
}

/// A part of a making that lacks some of what goes into the rest.
#[derive(Debug, Clone, PartialEq)]
pub struct Apart {
    /// The eater's name.
    pub who: String,
    pub without: Vec<Ware>,
    /// In the unit of `makes`.
    pub amount: Number,
}

impl Making {
    /// How many times a line that asks for this goes in: the batches, less what single eaters get without it.
    pub fn times(&self, ware: Ware) -> Number {
        self.batches.number() * &self.share_with(ware)
    }

    /// As [`Making::times`], for each of the recipe's lines: a little more of what is only taken whole.
    pub fn taken(&self, foods: &Foods, recipe: &Recipe) -> Vec<Number> {
        super::pieces::times_taken(foods, recipe.ingredients.iter().map(|line| (line, self.times(line.ware()))))
    }

    /// The share of what is made that this goes into: 1 where nobody leaves it away.
    pub fn share_with(&self, ware: Ware) -> Number {
        let apart: Number = self.apart.iter().filter(|apart| apart.without.contains(&ware)).map(|apart| &apart.amount).sum();
        if apart.is_zero() { Number::ONE } else { Number::ONE - &apart / self.makes.exact() }
    }

    /// Does everybody get all of it without this?
    pub fn is_without(&self, ware: Ware) -> bool {
        !self.share_with(ware).is_positive()
    }

    /// Is anything of it kept beyond its session?
    pub fn is_kept(&self) -> bool {
        !self.boxes.is_empty()
    }
}

#[derive(Debug, Clone, PartialEq)]
pub struct Spare {
    pub recipe: RecipeId,
    pub amount: Quantity,
    pub made_on: Date,
    pub eat_by: Date,
    pub frozen: bool,
}

/// "Move 3 portions of pearl barley from the freezer to the fridge."
#[derive(Debug, Clone, PartialEq)]
pub struct Move {
    pub on: Date,
    pub recipe: RecipeId,
    /// Whose it is alone.
    pub whose: Option<Whose>,
    pub amount: Quantity,
    /// Labels of the meals it is for.
    pub what_for: Vec<String>,
    /// It was to be moved before today, and is taken as moved: who did not moves it now, or heats it from frozen.
    pub late: bool,
}

/// What a meal lacks, once its week has begun: nothing on the shelf and no open session serves it.
#[derive(Debug, Clone, PartialEq)]
pub struct ShortMeal {
    pub at: DateTime,
    /// "Fri supper".
    pub label: String,
    /// "supper".
    pub word: String,
    /// Its own name, or its label.
    pub meal: String,
    pub recipe: RecipeId,
    /// Whose it is alone, where it is what one eater gets without something that is missing.
    pub whose: Option<Whose>,
    /// What is missing, in the unit of the recipe's `makes`.
    pub amount: Quantity,
    /// How long the recipe takes where it is made at the meal.
    pub takes: Minutes,
    /// How long before it is begun: soaking.
    pub ahead: Minutes,
    /// When that is for this meal, once today is known, and whether it is over by then.
    pub begins: Option<Begins>,
}

/// When what is done ahead of a dish would have to begin.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Begins {
    pub at: DateTime,
    pub is_past: bool,
}

/// Everything a week makes, with what cooked lots served.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Makings {
    /// In order of session (or meal), then components before the dishes that use them.
    pub makings: Vec<Making>,
    pub cooked_draws: Vec<Draw>,
    pub moves: Vec<Move>,
    /// In order of time; one entry a meal and recipe.
    pub short: Vec<ShortMeal>,
}

impl Makings {
    /// Tells today what ought to have been moved from the freezer before.
    pub fn move_no_earlier_than(&mut self, today: Date) {
        for moved in self.moves.iter_mut().filter(|moved| moved.on < today) {
            (moved.on, moved.late) = (today, true);
        }
        self.moves.sort_by_key(|moved| (moved.on, !moved.late, moved.recipe));
    }
}

/// How a line stated its amount, as far as buying cares.
#[derive(Debug, Clone, PartialEq)]
pub enum Stated {
    Plain,
    /// "240 g drained white beans".
    Drained,
    /// "2 tins (400 g)": the size of one.
    Tin {
        size: Quantity,
    },
}

/// One line's dated need of one food, as purchased.
#[derive(Debug, Clone, PartialEq)]
pub struct Demand {
    pub food: FoodId,
    pub on: Date,
    /// In the food's stating unit where the facts allow, else in the line's own. Zero for "to taste".
    pub amount: Quantity,
    pub to_taste: bool,
    pub stated: Stated,
    /// In the line's own measure, where nothing stands in the way of adding it up.
    pub asked: Option<Asked>,
    /// Where the line counts tins, jars or packs: the size of one, as far as it is known.
    pub tin: Option<Quantity>,
    /// The recipe's name, or the meal's.
    pub what_for: String,
    /// The dish whose line it is; `None` of what a meal asks for by itself.
    pub dish: Option<RecipeId>,
    /// The line as typed.
    pub line: String,
    pub at: Spot,
    /// The session or meal it is for.
    pub by: MadeAt,
    /// True where a fact is missing and the amount stands in the line's own words.
    pub own_words: bool,
    /// "(optional)", "for garnish", "to serve".
    pub optional: bool,
    /// What the line says could be taken instead.
    pub instead: Option<String>,
}

/// What is taken out of one lot on one day.
#[derive(Debug, Clone, PartialEq)]
pub struct Draw {
    pub of: Ware,
    /// Index into [`Kitchen::lots`](crate::kitchen::Kitchen::lots); behind its end stand packs that the plan opened, as
    /// [`Netted::lots`](crate::pantry::Netted::lots) has them.
    pub lot: usize,
    /// In the unit of the need; of a cooked lot in the unit of its recipe's `makes`.
    pub amount: Quantity,
    pub place: Place,
    pub on: Date,
    pub what_for: Vec<String>,
    /// The sessions or meals it is taken for.
    pub by: Vec<MadeAt>,
    /// Past its best before or keeping, in cupboard or freezer.
    pub look_first: bool,
    /// Of a cooked lot, whose it is alone.
    pub whose: Option<Whose>,
}

/// What one trip must buy of one food, in one dimension.
#[derive(Debug, Clone, PartialEq)]
pub struct Need {
    pub food: FoodId,
    /// Index into the week's trips.
    pub trip: usize,
    pub dimension: Dimension,
    /// In date order, then file order; what the pantry served is already taken off. The top-up of a staple comes last.
    pub uses: Vec<NeedUse>,
    /// All demand of this food on this trip before the pantry, with the top-up: what `short_by` is taken of. In base units.
    pub demand: Number,
    /// True where the amount stands in a line's own words and packs cannot be compared with it.
    pub own_words: bool,
}

impl Need {
    /// Nothing of it has an amount.
    pub fn is_to_taste(&self) -> bool {
        self.uses.iter().all(|part| part.to_taste)
    }
}

/// One part of a need.
#[derive(Debug, Clone, PartialEq)]
pub struct NeedUse {
    pub on: Date,
    /// In base units of the need's dimension: what must still be bought for it.
    pub amount: Number,
    pub what_for: String,
    pub stated: Stated,
    /// The same in the line's own measure.
    pub asked: Option<Asked>,
    /// Any one pack or one loose step covers it; `amount` is 0.
    pub to_taste: bool,
    /// A staple's top-up: a window of its own.
    pub top_up: bool,
    /// The line as typed; empty for a top-up.
    pub line: String,
    /// "(optional)", "for garnish", "to serve".
    pub optional: bool,
    /// What the line says could be taken instead.
    pub instead: Option<String>,
}
