//! What the list says in words, alike on a terminal, on paper and in JSON.

use jiff::civil::Date;

use crate::foods::Allergen;
use crate::kitchen::asked::Asked;
use crate::kitchen::much::{called, for_whom, how_much};
use crate::kitchen::{BatchCut, Names, Ware};
use crate::measure::{Currency, Number, Quantity, Units, show};
use crate::plan::Move;
use crate::purchase::{
    Beware, DayNote, Figure, Lacking, ListLine, OfferTaken, PackCount, Packed, PerEater, PortionNote, SaveBy, TripList, Untimely, Windows,
    Without,
};
use crate::words::{counted, in_a_sentence, listed, plural};

/// "3 for 2.00".
pub fn offer(taken: &OfferTaken, currency: &Currency) -> String {
    format!("{} for {}", taken.offer.buy, taken.offer.pay.decimal(currency))
}

/// Units by which a pack is told from what is sold by its name: "1 × 1 kg", but "1 bunch".
const MEASURES: [&str; 8] = ["g", "kg", "ml", "cl", "dl", "l", "oz", "lb"];

/// "2 × 400 g", "1 kg loose", "1 × 6 pieces", "1 bunch", "1 pack of 4 × 400 g"; of what is sold one by one the number alone, "4".
pub fn pack(pack: &Packed, units: Units) -> String {
    let (count, label) = match pack {
        Packed::Loose(much) => return format!("{} loose", show(much, units)),
        Packed::Packs { count, size, single, .. } if single != size && !single.is_zero() => {
            let singles = (size.exact() / single.exact()).round();
            return format!("{} of {singles} × {}", counted(*count as usize, "pack"), show(single, units));
        }
        Packed::Packs { count, label, .. } => (*count, label.as_str()),
    };
    if label == "1" {
        return count.to_string();
    }
    let pieces = !label.is_empty() && label.chars().all(|c| c.is_ascii_digit());
    let size = if pieces { format!("{label} pieces") } else { label.to_owned() };
    let one_by_name = count == 1 && label.strip_prefix("1 ").is_some_and(|word| !MEASURES.contains(&word));
    if one_by_name { size } else { format!("{count} × {size}") }
}

/// What a line buys: "1 × 500 g + 2 × 150 g". Nothing where no pack is known.
pub fn bought(line: &ListLine, units: Units) -> String {
    packs(line.packs.iter().map(|pack| &pack.what), units).join(" + ")
}

/// Each of the packs that are bought of one food as [`pack`] tells it; what is sold one by one beside packs of several as its pieces,
/// "1 × 6 pieces" and "2 pieces".
pub fn packs<'p>(packs: impl IntoIterator<Item = &'p Packed>, units: Units) -> Vec<String> {
    let packs: Vec<&Packed> = packs.into_iter().collect();
    let told = |one: &&Packed| match one {
        Packed::Packs { count, label, .. } if label == "1" && packs.len() > 1 => counted(*count as usize, "piece"),
        _ => pack(one, units),
    };
    packs.iter().map(told).collect()
}

/// "830 g, about 8", "2 limes": what is needed, without the name; in the lines' own measure where no pack is known. Nothing where it is
/// only "to taste".
pub fn need(line: &ListLine, names: Names, units: Units) -> Option<String> {
    if line.need.is_zero() {
        return None;
    }
    let much = how_much(names, Ware::Food(line.food), &line.need, units);
    // What is told in pieces has been counted.
    let about = about(line).filter(|_| line.about.is_none_or(|pieces| much != pieces.to_string()));
    let plain = || about.map_or_else(|| much.clone(), |about| format!("{much}, {about}"));
    Some(own_measure(line, names, units).unwrap_or_else(plain))
}

/// "2", "1 tin (400 g)": of a line without packs, in its own measure.
fn own_measure(line: &ListLine, names: Names, units: Units) -> Option<String> {
    let asked = line.asked.as_ref().filter(|_| line.packs.is_empty() && line.own_words.is_empty())?;
    let food = names.facts(line.food);
    match counted_by_name(&food.name, asked) {
        Some(number) => Some(show(&Quantity::Count(number.clone()), units)),
        None => asked.text(food.kind, units),
    }
}

