use pretty_assertions::assert_eq;
use proptest::prelude::*;

use super::*;

fn counted(line: &str) -> bool {
    line.starts_with(|c: char| c.is_ascii_digit() || "½¼".contains(c)) || line.ends_with("to taste")
}

fn read(text: &str) -> Vec<Adopted> {
    adopt(text.as_bytes(), &counted).unwrap_or_default()
}

fn one(text: &str) -> Adopted {
    let found = read(text);
    assert_eq!(found.len(), 1, "{text}");
    found[0].clone()
}

const BLOCK: &str = r#"{"@context": "https://schema.org", "@type": "Recipe", "name": "Roast roots", "recipeYield": "Serves 4–6",
"recipeIngredient": ["500 g beetroot", "&frac12; tsp salt"], "author": {"@type": "Person", "name": "A neighbour"}, "prepTime": "PT15M", "totalTime": "PT1H5M",
"recipeInstructions": [{"@type": "HowToSection", "name": "Roots", "itemListElement": [{"@type": "HowToStep", "text": "Peel them."}]}, {"@type": "HowToStep", "text": "Roast for 50 minutes."}]}"#;

fn page(block: &str) -> String {
    format!(
        "<!doctype html><html><head><title>Our page</title><link rel=canonical href='https://example.org/roots'><script type=\"application/ld+json\">{block}</script></head><body>Hello</body></html>"
    )
}

#[test]
fn a_block_in_a_page_is_read_with_what_the_page_says_around_it() {
    let recipe = one(&page(BLOCK));
    assert_eq!(recipe.name, "Roast roots");
    assert_eq!(recipe.makes.as_deref(), Some("4 portions"));
    assert_eq!(recipe.ingredients, ["500 g beetroot", "½ tsp salt"]);
    assert_eq!(recipe.method, ["Roots:", "Peel them.", "Roast for 50 minutes."]);
    assert_eq!(recipe.times, [("preparation", 15), ("in all", 65)]);
    let source =
        Source { author: Some("A neighbour".into()), title: Some("Our page".into()), address: Some("https://example.org/roots".into()) };
    assert_eq!(recipe.source, source);
}

#[test]
fn a_block_is_found_alone_in_a_list_and_in_a_graph() {
    for block in [BLOCK.to_owned(), format!("[{BLOCK}]"), format!("{{\"@graph\": [{{\"@type\": \"WebPage\"}}, {BLOCK}]}}")] {
        assert_eq!(one(&block).name, "Roast roots");
        assert_eq!(one(&page(&block)).name, "Roast roots");
    }
    assert_eq!(one(&BLOCK.replace("\"Recipe\"", "[\"Recipe\", \"NewsArticle\"]")).name, "Roast roots");
}

#[test]
fn a_broken_block_is_passed_over_and_never_half_a_recipe() {
    let cut = &BLOCK[..BLOCK.len() / 2];
    assert_eq!(adopt(page(cut).as_bytes(), &counted), Err(NotAdopted::NoRecipe));
    let both = format!("{}</script><script type='application/ld+json'>{BLOCK}", cut);
    assert_eq!(one(&page(&both)).name, "Roast roots");
}

#[test]
fn a_page_that_only_names_recipes_has_none() {
    let list = r#"{"@type": "ItemList", "itemListElement": [{"@type": "Recipe", "name": "Slaw"}, {"@type": "Recipe", "name": "Soup"}]}"#;
    assert_eq!(adopt(page(list).as_bytes(), &counted), Err(NotAdopted::NoRecipe));
}

#[test]
fn all_recipes_of_a_page_are_taken_and_none_twice() {
    let other = BLOCK.replace("Roast roots", "Slaw");
    let names = |text: &str| read(text).into_iter().map(|recipe| recipe.name).collect::<Vec<_>>();
    assert_eq!(names(&page(&format!("[{BLOCK}, {other}, {BLOCK}]"))), ["Roast roots", "Slaw"]);
}

