use jiff::civil::date;
use pretty_assertions::assert_eq;

use super::*;
use crate::measure::Minutes;
use crate::prep::testing::*;

/// The starts of what is done ahead of a session on Sunday 29 November at 14:00, whose other steps begin at these minutes.
fn told(steps: Vec<Step>, planned: &[(usize, &[i64])]) -> Vec<(usize, String)> {
    let mut kitchen = kitchen();
    kitchen.recipes = vec![recipe("mash", "Mash", 4.0, steps)];
    let rounds = |step| planned.iter().find(|(one, _)| *one == step).map_or(Vec::new(), |(_, starts)| starts.to_vec());
    let starts = starts(&kitchen, &making(&kitchen, 0, 1.0), date(2026, 11, 29).at(14, 0, 0, 0), &rounds);
    starts.into_iter().map(|(step, at)| (step, at.strftime("%a %H:%M").to_string())).collect()
}

fn ahead(hours: i64, hands: i64, wait: i64) -> Step {
    Step { ahead: Some(Minutes(hours * 60)), hands: Minutes(hands), wait: Minutes(wait), scales: false, ..step("Marinate.") }
}

fn then(gap: Option<i64>, within: Option<i64>) -> Step {
    Step { gap: gap.map(Minutes), within: within.map(Minutes), ..step("Roast.") }
}

#[test]
fn hands_at_night_begin_at_eight_of_the_evening_before() {
    let one = |ahead_minutes: i64, hands| {
        let soak = Step { ahead: Some(Minutes(ahead_minutes)), hands: Minutes(hands), scales: false, ..step("Soak.") };
        told(vec![soak, step("Boil.")], &[(1, &[0])])[0].1.clone()
    };
    // 12 h before 14:00 is 02:00; 16 h is 22:00; 7 h is 07:00; 16 h 10 min is 21:50.
    assert_eq!(one(12 * 60, 3), "Sat 20:00");
    assert_eq!(one(16 * 60, 3), "Sat 20:00");
    assert_eq!(one(7 * 60, 3), "Sun 07:00");
    assert_eq!(one(7 * 60 + 1, 3), "Sat 20:00");
    assert_eq!(one(970, 10), "Sat 21:50", "done at ten");
    assert_eq!(one(970, 11), "Sat 20:00");
    assert_eq!(one(12 * 60, 0), "Sun 02:00", "nobody's hands");
}

#[test]
fn within_keeps_a_step_at_night() {
    // 02:00 and 3 by hand; the next begins at 14:00, 11 h 57 min later. With 12 h it may not begin sooner than 01:57, with 18 h it may.
    assert_eq!(told(vec![ahead(12, 3, 0), then(None, Some(720))], &[(1, &[0])]), [(0, "Sun 02:00".to_owned())]);
    assert_eq!(told(vec![ahead(12, 3, 0), then(None, Some(1080))], &[(1, &[0])]), [(0, "Sat 20:00".to_owned())]);
}

#[test]
fn gap_moves_a_step_earlier_and_within_later() {
    // Ends at 12:03 or, 4 h before the next at 14:30, at 10:30: then it begins at 10:27.
    assert_eq!(told(vec![ahead(2, 3, 0), then(Some(240), None)], &[(1, &[30])]), [(0, "Sun 10:27".to_owned())]);
    // At most 2 h before 14:30: it ends at 12:30 and begins at 12:27.
    assert_eq!(told(vec![ahead(4, 3, 0), then(None, Some(120))], &[(1, &[30])]), [(0, "Sun 12:27".to_owned())]);
    // Its 10 minutes of waiting count: 12:17.
    assert_eq!(told(vec![ahead(4, 3, 10), then(None, Some(120))], &[(1, &[30])]), [(0, "Sun 12:17".to_owned())]);
    // Two rounds: the gap to the first, at 14:00; within to the last, at 15:00.
    assert_eq!(told(vec![ahead(2, 3, 0), then(Some(180), None)], &[(1, &[0, 60])]), [(0, "Sun 10:57".to_owned())]);
    assert_eq!(told(vec![ahead(4, 3, 0), then(None, Some(180))], &[(1, &[0, 60])]), [(0, "Sun 11:57".to_owned())]);
}

#[test]
fn what_comes_before_a_step_that_moves_moves_too() {
    // The second would begin at 02:00 and moves to Saturday 20:00; the first ends two hours before that, at 18:00.
    let steps = vec![ahead(14, 5, 0), Step { gap: Some(Minutes(120)), ..ahead(12, 3, 0) }, step("Roast.")];
    assert_eq!(told(steps, &[(2, &[0])]), [(0, "Sat 17:55".to_owned()), (1, "Sat 20:00".to_owned())]);
}

#[test]
fn hands_are_done_when_the_session_begins() {
    // The next begins an hour into the session and may wait half an hour: too late for hands that are done by 14:00.
    assert_eq!(told(vec![ahead(2, 3, 0), then(None, Some(30))], &[(1, &[60])]), [(0, "Sun 13:57".to_owned())]);
}

#[test]
fn what_moves_to_the_evening_leaves_the_step_before_it_its_wait() {
    // 15 h before is 23:00, with 5 min by hand and 6 h to rise; 8 h before is 06:00, which moves to Saturday 20:00. The dough has risen by
    // then where it is made at 13:55.
    let steps = vec![ahead(15, 5, 360), ahead(8, 5, 0), step("Bake.")];
    assert_eq!(told(steps, &[(2, &[0])]), [(0, "Sat 13:55".to_owned()), (1, "Sat 20:00".to_owned())]);
}

#[test]
fn a_clock_that_starts_at_nought_knows_no_night_but_gaps_and_limits() {
    let lead = |ahead_hours, gap, within| {
        let mut kitchen = kitchen();
        kitchen.recipes = vec![recipe("mash", "Mash", 4.0, vec![ahead(ahead_hours, 5, 0), then(gap, within)])];
        minutes(&kitchen, &making(&kitchen, 0, 1.0), None, &|_| vec![0])[0].1
    };
    // 12 h; a gap of 14 h and 5 min by hand; within 2 h and the same.
    assert_eq!(lead(12, None, None), -720);
    assert_eq!(lead(4, Some(840), None), -845);
    assert_eq!(lead(4, None, Some(120)), -125);
}