/// Two leaves of "bay leaf" are two bay leaves.
fn counted_by_name<'a>(name: &str, asked: &'a Asked) -> Option<&'a Number> {
    let Quantity::Words(number, word) = &asked.much else { return None };
    name.strip_suffix(word.as_str()).filter(|rest| rest.ends_with(' ')).map(|_| number)
}

/// The name beside that amount.
pub fn named(line: &ListLine, names: Names, units: Units) -> String {
    const OF_MANY: [&str; 6] = ["bunch", "handful", "bag", "punnet", "pack", "packet"];
    let asked = line.asked.as_ref().filter(|_| own_measure(line, names, units).is_some());
    match asked.map(|asked| &asked.much) {
        Some(Quantity::Words(number, word)) if names.food(line.food).ends_with(&format!(" {word}")) && *number > 1 => {
            plural(names.food(line.food))
        }
        Some(Quantity::Words(_, word)) if OF_MANY.contains(&word.as_str()) => called(names, Ware::Food(line.food), &line.need),
        Some(much @ (Quantity::Count(_) | Quantity::Words(..))) => called(names, Ware::Food(line.food), much),
        // Bought beside the list: nobody needed it.
        _ if line.need.is_zero() && line.own_words.is_empty() => called(names, Ware::Food(line.food), &line.left),
        _ => called(names, Ware::Food(line.food), &line.need),
    }
}

/// "about 8".
pub fn about(line: &ListLine) -> Option<String> {
    line.about.map(|pieces| format!("about {pieces}"))
}

/// Above what may not be eaten any more.
pub const PAST_ITS_DATE: &str = "Past its date: look, then throw away or book it";

/// What every use of a line is.
pub const OPTIONAL: &str = "optional";

/// "or 2 shallots".
pub fn instead(line: &ListLine) -> Option<String> {
    (!line.instead.is_empty()).then(|| format!("or {}", line.instead.join(", ")))
}

/// "the last 3.5 g (4 %) cost 1.65".
pub fn without(without: &Without, names: Names, units: Units) -> String {
    let share = match (100.0 * without.share).round() {
        under if under < 1.0 => "under 1 %".to_owned(),
        share => format!("{share} %"),
    };
    format!("the last {} ({share}) cost {}", show(&without.short, units), names.money(without.saves))
}

/// The recipes and meals a line is for, and "staple" where it fills up the shelf: for scripts.
pub fn purposes(line: &ListLine) -> Vec<&str> {
    const STAPLE: &str = "staple";
    let mut all: Vec<&str> = line.what_for.iter().map(String::as_str).collect();
    if line.top_up && !all.contains(&STAPLE) {
        all.push(STAPLE);
    }
    all
}

/// "for White-bean mash, Soup; restock".
pub fn reasons(line: &ListLine) -> Option<String> {
    let what_for = (!line.what_for.is_empty()).then(|| format!("for {}", line.what_for.join(", ")));
    let said: Vec<String> = what_for.into_iter().chain(line.top_up.then(|| RESTOCK.to_owned())).collect();
    (!said.is_empty()).then(|| said.join("; "))
}

/// What fills up the shelf.
pub const RESTOCK: &str = "restock";

/// "one for Sunday, one for Friday"; with several sizes "one 400 g for Sunday".
pub fn windows(windows: &Windows) -> String {
    let packs = |packs: &[PackCount]| {
        let said = packs.iter().map(|pack| {
            let number = number(pack.count);
            if windows.several { format!("{number} {}", pack.label) } else { number }
        });
        said.collect::<Vec<_>>().join(" and ")
    };
    let days: Vec<Date> = windows.openings.iter().filter_map(|opening| opening.on).collect();
    let opened = windows.openings.iter().map(|opening| format!("{} for {}", packs(&opening.packs), occasion(opening.on, &days)));
    let over = (!windows.over.is_empty()).then(|| format!("{} over", packs(&windows.over)));
    opened.chain(over).collect::<Vec<_>>().join(", ")
}