#[test]
fn ingredients_in_one_text_are_taken_apart() {
    let inline = BLOCK.replace(r#"["500 g beetroot", "&frac12; tsp salt"]"#, r#""500 g beetroot, peeled, 2 carrots, ½ tsp salt""#);
    assert_eq!(one(&inline).ingredients, ["500 g beetroot, peeled", "2 carrots", "½ tsp salt"]);
    let lines = BLOCK.replace(r#"["500 g beetroot", "&frac12; tsp salt"]"#, r#""500 g beetroot<br>2 carrots""#);
    assert_eq!(one(&lines).ingredients, ["500 g beetroot", "2 carrots"]);
}

#[test]
fn microdata_is_read_without_what_belongs_to_things_inside_it() {
    let recipe = one("<html><body><div itemscope itemtype='http://schema.org/Recipe'><h1 itemprop=name>Herb yoghurt</h1>\
         <span itemprop=author itemscope itemtype='http://schema.org/Person'><b itemprop=name>A neighbour</b></span>\
         <meta itemprop=recipeYield content='6 servings'><time itemprop=prepTime datetime=PT10M>10 min</time>\
         <ul><li itemprop=recipeIngredient>250 g <i>yoghurt</i></li><li itemprop=ingredients>1 bunch dill</li></ul>\
         <div itemprop=recipeInstructions><ol><li>Chop the dill.</li><li>Stir it in.</li></ol></div></div></body></html>");
    assert_eq!((recipe.name.as_str(), recipe.makes.as_deref()), ("Herb yoghurt", Some("6 portions")));
    assert_eq!(recipe.ingredients, ["250 g yoghurt", "1 bunch dill"]);
    assert_eq!(recipe.method, ["Chop the dill.", "Stir it in."]);
    assert_eq!(recipe.source.author.as_deref(), Some("A neighbour"));
    assert_eq!(recipe.times, [("preparation", 10)]);
}

#[test]
fn plain_text_is_told_apart_with_headings_and_without() {
    let with = one(
        "Slaw\nServes 4\n\nIngredients:\n1 red cabbage\n2 apples\nFor the dressing:\n3 tbsp oil\n\nMethod\n1. Shred the cabbage.\n2. Dress it.",
    );
    assert_eq!(with.ingredients, ["1 red cabbage", "2 apples", "For the dressing:", "3 tbsp oil"]);
    assert_eq!(with.method, ["1. Shred the cabbage.", "2. Dress it."]);
    let without = one(
        "Slaw\nby A neighbour\nMakes 6 portions\n\n1 red cabbage\n2 apples\nsalt, to taste\n\nShred the cabbage and the apples.\nDress it.",
    );
    assert_eq!(without.makes.as_deref(), Some("6 portions"));
    assert_eq!(without.ingredients, ["1 red cabbage", "2 apples", "salt, to taste"]);
    assert_eq!(without.method, ["Shred the cabbage and the apples.", "Dress it."]);
    let bare = one("Slaw\n\n1 red cabbage\n2 apples\nsalt\npepper, to taste\n\nShred it all");
    assert_eq!(bare.ingredients, ["1 red cabbage", "2 apples", "salt", "pepper, to taste"]);
    assert_eq!(bare.method, ["Shred it all"]);
    assert_eq!(adopt(b"A letter.\n\nHow are you?\nIt rains.", &counted), Err(NotAdopted::NoRecipe));
}

/// Ten ways to write one recipe down: the list and the method are the same three lines each, whatever stands above them.
#[test]
fn the_method_is_told_from_the_list_with_headings_of_ones_own_and_without() {
    let list = "8 chicken thighs\n2 onions, sliced\nsalt and pepper";
    let numbered =
        "1. Heat half of the oil. Brown the thighs for 4 minutes a side.\n2. Add the onions.\n3. Cover and simmer for 35 minutes.";
    let bulleted = "- Brown the thighs for 4 minutes a side.\n- Add the onions and soften for 8 minutes.\n- Cover and simmer";
    let keeps = "Keeps for 3 days in the fridge.";
    for (text, steps, heading) in [
        (format!("Braise\nServes 4\n\nYou need:\n{list}\n\n{numbered}"), 3, None),
        (format!("Braise\nServes 4\n\nYou need:\n{list}\n{numbered}"), 3, None),
        (format!("Braise\nServes 4\n\nYou will need\n\n{list}\n\n{bulleted}"), 3, None),
        (format!("Braise\nServes 4\n\nIngredients:\n{list}\n\nIn a pan, brown the thighs. Cover and simmer for 35 minutes."), 1, None),
        (format!("Braise\nServes 4\n\nWhat you’ll need\n{list}\n\nWhat to do\n{numbered}"), 3, None),
        (format!("Braise\nServes 4\n\nIngredients:\n{list}\n\nHow we make it:\n{numbered}"), 4, Some("How we make it:")),
        (format!("Braise\nServes 4\n\nZutaten:\n{list}\n\nZubereitung:\n{numbered}"), 3, None),
        (format!("Braise\nServes 4\n\n{list}\n\n{bulleted}\n\n{keeps}"), 4, None),
        (format!("Braise\nServes 4\n\nYou need:\n{list}\n\n{numbered}\n\n{keeps}"), 4, None),
        (format!("Braise\nServes 4\n\nYou need:\n{list}\n\nBrown the thighs\n\nAdd the onions\n\nSimmer for 35 minutes"), 3, None),
    ] {
        let recipe = one(&text);
        assert_eq!(recipe.ingredients, ["8 chicken thighs", "2 onions, sliced", "salt and pepper"], "{text}");
        assert_eq!(recipe.method.len(), steps, "{text}\n{:?}", recipe.method);
        assert!(heading.is_none_or(|heading| recipe.method[0] == heading), "{text}");
    }
}

#[test]
fn a_line_between_name_and_yield_is_kept_beside_the_recipe() {
    let recipe = one("FRITTATA\nRosa's, from the notebook in the drawer.\nServes 4\n\n6 eggs\n2 leeks\n\nFry them.");
    assert_eq!((recipe.name.as_str(), recipe.makes.as_deref()), ("Frittata", Some("4 portions")));
    assert_eq!(recipe.unplaced, ["Rosa's, from the notebook in the drawer."]);
    assert!(recipe_file(&recipe).contains("# The page also says: Rosa's, from the notebook in the drawer.\n"));
}

#[test]
fn a_list_under_its_heading_may_have_blank_lines_and_parts() {
    let parts =
        one("Slaw\n\nYou need:\n1 red cabbage\n\nFor the dressing:\n3 tbsp oil\n\nsalt and pepper\n\nShred the cabbage.\nDress it.");
    assert_eq!(parts.ingredients, ["1 red cabbage", "For the dressing:", "3 tbsp oil", "salt and pepper"]);
    assert_eq!(parts.method, ["Shred the cabbage.", "Dress it."]);
}

#[test]
fn the_file_is_toml_and_says_what_the_page_says() {
    let mut recipe = one(&page(BLOCK));
    recipe.ingredients.push("1 \"good\" egg \\ 2 \"\"\"\"".into());
    let table: toml::Table = recipe_file(&recipe).parse().expect("valid TOML");
    let lines = |key: &str| table[key].as_str().map(|text| text.lines().map(str::to_owned).collect::<Vec<_>>()).unwrap_or_default();
    assert_eq!(lines("ingredients"), recipe.ingredients);
    assert_eq!(lines("method"), recipe.method);
    assert_eq!(table["source"]["author"].as_str(), Some("A neighbour"));
    assert!(recipe_file(&recipe).contains("# The page says: preparation 15 min, in all 1 h 5 min."));
    recipe.makes = None;
    assert!(recipe_file(&recipe).contains("makes = \"4 portions\"   # the page does not say"));
}

#[test]
fn how_long_it_keeps_is_taken_from_the_words_of_its_page_and_they_stand_beside_it() {
    let body = page(BLOCK).replace("Hello", "<h3>Storing</h3><p>Keeps for 3&nbsp;days in the fridge, or freeze for up to 2 months.</p>");
    let file = recipe_file(&one(&body));
    let line = "keeps = { fridge = \"3 days\", freezer = \"2 months\" }   # the page says: \"Keeps for 3 days in the fridge, or freeze for up to 2 months.\"";
    assert!(file.contains(line), "{file}");
    assert!(file.parse::<toml::Table>().is_ok());
    let described = BLOCK.replace("\"prepTime\"", "\"description\": \"Sweet. The roots keep for 4 days in the fridge.\", \"prepTime\"");
    assert!(recipe_file(&one(&described)).contains("keeps = { fridge = \"4 days\" }"));
    // Of several recipes nobody knows which is meant.
    let other = BLOCK.replace("Roast roots", "Slaw");
    let both = page(&format!("[{BLOCK}, {other}]")).replace("Hello", "Keeps for 3 days in the fridge.");
    assert!(read(&both).iter().all(|recipe| recipe.keeps == Keeping::default()));
    let plain = one("Slaw\n\n1 red cabbage\n2 apples\n\nShred it all.\nKeeps 2 days in the fridge.");
    assert_eq!(plain.keeps.places, [(crate::foods::Place::Fridge, "2 days".to_owned())]);
}

#[test]
fn what_a_block_only_points_at_is_taken_from_where_it_stands() {
    let graph = r##"{"@graph": [
        {"@type": "Recipe", "@id": "#r", "name": "Roast roots", "recipeIngredient": ["500 g beetroot"], "author": {"@id": "#a"},
         "recipeInstructions": [{"@id": "#s1"}, {"@id": "#s2"}], "mainEntityOfPage": {"@id": "https://example.org/roots"}},
        {"@type": "HowToStep", "@id": "#s1", "text": "Peel them."}, {"@type": "HowToSection", "@id": "#s2", "itemListElement": {"@id": "#s3"}},
        {"@type": "HowToStep", "@id": "#s3", "text": "Roast for 50 minutes."}, {"@type": "WebPage", "mainEntity": {"@id": "#r"}}]}"##;
    let person = r##"{"@type": "Person", "@id": "#a", "name": "A neighbour"}"##;
    let recipe = one(&page(&format!("{graph}</script><script type='application/ld+json'>{person}")));
    assert_eq!(recipe.method, ["Peel them.", "Roast for 50 minutes."]);
    assert_eq!(recipe.source.author.as_deref(), Some("A neighbour"));
    assert_eq!(recipe.source.address.as_deref(), Some("https://example.org/roots"));
    // What stands nowhere is no name, and what points at itself has an end.
    assert_eq!(one(graph).source.author, None);
    let round = graph.replace("\"text\": \"Peel them.\"", "\"itemListElement\": [{\"@id\": \"#s1\"}, {\"@id\": \"#s2\"}]");
    assert_eq!(one(&round).name, "Roast roots");
}

