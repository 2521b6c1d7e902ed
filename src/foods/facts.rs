//! The facts that a conversion used, in the order of their use, so that a person can check it.

/// One figure and where it comes from: `cup, chopped`, `160 g`, `USDA SR 11282`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UsedFact {
    pub fact: String,
    pub value: String,
    pub source: String,
}

/// Where a conversion notes its facts, or does not, where nobody asks.
pub(super) struct Notes<'a>(pub Option<&'a mut Vec<UsedFact>>);

impl Notes<'_> {
    /// `write` gives fact, value and source; it is called only where somebody asks.
    pub fn note(&mut self, write: impl FnOnce() -> (String, String, String)) {
        if let Some(facts) = &mut self.0 {
            let (fact, value, source) = write();
            let used = UsedFact { fact, value, source };
            if !facts.contains(&used) {
                facts.push(used);
            }
        }
    }
}