/// The weekday, with its date where two windows begin on the same weekday.
fn occasion(on: Option<Date>, days: &[Date]) -> String {
    let Some(on) = on else { return "the shelf".to_owned() };
    let clash = days.iter().any(|other| *other != on && other.weekday() == on.weekday());
    on.strftime(if clash { "%A %-d %b" } else { "%A" }).to_string()
}

fn number(count: u32) -> String {
    const WORDS: [&str; 12] = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
    let word = count.checked_sub(1).and_then(|index| WORDS.get(index as usize));
    word.map_or_else(|| count.to_string(), |word| (*word).to_owned())
}

/// "contains sesame", "may contain sesame: allergens not known".
pub fn beware(beware: &Beware) -> String {
    let names = |allergens: &[Allergen]| allergens.iter().map(|one| one.name()).collect::<Vec<_>>().join(", ");
    match beware {
        Beware::Holds(words) => format!("contains {}", words.join(", ")),
        Beware::Contains(allergens) => format!("contains {}", names(allergens)),
        Beware::MayContain(allergens) => format!("may contain {}: allergens not known", names(allergens)),
    }
}

/// What the planned meals of a day give of what is wanted of it: "at least 1450 of 2000 kcal", "40 of 50 g protein".
pub fn of_a_day(note: &DayNote) -> Vec<String> {
    let least = if note.got.at_least { "at least " } else { "" };
    let of = |got: f64, wanted: Option<f64>, unit: &str| wanted.map(|wanted| format!("{least}{got:.0} of {wanted:.0} {unit}"));
    let got = &note.got;
    let said = [
        of(got.kcal, note.of.kcal, "kcal"),
        of(got.protein_g, note.of.protein_g, "g protein"),
        of(got.fibre_g, note.of.fibre_g, "g fibre"),
    ];
    said.into_iter().flatten().collect()
}

/// "bought 5 days before it is used; keeps 3 days".
pub fn untimely(why: &Untimely) -> String {
    let days = |days: i64| format!("{days} {}", if days == 1 { "day" } else { "days" });
    match why {
        Untimely::TooEarly { before, keeps } => format!("bought {} before it is used; keeps {}", days(before.0), days(keeps.0)),
        Untimely::TooLate { needed, bought } => format!("needed on {needed}, before the trip on {bought} that buys it"),
    }
}

/// "feta: fibre, price".
pub fn lacking(lacking: &Lacking, names: Names) -> String {
    let figures: Vec<&str> = lacking.figures.iter().map(|figure| figure_word(*figure)).collect();
    format!("{}: {}", names.food(lacking.food), figures.join(", "))
}

/// "without rosemary (energy), feta (fibre, price)"; nothing where all is known.
pub fn not_in_the_sum(missing: &[Lacking], names: Names) -> String {
    let of = |lacking: &Lacking| {
        let figures: Vec<&str> = lacking.figures.iter().map(|figure| figure_word(*figure)).collect();
        format!("{} ({})", names.food(lacking.food), figures.join(", "))
    };
    let foods: Vec<String> = missing.iter().map(of).collect();
    if foods.is_empty() { String::new() } else { format!("without {}", foods.join(", ")) }
}

/// What a trip costs, "8.14 EUR"; "no price known" where none is.
pub fn trip_cost(trip: &TripList, names: Names) -> String {
    let mut lines = trip.lines().peekable();
    let none_known = lines.peek().is_some() && lines.all(|line| line.cost.is_none());
    if none_known { "no price known".to_owned() } else { format!("{} {}", names.money(trip.cost), names.currency) }
}

/// Of a booked trip: "Printed, and not booked as bought: dill and mint."
pub fn not_booked(trip: &TripList, names: Names) -> Option<String> {
    let foods: Vec<String> = trip.not_booked.iter().map(|food| names.food(*food).to_owned()).collect();
    (!foods.is_empty()).then(|| format!("Printed, and not booked as bought: {}.", listed(&foods)))
}