#[test]
fn steps_stand_in_the_order_of_their_positions() {
    let steps = r#"{"@type": "ItemList", "itemListElement": [{"@type": "ListItem", "position": 2, "item": {"text": "Roast."}}, {"@type": "ListItem", "position": "1", "item": {"text": "Peel."}}]}"#;
    let block =
        format!("{{\"@type\": \"Recipe\", \"name\": \"Roots\", \"recipeIngredient\": [\"1 beetroot\"], \"recipeInstructions\": {steps}}}");
    assert_eq!(one(&block).method, ["Peel.", "Roast."]);
}

#[test]
fn a_list_with_the_food_below_its_amount_is_read_as_lines() {
    let body = "<div itemscope itemtype='https://schema.org/Recipe'><b itemprop=name>Roots</b><ul><li itemprop=recipeIngredient>50 g<br>butter</li>\
                <li itemprop=recipeIngredient>2 beetroots</li></ul></div>";
    assert_eq!(one(&format!("<!doctype html><html><body>{body}</body></html>")).ingredients, ["50 g butter", "2 beetroots"]);
}

#[test]
fn a_text_that_was_wrapped_at_its_width_is_paragraphs_again() {
    let text = "Roots\nServes 4\n\n500 g beetroot\n2 tbsp oil\n\n\
                Peel the beetroot and cut them into wedges, turn them gently\n\
                20 times in the oil and lay them out on a tray. Roast them\n\
                Without a lid until soft, which is about the length of a\n\
                good hour.\nRest.\n\nScatter with salt";
    assert_eq!(one(text).method.len(), 3, "{:#?}", one(text).method);
    assert!(one(text).method[0].contains("gently 20 times") && one(text).method[0].ends_with("good hour."));
    // Short lines are ends of their own.
    assert_eq!(one("Roots\n\n2 beetroots\n1 onion\n\nPeel the beetroots\nSlice the onion\nRoast").method.len(), 3);
}

