//! The goods-in sheet: what a trip is about to bring, as a small TOML file, and what a person made of it.

use std::fmt::Write;

use jiff::civil::Date;

use super::booked::Booked;
use super::goods::{Goods, text_of};
use super::keys::line_key;
use super::receive::{also, as_listed};
use super::record::Exact;
use super::typed::NotTaken;
use crate::foods::Foods;
use crate::kitchen::{GoodsForm, GoodsLine, Kitchen, Mistake, Rules, ShopId};
use crate::measure::{InPacks, read_quantity};
use crate::purchase::{Packed, TripBuys};
use crate::words::listed;

/// The text of the sheet. `not_booked` is said in remarks.
pub fn goods_form(kitchen: &Kitchen, week: (&str, Date), trip: Date, goods: &[Goods], not_booked: &[String]) -> String {
    let (name, from) = week;
    let mut text = format!(
        "# {}: what is about to be booked, the trip of {trip}.\n\
         #\n\
         # packs = \"2 x 150 g\"   what was bought; of several sizes a list: [\"1 kg\", \"2 x 400 g\"]\n\
         # paid = \"4.50\"         what it cost in all, where it was not as listed; it goes into shops.toml\n\
         # until = 2026-12-04    the date on the pack\n\
         # without = true        it was not bought; a line taken out stays open, for another sheet\n\
         #\n\
         # Then: spence receive FILE\n\n\
         from = {from}\ntrip = {trip}\n",
        name.replace(['\n', '\r'], " ")
    );
    let others: Vec<&str> = goods.iter().filter_map(|bought| bought.also.as_deref()).collect();
    let others: Vec<String> = others.into_iter().map(quoted).collect();
    let _ = writeln!(text, "also = [{}]   # what is not on the list: [\"1 kg onions at 1.20\"]", others.join(", "));
    for bought in goods.iter().filter(|bought| bought.also.is_none()) {
        text.push_str(&line(kitchen, bought));
    }
    for line in not_booked {
        let _ = write!(text, "\n# Not booked: {}\n", line.replace(['\n', '\r'], " "));
    }
    text
}

/// What was bought of it, one text a size, as the sheet has it: "2 x 150 g".
pub fn packs_of_goods(rules: &Rules, bought: &Goods) -> Vec<String> {
    (0..bought.amounts.len()).map(|index| pack_text(rules, bought, index)).collect()
}

fn quoted(text: &str) -> String {
    toml_edit::Value::from(text).to_string()
}

fn line(kitchen: &Kitchen, bought: &Goods) -> String {
    let packs: Vec<String> = (0..bought.amounts.len()).map(|index| quoted(&pack_text(&kitchen.rules, bought, index))).collect();
    let packs = if let [one] = packs.as_slice() { one.clone() } else { format!("[{}]", packs.join(", ")) };
    let cost = bought.cost.map(|cost| cost.decimal(&kitchen.household.currency));
    let paid = cost.clone().filter(|_| bought.paid).unwrap_or_default();
    let listed = cost.filter(|_| !bought.paid).map(|cost| format!("   # listed: {cost}")).unwrap_or_default();
    let until = bought.until.map_or_else(|| "\"\"".to_owned(), |until| until.to_string());
    let food = quoted(&kitchen.foods[bought.food].name);
    format!("\n[[line]]\nfood = {food}\npacks = {packs}\npaid = {}{listed}\nuntil = {until}\n", quoted(&paid))
}

/// "2 x 150 g", where that reads back as what it is, else the plain amount.
fn pack_text(rules: &Rules, bought: &Goods, index: usize) -> String {
    let lies = &bought.amounts[index];
    let text = bought.packs.get(index).and_then(|pack| match pack {
        Packed::Packs { count: 1, label, .. } => Some(label.clone()),
        Packed::Packs { count, label, .. } => Some(format!("{count} x {label}")),
        Packed::Loose(_) => None,
    });
    let amount = Exact::of(&lies.amount);
    let reads_back = |text: &String| read_quantity(text, rules.spoons).is_ok_and(|read| Exact::of(&read) == amount);
    text.filter(reads_back).unwrap_or_else(|| text_of(lies))
}

/// What a sheet settles of its trip.
pub struct Settled {
    /// The lines, as the book names them; `None` where all of the trip's are settled.
    pub lines: Option<Vec<String>>,
    /// Foods that were booked before, and are left out.
    pub already: Vec<String>,
}

