//! What only shows once all steps of a recipe are there: what is done ahead, the room in the oven, the inside temperature, and what of an
//! ingredient nobody named.
//!
//! Four hours before anything is heated are spent ahead of the session; of "4 hours or overnight" the first is planned, which is told.

use super::gather::{Gather, Made};
use super::places::Kind;
use super::rates::{self, LONG_WAIT};
use super::text::with;
use crate::foods::Kind as FoodKind;
use crate::kitchen::{Piece, Spot, Wanted};
use crate::measure::{Amount, Celsius, Minutes};

/// "The night before".
const NIGHT: i64 = 480;

/// What is done to meat a day before.
const SEASONS: [&str; 8] = ["score", "rub", "cure", "brine", "marinate", "massage", "coat", "submerge"];
/// What is done to one food in water, beside all others.
const SOAKS: [&str; 4] = ["soak", "soaking", "steep", "rehydrate"];

fn of_piece(piece: &Piece) -> Option<usize> {
    if let Piece::Ingredient { index, .. } = piece { Some(*index) } else { None }
}

impl Gather<'_, '_> {
    /// A long wait before anything is heated is done ahead of the session, with everything before it.
    pub(super) fn put_ahead(&mut self) {
        let count = self.made.len();
        let heated = self.made.iter().position(|made| made.heated).unwrap_or(count);
        let early = |(index, made): (usize, &Made)| {
            let wait = made.step.wait.0 as f64;
            let long = made.overnight || wait >= LONG_WAIT;
            let day = made.day_before > 0;
            // "The night before, make the dough": hands alone.
            let hands = made.overnight && wait == 0.0;
            (index < heated && index + 1 < count && (made.stands && long || hands) || day && index < heated).then_some(index)
        };
        let last = self.made.iter().enumerate().filter_map(early).next_back();
        self.wait_for_the_night(last);
        if let Some(last) = last {
            self.move_ahead(last);
            self.name_what_is_put_ahead(last);
        }
        self.tell_choices();
    }

    /// Of "4 hours or overnight" the first is planned, and where.
    fn tell_choices(&mut self) {
        let told = self.made.iter().filter_map(|made| {
            let words = made.choice.as_ref()?;
            let when = if made.step.ahead.is_some() { "ahead of" } else { "in" };
            let text = format!("\"{words}\" leaves a choice; the first is planned, {when} the session. Write one time");
            Some((made.step.at.clone(), text))
        });
        told.collect::<Vec<_>>().into_iter().for_each(|(at, text)| self.tell(at, text));
    }

    /// The steps up to `last` are done ahead, each by all the waits that follow it there.
    fn move_ahead(&mut self, last: usize) {
        let mut ahead = 0;
        for index in (0..=last).rev() {
            let made = &mut self.made[index];
            let long = made.stands && made.step.wait.0 as f64 >= LONG_WAIT;
            let day = made.day_before > 0;
            if day {
                ahead = ahead.max(made.day_before);
            } else if made.overnight && made.step.wait.0 == 0 {
                ahead = ahead.max(NIGHT);
            }
            if long || day {
                ahead = ahead.max(0) + if day { 0 } else { made.step.wait.0 };
                made.step.wait = Minutes(0);
                // Somebody has to put it there.
                made.step.estimated.hands |= made.step.hands.0 == 0;
                made.step.hands = Minutes(made.step.hands.0.max(1));
            }
            made.step.ahead = (ahead > 0).then_some(Minutes(ahead));
        }
    }

    /// "Chill until wanted", and something follows: nobody waits for it. At the end of a recipe it is as cold as its verb makes it.
    pub(super) fn wait_for_nobody(&mut self) {
        let last = self.made.len().saturating_sub(1);
        for made in self.made.iter_mut().take(last).filter(|made| made.until_needed && made.stands && made.step.estimated.wait) {
            made.step.estimated.wait = false;
            made.step.wait = Minutes(0);
            made.step.estimated.hands |= made.step.hands.0 == 0;
            made.step.hands = Minutes(made.step.hands.0.max(1));
        }
    }