/// Energy, protein, fibre, cost: "at least 520 kcal", "21 g protein". A question mark: nothing is known.
pub fn in_figures(per: &PerEater, missing: &[Lacking], names: Names) -> [String; 4] {
    let said = |figure: Figure, value: Option<String>| match value {
        Some(value) if per.is_partial(figure, missing) => format!("at least {value}"),
        Some(value) => value,
        None => "?".to_owned(),
    };
    let whole = |value: Option<f64>| value.map(|value| format!("{value:.0}"));
    [
        said(Figure::Energy, whole(per.kcal)) + " kcal",
        said(Figure::Protein, whole(per.protein_g)) + " g protein",
        said(Figure::Fibre, whole(per.fibre_g)) + " g fibre",
        said(Figure::Price, per.cost.map(|cost| format!("{} {}", names.money(cost), names.currency))),
    ]
}

/// "at least 430 kcal, 21 g protein, 9 g fibre, without rosemary (energy)": a portion without its price.
pub fn nourishes(note: &PortionNote, names: Names) -> String {
    let told = |lacking: &Lacking| {
        let figures: Vec<Figure> = lacking.figures.iter().copied().filter(|figure| *figure != Figure::Price).collect();
        (!figures.is_empty()).then_some(Lacking { food: lacking.food, figures })
    };
    let missing: Vec<Lacking> = note.missing.iter().filter_map(told).collect();
    let [kcal, protein, fibre, _] = in_figures(&note.per, &missing, names);
    let without = Some(not_in_the_sum(&missing, names)).filter(|words| !words.is_empty());
    [kcal, protein, fibre].into_iter().chain(without).collect::<Vec<_>>().join(", ")
}

fn figure_word(figure: Figure) -> &'static str {
    match figure {
        Figure::Weight => "weight",
        Figure::Energy => "energy",
        Figure::Protein => "protein",
        Figure::Fibre => "fibre",
        Figure::Price => "price",
    }
}

/// "leave out \"2 lemons\" at Thu supper".
pub fn save_by(by: &SaveBy, names: Names) -> String {
    match by {
        SaveBy::CheapestPacks(food) => format!("buy the cheapest packs of {}", names.food(*food)),
        SaveBy::LeavingOutShop(shop) => format!("leave out {}", names.shop(*shop)),
        SaveBy::FinerBatches { recipe, to } => {
            let cut = match to {
                BatchCut::Whole => "whole batches",
                BatchCut::Halves => "half batches",
                BatchCut::Any => "batches of any size",
            };
            format!("make {} in {cut}", names.recipe(*recipe))
        }
        SaveBy::LeavingOutLine { line, for_each, meal } => {
            let each = if *for_each { " for each" } else { "" };
            format!("leave out \"{line}\"{each} at {meal}")
        }
    }
}

/// Of what was to be moved before today, and is taken as moved.
pub const NOW: &str = " now, or heat it from frozen, if it was not moved before";