/// Lays a filled-in sheet over the open goods of its trip. A line that the sheet does not have stays open. What is booked already is left
/// out and named: nothing is booked twice.
///
/// # Errors
/// Lines that name nothing on the list, a sheet of which all is booked, and what cannot be read, at their places in the sheet: all of it at
/// once.
pub fn fill(kitchen: &Kitchen, goods: &mut Vec<Goods>, form: &GoodsForm, of: &TripBuys, booked: &Booked) -> Result<Settled, Vec<Mistake>> {
    let trip = (of.on, of.nth);
    let lines = lines_of(&kitchen.foods, goods, form);
    let is_booked = |line: &&GoodsLine| (0..form.lines.len()).any(|nth| booked.has_line(trip, &line.food, nth));
    let unmatched = || form.lines.iter().enumerate().filter(|(index, _)| !lines.contains(&Some(*index)));
    let already: Vec<String> = unmatched().map(|(_, line)| line).filter(is_booked).map(|line| line.food.clone()).collect();
    let mut mistakes: Vec<Mistake> = booked_before(form, &already).into_iter().collect();
    for (index, line) in unmatched().filter(|(_, line)| !is_booked(line)) {
        let again = if form.lines[..index].iter().any(|other| other.food == line.food) { " once more" } else { "" };
        mistakes.push(Mistake {
            at: line.at.clone(),
            cause: format!("{} is not among what this trip buys{again}", line.food),
            remedy: "Take the line out and write it into also: also = [\"1 kg onions at 1.20\"].".to_owned(),
        });
    }
    let found: Vec<Goods> = std::mem::take(goods);
    let (mut settled, mut stays_open) = (Vec::new(), false);
    for (mut bought, line) in found.into_iter().zip(lines) {
        match line {
            Some(_) => settled.push(line_key(trip, &kitchen.foods[bought.food].name, bought.nth)),
            None => stays_open = true,
        }
        if let Some(line) = line.map(|line| &form.lines[line]).filter(|line| !line.without) {
            mistakes.extend(lay_over(kitchen, &of.shops, &mut bought, line).err());
            goods.push(bought);
        }
    }
    for (text, at) in &form.also {
        match also(kitchen, text) {
            Ok(bought) => goods.push(bought),
            Err(NotTaken { cause, remedy }) => mistakes.push(Mistake { at: at.clone(), cause, remedy }),
        }
    }
    if mistakes.is_empty() { Ok(Settled { lines: stays_open.then_some(settled), already }) } else { Err(mistakes) }
}

/// What is wrong with a sheet whose lines are booked already: all of them, or some beside an `also` that may be booked as well.
fn booked_before(form: &GoodsForm, already: &[String]) -> Option<Mistake> {
    let first = form.lines.iter().find(|line| already.contains(&line.food))?;
    let are = if already.len() == 1 { "is" } else { "are" };
    let cause = format!("{} {are} booked already", listed(already));
    if already.len() == form.lines.len() {
        let remedy = "Nothing of it is left to book; copy what is still open.".to_owned();
        return Some(Mistake { at: first.at.clone(), cause, remedy });
    }
    let (_, at) = form.also.first()?;
    let remedy = "Take out of also what came with them, and those lines, too.".to_owned();
    Some(Mistake { at: at.clone(), cause: format!("{cause}, and what stands in also may be"), remedy })
}

/// The line of each of the goods: a food that the list has twice has two lines, in its order.
fn lines_of(foods: &Foods, goods: &[Goods], form: &GoodsForm) -> Vec<Option<usize>> {
    let mut free: Vec<bool> = vec![true; form.lines.len()];
    let line_of = |bought: &Goods| {
        let line = (0..free.len()).find(|&line| free[line] && form.lines[line].food == foods[bought.food].name);
        line.inspect(|&line| free[line] = false)
    };
    goods.iter().map(line_of).collect()
}

fn lay_over(kitchen: &Kitchen, shops: &[ShopId], bought: &mut Goods, line: &GoodsLine) -> Result<(), Mistake> {
    let packs: Vec<InPacks> = line.instead.clone().map_or_else(|| line.packs.clone(), |instead| vec![instead]);
    let exact = |amounts: &[InPacks]| amounts.iter().map(|lies| Exact::of(&lies.amount)).collect::<Vec<_>>();
    if !packs.is_empty() && exact(&packs) != exact(&bought.amounts) {
        let packs = packs.into_iter().map(|lies| as_listed(kitchen, bought, lies)).collect::<Result<_, _>>();
        let packs = packs.map_err(|NotTaken { cause, remedy }| Mistake { at: line.at.clone(), cause, remedy })?;
        bought.replaced_by(kitchen, shops, packs);
    }
    if let Some(cost) = line.paid {
        bought.paid(cost);
    }
    bought.until = line.until.or(bought.until);
    Ok(())
}