    /// "The night before, mix the oats. Cover and chill.", and no more: a night's wait, marked.
    fn wait_for_the_night(&mut self, ahead: Option<usize>) {
        let count = self.made.len();
        let Some(last) = self.made.last_mut().filter(|_| ahead.is_none_or(|ahead| ahead + 1 < count)) else { return };
        if last.overnight && last.step.wait.0 == 0 && last.step.on.is_empty() {
            last.step.wait = Minutes(NIGHT);
            last.step.estimated.wait = true;
        }
    }

    /// "Marinate for 4 hours": where no step done ahead names a food, all that no step names goes in front of the first of them, as it always
    /// is in the first step. "Soak overnight" takes only what is soaked: the onion of the list stays for the pot. Where the method names a part
    /// of what is marinated, the meat goes there, and what seasons it.
    fn name_what_is_put_ahead(&mut self, last: usize) {
        let names = |made: &Made| made.step.text.iter().any(|piece| matches!(piece, Piece::Ingredient { .. }));
        // "The day before, score the skin and rub with the salt": of the meat that no step names.
        let says = |made: &Made, said: &[&str]| {
            let word = |text: &str| text.to_lowercase().split(|letter: char| !letter.is_alphanumeric()).any(|word| said.contains(&word));
            made.step.text.iter().any(|piece| matches!(piece, Piece::Words(text) if word(text)))
        };
        let is_named = self.made[..=last].iter().any(names);
        if is_named && !self.made[..=last].iter().any(|made| says(made, &SEASONS)) {
            return;
        }
        let unnamed = self.unnamed();
        let soaked = |food: &usize| {
            let pulse = |kind: FoodKind| !is_named && matches!(kind, FoodKind::Pulse | FoodKind::Grain);
            self.larder.kind(*food).is_some_and(|kind| pulse(kind) || kind.is_raw_flesh() || is_named && self.is_of_a_marinade(*food, kind))
        };
        let soaks = self.made[..=last].iter().any(|made| says(made, &SOAKS)) && unnamed.iter().any(soaked);
        let soaked: Vec<usize> = unnamed.into_iter().filter(|food| !is_named && !soaks || soaked(food)).collect();
        if soaked.is_empty() {
            return;
        }
        let mut text = with(&soaked);
        let first = &mut self.made[0];
        text.append(&mut first.step.text);
        first.step.text = text;
        first.foods.extend(soaked.iter().copied());
        // It is in what is heated after it, too.
        self.made.iter_mut().filter(|made| made.heated && !made.of_another).for_each(|made| made.dish.extend(soaked.iter().copied()));
    }

    /// Does it season what is marinated? What is to taste is left for the pot.
    fn is_of_a_marinade(&self, food: usize, kind: FoodKind) -> bool {
        use FoodKind::{Condiment, Dairy, Herb, Oil, Sauce, Spice, Sweetener};
        let seasons = matches!(kind, Condiment | Dairy | Herb | Oil | Sauce | Spice | Sweetener);
        seasons && matches!(self.setting.ingredients[food].wanted, Wanted::Food { item: Some(_), .. })
    }

    /// The ingredients that neither a step nor the table names.
    fn unnamed(&self) -> Vec<usize> {
        let named: Vec<usize> = self.made.iter().flat_map(|made| &made.step.text).filter_map(of_piece).collect();
        (0..self.setting.ingredients.len()).filter(|food| !named.contains(food) && !self.is_at_table(*food)).collect()
    }

