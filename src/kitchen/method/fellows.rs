//! Several lines of one food: "50 g butter" and "30 g butter". Each mention takes the next of them, and the last one all that are left.

use crate::kitchen::{Ingredient, Piece, Step, Wanted};

/// Puts the lines that no step names beside the last mention of their own food, but for those `served` at the table. What is to taste has no
/// amount to be found.
pub fn name_fellows<'s>(steps: impl Iterator<Item = &'s mut Step>, ingredients: &[Ingredient], served: &[usize]) {
    let mut texts: Vec<&mut Vec<Piece>> = steps.map(|step| &mut step.text).collect();
    let named = |piece: &Piece| if let Piece::Ingredient { index, .. } = piece { Some(*index) } else { None };
    for (index, line) in ingredients.iter().enumerate() {
        let Wanted::Food { food, item: Some(_) } = &line.wanted else { continue };
        let is_fellow = |other: usize| matches!(&ingredients[other].wanted, Wanted::Food { food: same, .. } if same == food);
        if served.contains(&index) || texts.iter().any(|text| text.iter().filter_map(named).any(|other| other == index)) {
            continue;
        }
        let last = texts.iter_mut().rev().find_map(|text| {
            let at = text.iter().rposition(|piece| named(piece).is_some_and(is_fellow))?;
            Some((text, at))
        });
        if let Some((text, at)) = last {
            text.insert(at + 1, Piece::Words(" and ".to_owned()));
            text.insert(at + 2, Piece::Ingredient { index, share: None });
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::tests::{foods, read};
    use pretty_assertions::assert_eq;

    #[test]
    fn the_last_mention_of_a_food_takes_all_lines_of_it_that_are_left() {
        let lines = ["50 g butter", "30 g butter", "20 g butter", "1 onion", "1 onion, sliced", "salt"];
        let once = read(&lines, &["Fry the onion in the butter for 5 minutes."]);
        // The sliced onion has a step before it.
        assert_eq!(foods(&lines, &once)[1], ["1 onion", "1 onion, sliced", "50 g butter", "30 g butter", "20 g butter"]);
        let twice = read(&lines, &["Melt the butter.", "Fry the onion in the butter for 5 minutes."]);
        assert_eq!(foods(&lines, &twice)[0][0], "50 g butter");
        assert_eq!(
            foods(&lines, &twice).last().map(|last| last[last.len() - 2..].to_vec()),
            Some(vec!["30 g butter".to_owned(), "20 g butter".to_owned()])
        );
        // What is for the table stays for it.
        let lines = ["50 g butter", "30 g butter", "1 onion"];
        let served = read(&lines, &["Fry the onion in the butter for 5 minutes. Serve with the butter."]);
        assert_eq!(foods(&lines, &served), [["1 onion", "50 g butter"]]);
    }
}
