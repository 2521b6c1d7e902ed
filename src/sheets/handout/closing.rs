//! Cautions, allergens of every dish, sources of recipes, and where figures come from.

use crate::plan::Contains;
use crate::prep::Care;
use crate::words::sentence;

use super::Book;
use crate::sheets::cares::by_source;
use crate::sheets::flow::{Block, under_headings};
use crate::sheets::frame::headed;
use crate::sheets::page::Page;
use crate::sheets::recipes::source_words;
use crate::sheets::text::{Setter, Span, plain, strong};

const TITLE: &str = "Cautions and sources";

impl Book<'_> {
    pub(super) fn closing(&self, setter: &mut Setter) -> Vec<Page> {
        let begun = headed(setter, self.settings, &self.head(TITLE, Vec::new()), "");
        let (kind, width) = (self.kind, self.width(self.count()));
        let mut blocks: Vec<Block> = Vec::new();
        for (title, notes) in [
            ("Cautions", self.cautions()),
            ("Allergens of every dish", self.allergens()),
            ("Sources of recipes", self.sources()),
            ("Where figures come from", self.told.origins.iter().map(|origin| vec![plain(origin.words())]).collect()),
        ] {
            let mut group = self.group(setter, title, &notes, kind.note, width);
            if let Some(first) = group.first_mut() {
                first.bookmark = Some(title.to_owned());
            }
            blocks.extend(group);
        }
        under_headings(&mut blocks);
        self.on_pages(setter, begun, TITLE, &blocks, self.count())
    }

    /// Those of one source together, the source named once behind them; allergens stand below by themselves.
    fn cautions(&self) -> Vec<Vec<Span>> {
        by_source(self.told.cautions.iter().filter(|care| !matches!(care, Care::Contains(_))), self.names, false)
    }

    /// Of each recipe, then of each meal with all that is added to it.
    fn allergens(&self) -> Vec<Vec<Span>> {
        let told = |name: String, contains: &Contains| {
            let words = contains.words().unwrap_or_else(|| "none of the fourteen".to_owned());
            vec![strong(name), plain(format!(": {words}"))]
        };
        let recipes = self.told.contains.iter().map(|(id, contains)| told(self.names.recipe(*id).to_owned(), contains));
        let meals = self.told.days.iter().flat_map(|day| &day.meals).map(|meal| told(sentence(&meal.slot.words()), &meal.contains));
        recipes.chain(meals).collect()
    }

    /// Recipes with a source by author and address, the others by a word.
    fn sources(&self) -> Vec<Vec<Span>> {
        let named = self.told.recipes.iter().filter_map(|(page, _)| {
            let words = source_words(&page.source)?;
            Some(vec![strong(self.names.recipe(page.recipe)), plain(format!(": {words}"))])
        });
        let own: Vec<&str> = self
            .told
            .recipes
            .iter()
            .filter(|(page, _)| source_words(&page.source).is_none())
            .map(|(page, _)| self.names.recipe(page.recipe))
            .collect();
        let own = (!own.is_empty()).then(|| vec![strong("The author's own"), plain(format!(": {}", own.join(", ")))]);
        named.chain(own).collect()
    }
}
