//! What each step comes after: the one before it, or with "meanwhile" what that came after.

use super::{Branch, Gather};
use crate::kitchen::After;

impl Gather<'_, '_> {
    /// What the step that is about to be made comes after. "Meanwhile" begins beside the step before; what follows comes after both.
    pub(super) fn after(&mut self) -> Option<Vec<After>> {
        let index = self.made.len();
        let before = match self.branch {
            Branch::Begins => {
                self.branch = Branch::GoesOn;
                self.base.clone()
            }
            Branch::GoesOn => return None,
            Branch::None if self.open.is_empty() => return None,
            Branch::None => std::mem::take(&mut self.open),
        };
        if before == [index.wrapping_sub(1)] {
            return None;
        }
        Some(before.into_iter().map(After::Step).collect())
    }

    pub(super) fn begin_branch(&mut self) {
        let Some(last) = self.made.len().checked_sub(1) else { return };
        if self.open.is_empty() {
            self.base = match &self.made[last].step.after {
                Some(after) => after.iter().filter_map(|one| if let After::Step(step) = one { Some(*step) } else { None }).collect(),
                None => last.checked_sub(1).into_iter().collect(),
            };
            self.open.push(last);
        }
        self.branch = Branch::Begins;
    }

    pub(super) fn end_branch(&mut self) {
        match self.branch {
            Branch::GoesOn => self.open.push(self.made.len() - 1),
            Branch::Begins if self.open.len() == 1 => self.open.clear(),
            _ => {}
        }
        self.branch = Branch::None;
    }
}