/// "Move 3 portions of pearl barley from the freezer to the fridge".
pub fn moved(moved: &Move, names: Names, units: Units) -> String {
    let amount = show(&moved.amount, units);
    let much = match &moved.amount {
        Quantity::Count(n) => format!("{amount} {}", if *n > 1 { "pieces" } else { "piece" }),
        _ => amount,
    };
    let now = if moved.late { NOW } else { "" };
    let dish = in_a_sentence(names.recipe(moved.recipe)) + &for_whom(names, moved.whose.as_ref());
    let gap = if moved.whose.is_some() { "," } else { "" };
    format!("Move {much} of {dish}{gap} from the freezer to the fridge{now}")
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;
    use pretty_assertions::assert_eq;

    use super::*;
    use crate::foods::{Food, FoodId};
    use crate::kitchen::fixture::{empty_kitchen, recipe};
    use crate::kitchen::{Offer, RecipeId};
    use crate::measure::{Days, Dimension, Money};
    use crate::purchase::Opening;

    #[test]
    fn a_flag_says_both_figures() {
        let early = |before, keeps| untimely(&Untimely::TooEarly { before: Days(before), keeps: Days(keeps) });
        assert_eq!(early(5, 3), "bought 5 days before it is used; keeps 3 days");
        assert_eq!(early(4, 1), "bought 4 days before it is used; keeps 1 day");
        let late = Untimely::TooLate { needed: date(2026, 11, 27), bought: date(2026, 11, 28) };
        assert_eq!(untimely(&late), "needed on 2026-11-27, before the trip on 2026-11-28 that buys it");
    }

    #[test]
    fn what_is_sold_one_by_one_is_told_by_its_number() {
        let lemons = |count: u32, label: &str| {
            let one = Quantity::of(&Dimension::Count, 1);
            pack(&Packed::Packs { count, size: one.clone(), single: one, label: label.to_owned() }, Units::Metric)
        };
        assert_eq!(
            (lemons(4, "1"), lemons(2, "3"), lemons(1, "1 bunch")),
            ("4".to_owned(), "2 × 3 pieces".to_owned(), "1 bunch".to_owned())
        );
    }

    #[test]
    fn a_pack_of_several_says_how_many_are_in_it() {
        let tins =
            |count| Packed::Packs { count, size: Quantity::grams(1600), single: Quantity::grams(400), label: "4 x 400 g".to_owned() };
        assert_eq!(pack(&tins(1), Units::Metric), "1 pack of 4 × 400 g");
        assert_eq!(pack(&tins(2), Units::Metric), "2 packs of 4 × 400 g");
    }

    #[test]
    fn pieces_beside_packs_of_several_are_told_as_pieces() {
        let one = || Quantity::of(&Dimension::Count, 1);
        let some = |count: u32, label: &str| Packed::Packs { count, size: one(), single: one(), label: label.to_owned() };
        let told = |lines: &[Packed]| packs(lines, Units::Metric).join(" + ");
        assert_eq!(told(&[some(1, "6"), some(2, "1")]), "1 × 6 pieces + 2 pieces");
        assert_eq!(told(&[some(2, "3"), some(1, "1")]), "2 × 3 pieces + 1 piece");
        assert_eq!(told(&[some(4, "1")]), "4");
    }

    #[test]
    fn an_offer_is_told_as_a_shop_writes_it() {
        let taken = OfferTaken { offer: Offer { buy: 3, pay: Money(200) }, times: 2 };
        assert_eq!(offer(&taken, &empty_kitchen().household.currency), "3 for 2.00");
    }

    #[test]
    fn the_last_of_a_line_is_told_with_its_share_and_price() {
        let kitchen = empty_kitchen();
        let last = |share| without(&Without { short: Quantity::grams(3.5), share, saves: Money(165) }, kitchen.names(), Units::Metric);
        assert_eq!(last(0.04), "the last 3.5 g (4 %) cost 1.65");
        assert_eq!(last(0.0), "the last 3.5 g (under 1 %) cost 1.65");
    }

    #[test]
    fn packs_of_several_sizes_are_told_by_size_and_days_of_one_name_by_date() {
        let packs = |count, label: &str| vec![PackCount { count, label: label.to_owned() }];
        let opening = |day, packs| Opening { on: Some(date(2026, 12, day)), packs };
        let two = |second| Windows {
            openings: vec![opening(1, packs(1, "400 g")), opening(second, packs(13, "200 g"))],
            over: packs(1, "200 g"),
            several: true,
        };
        assert_eq!(windows(&two(5)), "one 400 g for Tuesday, 13 200 g for Saturday, one 200 g over");
        assert_eq!(windows(&two(8)), "one 400 g for Tuesday 1 Dec, 13 200 g for Tuesday 8 Dec, one 200 g over");
    }

    #[test]
    fn what_is_missing_and_what_would_save_are_told_by_name() {
        let mut kitchen = empty_kitchen();
        kitchen.foods = [Food { name: "moonleaf".to_owned(), ..Food::default() }].into_iter().collect();
        kitchen.recipes = vec![recipe("mash")];
        let names = kitchen.names();
        let figures = vec![Figure::Fibre, Figure::Price];
        assert_eq!(lacking(&Lacking { food: FoodId(0), figures }, names), "moonleaf: fibre, price");
        let finer = SaveBy::FinerBatches { recipe: RecipeId(0), to: BatchCut::Halves };
        assert_eq!(save_by(&finer, names), "make mash in half batches");
        let line = SaveBy::LeavingOutLine { line: "1 lemon".to_owned(), for_each: true, meal: "Thu supper".to_owned() };
        assert_eq!(save_by(&line, names), "leave out \"1 lemon\" for each at Thu supper");
    }
}