proptest! {
    #[test]
    fn whatever_is_cut_or_exchanged_in_a_page_nothing_panics(at in 0_usize..700, length in 0_usize..60, with in ".{0,6}") {
        let whole = page(BLOCK);
        let mut bytes = whole.into_bytes();
        let start = at.min(bytes.len());
        let end = (start + length).min(bytes.len());
        bytes.splice(start..end, with.into_bytes());
        for recipe in adopt(&bytes, &counted).unwrap_or_default() {
            prop_assert!(recipe_file(&recipe).parse::<toml::Table>().is_ok());
        }
    }
}

/// Foods that a line may name without an amount.
fn kitchen_wise(line: &str) -> Reads {
    const FOODS: [&str; 14] =
        ["flour", "yoghurt", "walnut", "leek", "carrot", "stock", "butter", "cream", "salt", "egg", "dill", "potato", "chive", "beetroot"];
    let low = line.to_lowercase();
    let food = FOODS.iter().any(|food| low.contains(food)) && !line.ends_with('.');
    let amount = line.starts_with(|c: char| c.is_ascii_digit()) && food;
    Reads { amount, food }
}

fn wise(text: &str) -> Adopted {
    let found = adopt(text.as_bytes(), &kitchen_wise).unwrap_or_default();
    assert_eq!(found.len(), 1, "{text}");
    found[0].clone()
}

