//! Skills that the steps of a session ask for and that nobody in it has.

use std::collections::BTreeSet;

use super::elsewhere::as_found;
use crate::kitchen::{HEAT, Kitchen, Step, Warning, Week};
use crate::plan::{MadeAt, Makings};
use crate::words::{clock, day};

/// One warning a session, skill and recipe, at the first step that asks for it; the session is planned all the same, for anybody.
pub fn unskilled(kitchen: &Kitchen, week: &Week, makings: &Makings) -> Vec<Warning> {
    let mut warnings = Vec::new();
    for (index, session) in week.sessions.iter().enumerate().filter(|(_, session)| !session.people.is_empty()) {
        let found = as_found(kitchen, session);
        let kitchen = &*found;
        for making in makings.makings.iter().filter(|making| making.at == MadeAt::Session(index)) {
            let mut said: BTreeSet<&str> = BTreeSet::new();
            let steps = kitchen.recipes[making.recipe].steps.iter().filter(|step| step.ahead.is_none());
            for (step, skill) in steps.flat_map(|step| step.skills(&kitchen.appliances).map(move |skill| (step, skill))) {
                if !session.people.iter().any(|person| person.may_do(skill)) && said.insert(skill) {
                    let when = format!("{} {}", day(session.start.date()), clock(session.start));
                    let text = format!("nobody in the session of {when} may do \"{skill}\"; it is planned for anybody.");
                    warnings.push(Warning::Note { at: Some(spot(step, skill).clone()), text });
                }
            }
        }
    }
    warnings
}

/// Where the skill stands; what follows from the appliance stands with the step.
fn spot<'s>(step: &'s Step, skill: &str) -> &'s crate::kitchen::Spot {
    if skill == HEAT && step.skill.as_deref() != Some(HEAT) { &step.at } else { &step.skill_at }
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;

    use super::*;
    use crate::kitchen::ApplianceId;
    use crate::prep::testing::*;

    fn told(may: &[&str], steps: Vec<Step>) -> Vec<String> {
        let mut kitchen = kitchen();
        kitchen.appliances = vec![appliance("hob", 4, false), appliance("fridge", 1, false)];
        kitchen.recipes = vec![recipe("slaw", "Slaw", 4.0, steps)];
        let mut week = week();
        let may = Some(may.iter().map(|skill| (*skill).to_owned()).collect());
        week.sessions[0].people = vec![crate::kitchen::Person { may, ..person("Jo", "helper") }];
        let made = makings(vec![making(&kitchen, 0, 1.0)]);
        unskilled(&kitchen, &week, &made).iter().map(|warning| warning.words()).collect()
    }

    #[test]
    fn what_heats_wants_somebody_who_may_heat() {
        let on = |appliance| Step { on: vec![ApplianceId(appliance)], ..step("Warm.") };
        let nobody = "nobody in the session of Sun 29 Nov 14:00 may do \"heat\"; it is planned for anybody.";
        assert_eq!(told(&["wash"], vec![on(0), on(0)]), [nobody]);
        assert_eq!(told(&["wash", "Heat "], vec![on(0)]), [""; 0]);
        assert_eq!(told(&["wash"], vec![on(1)]), [""; 0], "a fridge does not heat");
    }

    #[test]
    fn a_skill_of_a_step_done_ahead_is_nobody_s_in_the_session() {
        let soak = Step { skill: Some("soak".into()), ahead: Some(crate::measure::Minutes(720)), ..step("Soak.") };
        assert_eq!(told(&["wash"], vec![soak]), [""; 0]);
    }
}