    /// The room of an oven: trays of what roasts in one layer.
    pub(super) fn take_room(&mut self) {
        let mut sofar: Vec<usize> = Vec::new();
        let ovens: Vec<bool> = self.setting.appliances.iter().map(|one| one.kind == Some(Kind::Oven)).collect();
        let first = self.made.iter().position(|made| made.step.ahead.is_none()).unwrap_or(0);
        let unnamed = self.unnamed();
        for index in 0..self.made.len() {
            // What no step names is in the first one of the session, which says so: "With 1 kg carrots: Roast …".
            let also: &[usize] = if index == first { &unnamed } else { &[] };
            for food in self.made[index].foods.iter().chain(also).copied().collect::<Vec<usize>>() {
                if !sofar.contains(&food) {
                    sofar.push(food);
                }
            }
            if !self.made[index].step.on.iter().any(|id| ovens[id.0]) {
                continue;
            }
            let grams: f64 = sofar.iter().filter(|food| self.larder.litres(**food) == 0.0).map(|food| self.larder.grams(*food)).sum();
            let layers = (grams / rates::TRAY * 10.0).round() / 10.0;
            // A bird or a joint is no layer: what lies around it shares its tin, and it is not parted.
            let whole =
                sofar.iter().filter(|food| !self.cut.contains(food)).filter_map(|food| self.larder.whole_pieces(*food)).sum::<f64>();
            let reckoned = match self.made[index].one_layer {
                true if whole > 0.0 => layers.min(whole),
                true => layers,
                false => 1.0,
            };
            let written = self.setting.trays.or(self.made[index].trays);
            let step = &mut self.made[index].step;
            step.takes = written.unwrap_or(reckoned.max(1.0));
            step.estimated.takes = written.is_none();
        }
    }

    /// Raw meat, poultry, fish and egg reach their least temperature in the last heated step that they are in, where no step names one. What no
    /// step names is in all of them but those that heat plates or bread; what is only added off the heat reaches none. It is marked as estimated.
    pub(super) fn reach_inside(&mut self) {
        self.check_before_the_rest();
        if self.made.iter().any(|made| made.step.inside.is_some()) {
            return;
        }
        for food in 0..self.setting.ingredients.len() {
            let Some(least) = self.larder.kind(food).and_then(crate::foods::safety::least_inside) else { continue };
            let is_named = self.made.iter().any(|made| {
                made.foods.contains(&food)
                    || made.step.text.iter().any(|piece| matches!(piece, Piece::Ingredient { index, .. } if *index == food))
            });
            // An oven that is switched off, or keeps plates warm, brings nothing to its inside.
            let reaches = |made: &Made| made.step.temperature.is_none_or(|oven| oven.0 > least.0);
            let holds =
                |made: &&mut Made| made.heated && reaches(made) && if is_named { made.dish.contains(&food) } else { !made.of_another };
            if let Some(last) = self.made.iter_mut().rev().find(holds) {
                last.step.inside = Some(Celsius(last.step.inside.map_or(least.0, |inside| inside.0.max(least.0))));
                last.step.estimated.inside = true;
            }
        }
    }

    /// "Roast 50 minutes. Core 75 °C. Rest 15 minutes": what is off the heat gets no hotter, so it is of the step before.
    fn check_before_the_rest(&mut self) {
        for index in 1..self.made.len() {
            let [before, rest] = &mut self.made[index - 1..=index] else { continue };
            if rest.stands && rest.step.hands.0 == 0 && before.heated && before.step.inside.is_none() {
                before.step.inside = rest.step.inside.take();
            }
        }
    }

    /// Where only a part of a line was ever named, its last mention takes what is left, which is told.
    pub(super) fn unfinished(&mut self) -> Vec<(Spot, String)> {
        let mut doubts = Vec::new();
        for food in 0..self.setting.ingredients.len() {
            // "Serve with the remaining parsley."
            if !self.larder.is_divided(food) || self.is_at_table(food) {
                continue;
            }
            let pieces = self.made.iter_mut().flat_map(|made| made.step.text.iter_mut());
            let shares: Vec<&mut Piece> =
                pieces.filter(|piece| matches!(piece, Piece::Ingredient { index, share: Some(_) } if *index == food)).collect();
            let only = shares.len() == 1;
            let rest = self.larder.take(food, None).flatten();
            if let Some(Piece::Ingredient { share, .. }) = shares.into_iter().next_back() {
                *share = match (share.take(), rest) {
                    (Some(part), Some(rest)) if !only => {
                        Some(Amount { low: part.low + rest.low, high: part.high + rest.high, unit: part.unit })
                    }
                    _ => None,
                };
            }
            let line = &self.setting.ingredients[food];
            doubts.push((
                line.at.clone(),
                format!("the method names only a part of \"{}\"; the last step that names it takes the rest", line.text),
            ));
        }
        doubts
    }
}