#[test]
fn a_second_part_of_the_list_is_no_method_whatever_heads_it() {
    let steps = "Mix the flour and yoghurt. Fry for 2 minutes a side.\nStir.";
    for (text, ingredients) in [
        (
            "Flatbreads\nServes 4\n\nFor the flatbreads\n250g flour\n150g yoghurt\n\nFor the herb yoghurt\n200g yoghurt\n50 g walnuts",
            &["For the flatbreads:", "250g flour", "150g yoghurt", "For the herb yoghurt:", "200g yoghurt", "50 g walnuts"][..],
        ),
        (
            "Flatbreads\nServes 4\n\n250g flour\n150g yoghurt\n\nSauce\n200g yoghurt\n50 g walnuts",
            &["250g flour", "150g yoghurt", "Sauce:", "200g yoghurt", "50 g walnuts"],
        ),
        (
            "Flatbreads\nServes 4\n\n250g flour\n150g yoghurt\n\nOn top\n\n50 g walnuts\nsalt",
            &["250g flour", "150g yoghurt", "On top:", "50 g walnuts", "salt"],
        ),
        (
            "Flatbreads\n\nFor the dough:\n250g flour\n150g yoghurt\n\n50 g walnuts\n1 egg",
            &["For the dough:", "250g flour", "150g yoghurt", "50 g walnuts", "1 egg"],
        ),
    ] {
        let recipe = wise(&format!("{text}\n\n{steps}"));
        assert_eq!(recipe.ingredients, ingredients, "{text}");
        assert_eq!(recipe.method, steps.lines().collect::<Vec<_>>(), "{text}");
        assert_eq!(recipe.unplaced, Vec::<String>::new(), "{text}");
    }
    // A word that nobody knows as a food is told where it was taken for a heading.
    let told = wise("Flatbreads\n\n250g flour\n150g yoghurt\n\nSauce\n200g yoghurt\n50 g walnuts\n\nMix.");
    assert_eq!(told.lost, ["\"Sauce\" is read as the heading of the lines below it: nothing of that name is bought."]);
    // A food is one, wherever it stands.
    let food = wise("Soup\n\nIngredients\n\nbutter\n3 leeks\n\nsalt\n1 l stock\n\nMethod\n\nSimmer.");
    assert_eq!(food.ingredients, ["butter", "3 leeks", "salt", "1 l stock"]);
}

#[test]
fn a_block_of_ingredients_below_a_method_is_of_the_list() {
    let text = "Soup\n\n3 leeks\n1 l stock\n\nSimmer the leeks for 20 minutes.\n\nDumplings\n100 g flour\n2 eggs\n50 g walnuts\n\nMix all and poach.";
    let recipe = wise(text);
    assert_eq!(recipe.ingredients, ["3 leeks", "1 l stock", "Dumplings:", "100 g flour", "2 eggs", "50 g walnuts"]);
    assert_eq!(recipe.method, ["Simmer the leeks for 20 minutes.", "Mix all and poach."]);
    let headed = wise("Soup\n\nIngredients\n3 leeks\n\nMethod\nSimmer.\n\n100 g flour\n2 eggs\n\nMix all.");
    assert_eq!(headed.ingredients, ["3 leeks", "100 g flour", "2 eggs"]);
    assert_eq!(headed.method, ["Simmer.", "Mix all."]);
    let verb = wise("Bowl\n\n250 g flour\n2 eggs\n\nFinish\n50 g walnuts\n\nMix the flour and eggs.\nTop.");
    assert_eq!(verb.ingredients, ["250 g flour", "2 eggs", "Finish:", "50 g walnuts"]);
    // What still looks like an ingredient there is told.
    let told = wise("Soup\n\n3 leeks\n1 l stock\n\nSlice the leeks.\n50 g walnuts\nSimmer.");
    assert_eq!(told.lost, ["\"50 g walnuts\" stands in the method and reads as an ingredient: move it to the list, if it is one."]);
    // Lines of a sentence stay in it.
    let wrapped = wise("Soup\n\n3 leeks\n1 l stock\n\nSlice the leeks. Add\n1 l stock and\nsimmer.");
    assert_eq!(wrapped.ingredients, ["3 leeks", "1 l stock"]);
}

#[test]
fn a_numbered_list_is_a_list_and_numbered_steps_are_steps() {
    for text in [
        "Roots\n\nIngredients\n1. 500 g beetroot\n2. 2 carrots\n\nMethod\n1. Roast them.\n2. Rest.",
        "Roots\n\n1) 500 g beetroot\n2) 2 carrots\n\n1. Roast them.\n2. Rest.",
        "Roots\n\nIngredients:\n\n1. 500 g beetroot\n2. 2 carrots\n\n1. Roast them.\n2. Rest.",
    ] {
        let recipe = wise(text);
        assert_eq!(recipe.ingredients, ["500 g beetroot", "2 carrots"], "{text}");
        assert_eq!(recipe.method, ["1. Roast them.", "2. Rest."], "{text}");
    }
}

#[test]
fn a_list_under_its_heading_needs_no_amounts() {
    let recipe = wise("Leek soup\n\nIngredients\nleeks\nstock\ncream\n\nMethod\nSimmer for 25 minutes.");
    assert_eq!(recipe.ingredients, ["leeks", "stock", "cream"]);
    let loose =
        wise("Leek soup\n\n3 leeks\n1 l stock\n(500 g potatoes)\na little cream\nplus extra chives\nbutter\n\nSimmer for 25 minutes.");
    assert_eq!(loose.ingredients, ["3 leeks", "1 l stock", "500 g potatoes", "a little cream", "plus extra chives", "butter"]);
    assert_eq!(adopt(b"Method\n\nIt rains.\nWe talk of leeks.", &kitchen_wise), Err(NotAdopted::NoRecipe));
}

#[test]
fn what_stands_beside_a_recipe_is_told_and_no_step() {
    let recipe = wise(
        "Title: Soup\nServes 4 | Prep: 15 min | Cook: 25 min\n\n3 leeks\n1 l stock\n\nSimmer.\nAllergens: celery\nNutrition per serving: 240 kcal",
    );
    assert_eq!((recipe.name.as_str(), recipe.makes.as_deref()), ("Soup", Some("4 portions")));
    assert_eq!(recipe.times, [("preparation", 15), ("cooking", 25)]);
    assert_eq!(recipe.method, ["Simmer."]);
    assert_eq!(recipe.unplaced, ["Allergens: celery", "Nutrition per serving: 240 kcal"]);
    let stored = wise("Soup\n\n3 leeks\n1 l stock\n\nSimmer.\n\nTo store\nIn a jar, 5 days in the fridge.");
    assert_eq!(stored.keeps.places, [(crate::foods::Place::Fridge, "5 days".to_owned())]);
}

#[test]
fn a_page_without_schema_org_is_read_by_its_headings_or_not_at_all() {
    let page = |inside: &str| {
        format!(
            "<!doctype html><html><head><title>T</title></head><body><nav>Home</nav>{inside}<h2>Comments</h2><p>Lovely. 3 leeks!</p></body></html>"
        )
    };
    let of = |inside: &str| adopt(page(inside).as_bytes(), &kitchen_wise).map(|mut found| found.pop().unwrap_or_default());
    let recipe = of("<h1>Leek soup</h1><p>A story of rain.</p><p>Serves 4</p><h2>Ingredients</h2><h3>For the soup</h3><ul><li>3 leeks<li>1 l stock</ul><h3>On top</h3><ul><li>50 g walnuts</ul>\
                     <h2>Method</h2><ol><li>Slice the leeks.<li>Simmer for 20 minutes.</ol>")
        .expect("a recipe");
    assert_eq!((recipe.name.as_str(), recipe.makes.as_deref()), ("Leek soup", Some("4 portions")));
    assert_eq!(recipe.ingredients, ["For the soup:", "3 leeks", "1 l stock", "On top:", "50 g walnuts"]);
    assert_eq!(recipe.method, ["Slice the leeks.", "Simmer for 20 minutes."]);
    assert_eq!(recipe.lost, ["The page has no schema.org/Recipe: the words below its headings were read."]);
    assert_eq!(of("<h1>Soup</h1><ul><li>3 leeks</ul><p>Simmer.</p>"), Err(NotAdopted::NoRecipe));
    let two = "<h1>Soup</h1><h2>Ingredients</h2><p>3 leeks</p><h2>Method</h2><p>Simmer.</p>".repeat(2);
    assert_eq!(of(&two), Err(NotAdopted::NoRecipe));
}

#[test]
fn microdata_points_outside_itself_and_names_its_steps() {
    let page = "<html><body><div itemscope itemtype='http://schema.org/Recipe' itemref='list how'><h1 itemprop=name>Roots</h1></div>\
                <ul id=list><li itemprop=recipeIngredient>500 g beetroot</li><li itemprop=ingredients>2 tbsp oil</li>\
                <li itemprop='recipeIngredient' itemscope><span itemprop=name>walnuts</span><meta itemprop=value content=50><meta itemprop=unitText content=g></li></ul>\
                <div id=how itemprop=recipeInstructions itemscope itemtype='http://schema.org/HowToSection'><h3 itemprop=name>Roasting</h3>\
                <div itemprop=itemListElement itemscope itemtype='http://schema.org/HowToStep'><meta itemprop=name content='Peel them.'></div>\
                <div itemprop=itemListElement itemscope itemtype='http://schema.org/HowToStep'><p itemprop=text>Roast for 40 minutes.</p></div></div></body></html>";
    let recipe = one(page);
    assert_eq!(recipe.ingredients, ["500 g beetroot", "2 tbsp oil", "50 g walnuts"]);
    assert_eq!(recipe.method, ["Roasting:", "Peel them.", "Roast for 40 minutes."]);
    // An item that points at itself has an end.
    assert_eq!(read(&page.replace("itemref='list how'", "id=me itemref='me list how'")).len(), 1);
}

#[test]
fn a_script_may_stand_in_marks_and_a_recipe_in_another() {
    for (open, close) in [("/*<![CDATA[*/", "/*]]>*/"), ("//<![CDATA[\n", "\n//]]>"), ("<!--", "-->"), ("<![CDATA[", "]]>;")] {
        assert_eq!(one(&page(&format!("{open}{BLOCK}{close}"))).name, "Roast roots", "{open}");
    }
    let sauce = BLOCK.replace("Roast roots", "Sauce").replace("500 g beetroot", "2 tomatoes");
    let whole = BLOCK.replace("\"prepTime\"", &format!("\"hasPart\": [{sauce}], \"prepTime\""));
    assert_eq!(read(&whole).iter().map(|recipe| recipe.name.as_str()).collect::<Vec<_>>(), ["Roast roots", "Sauce"]);
    assert_eq!(one(&BLOCK.replace("\"Roast roots\"", "[\"Roast roots\", \"Roots\"]")).name, "Roast roots");
    let yields = |said: &str| one(&BLOCK.replace("\"Serves 4–6\"", said));
    assert_eq!(
        yields(r#"{"@type": "QuantitativeValue", "minValue": 4, "maxValue": 6, "unitText": "servings"}"#).makes.as_deref(),
        Some("4 portions")
    );
    let crowd = yields("\"a crowd\"");
    assert_eq!((crowd.makes.clone(), crowd.yields.as_deref()), (None, Some("a crowd")));
    assert!(recipe_file(&crowd).contains("makes = \"4 portions\"   # the page says: a crowd"));
}

#[test]
fn cells_of_a_table_stand_apart_and_rdfa_is_read_as_microdata_is() {
    let page = |inside: &str| format!("<!doctype html><html><body vocab=\"https://schema.org/\">{inside}</body></html>");
    let of = |inside: &str| adopt(page(inside).as_bytes(), &kitchen_wise).map(|mut found| found.pop().unwrap_or_default());
    let cells = "<table><tr><td>400 g</td><td>plain flour</td></tr><tr><td>250 g</td><td>yoghurt</td></tr></table>";
    let headed = of(&format!("<h1>Breads</h1><h2>Ingredients</h2>{cells}<h2>Method</h2><p>Mix.</p>")).expect("a recipe");
    assert_eq!(headed.ingredients, ["400 g plain flour", "250 g yoghurt"]);
    // The head of the table is the heading, and the method begins with the first sentence.
    let table = cells.replace("<table>", "<table><tr><th>Amount</th><th>Ingredient</th></tr>");
    let bare = of(&format!("<h1>Breads</h1><p>Makes 8</p>{table}<p>Mix everything and knead.</p>")).expect("a recipe");
    assert_eq!((bare.ingredients, bare.method), (headed.ingredients, vec!["Mix everything and knead.".to_owned()]));
    let rdfa = of("<div typeof=\"Recipe\"><h1 property=\"name\">Roast</h1><span property=\"recipeYield\">Serves 4</span>\
                   <li property=\"recipeIngredient\">600 g beetroot</li><p property=\"recipeInstructions\">Roast it.</p></div>");
    let rdfa = rdfa.expect("a recipe");
    assert_eq!((rdfa.name.as_str(), rdfa.makes.as_deref()), ("Roast", Some("4 portions")));
    assert_eq!((rdfa.ingredients, rdfa.method), (vec!["600 g beetroot".to_owned()], vec!["Roast it.".to_owned()]));
}

#[test]
fn what_may_be_another_recipe_of_a_text_is_told_and_to_finish_heads_a_part() {
    let two = wise(
        "Boiled eggs\n\n6 eggs\n\nBoil the eggs for 8 minutes.\n\n\nHerb yoghurt sauce\n\n200 g yoghurt\n1 bunch dill\n\nChop the dill and stir in.",
    );
    assert!(two.lost.iter().any(|told| told.contains("give it a file of its own")), "{:?}", two.lost);
    let one =
        wise("Soup\nFür 6 Personen\n\nIngredients\n3 leeks\n1 litre stock\nTo finish\n2 tbsp cream\n\nMethod\nSimmer for 20 minutes.");
    assert_eq!(one.ingredients, ["3 leeks", "1 litre stock", "To finish:", "2 tbsp cream"]);
    assert_eq!(one.makes.as_deref(), Some("6 portions"));
    assert!(!one.lost.iter().any(|told| told.contains("a file of its own")), "{:?}", one.lost);
}
