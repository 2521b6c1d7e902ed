//! One kitchen that uses every key a household may write is read without a mistake.

use pretty_assertions::assert_eq;

use crate::kitchen::{Kitchen, kitchen, stderr};

const KITCHEN: &str = r#"
[household]
name = "Test row"
eaters = 2.5
currency = "EUR"
avoid = ["sesame"]
budget = "80.00"
mealtimes = { breakfast = "07:30", lunch = "12:30", supper = "18:30" }
zone = "Europe/Lisbon"

[print]
paper = "A4"
units = "metric"
sheets = ["list", "guide", "week", "labels", "recipes", "phone", "calendar"]

[rules]
short_by = "2%"
choose = "cheapest"
spoons = "us"
pints = "us"
always = ["water"]
ask = ["bay leaf"]
ready_after = "3 h"
boxing = "3 min"
wash = "3 min"
pace = 1.0

[[appliance]]
name = "oven"
room = 2
heat = true
near = "10 °C"
warm_up = "10 min"
out = "1 min"
holds = "20 l"

[[appliance]]
name = "hob"
room = 4

[[staple]]
food = "oat milk"
par = "2 l"
when_below = "500 ml"
"#;

const MASH: &str = r#"
name = "White-bean mash"
makes = "6 portions"
portion = "200 g"
batches = "halves"
keeps = { fridge = "3 days", freezer = "2 months" }
made = "in a session"
serve = "hot"
box = { name = "flat tub", holds = "4 portions" }

ingredients = """
2 tins (400 g) white beans, drained
3 cloves garlic, peeled
4 tbsp olive oil
1 sprig rosemary
200 g recipe:herb-yoghurt
"""

[[step]]
id = "warm"
text = "Warm {olive oil: 2 tbsp} with {garlic} and {rosemary} until it smells sweet."
hands = "6 min"
wait = "0 min"
scales = true
on = "hob"
takes = 1

[[step]]
id = "bake"
text = "Bake {white beans} under {olive oil: 2 tbsp}."
hands = "2 min"
wait = "20 min"
on = ["oven"]
temperature = "180 °C"
or_on = "hob"
or_wait = "30 min"
or_takes = 1
inside = "74 °C"
who = "cook"
skill = "knife"
after = ["warm", "recipe:herb-yoghurt"]
gap = "1 h"
within = "2 h"

[[step]]
text = "Soak it."
hands = "3 min"
after = []
ahead = "12 h"
"#;

const YOGHURT: &str = r#"
name = "Herb yoghurt"
makes = "600 g"
keeps = { fridge = "3 days" }
serve = "cold"
ingredients = [{ food = "yoghurt", amount = "500 g", prep = "stirred" }, "1 bunch parsley, chopped"]

[[step]]
text = "Stir {yoghurt} and {parsley} together."
hands = "5 min"
"#;

const WEEK: &str = r#"
name = "First week of advent"
from = 2026-11-30
eaters = 3

[[trip]]
on = 2026-11-28
shops = ["Quay market", "Mill stores"]

[[session]]
start = 2026-11-29T14:00
finish_by = "17:30"
people = ["cook", { name = "Jo", as = "helper", from = "15:00", until = "16:00", may = ["wash", "mix"] }]

[[meal]]
on = 2026-11-30
at = "supper"
name = "Mash plates"
eaters = 3
each = ["1 portion recipe:white-bean-mash", "200 g recipe:white-bean-mash", "30 g feta"]
shared = ["1 lemon"]

[[meal]]
day = "tue"
at = "19:15"
each = ["30 g feta"]
"#;

const PANTRY: &str = r#"
[[lot]]
food = "feta"
amount = "350 g"
place = "cupboard"
best_before = 2027-03-01
use_by = 2027-03-02
opened = 2026-11-02
since = 2026-11-02

[[lot]]
recipe = "white-bean-mash"
eater = "Emil"
without = ["feta"]
amount = "3 portions"
place = "fridge"
made = 2026-11-29
"#;

const SHOPS: &str = r#"
[[shop]]
name = "Quay market"
sections = ["Vegetables", "Tins"]
trip = "0.00"

[[shop]]
name = "Mill stores"

[[pack]]
shop = "Quay market"
food = "tinned white beans"
size = "400 g"
drained = "240 g"
price = 0.89
section = "Tins"
offer = { buy = 3, pay = 2.00 }
seen = 2026-11-02

[[pack]]
shop = "Quay market"
food = "parsley"
size = "1 bunch"

[[pack]]
shop = "Quay market"
food = "lemon"
loose = true
price = "0.35 / each"
step = "1"

[[pack]]
shop = "Mill stores"
food = "feta"
loose = true
price = "14.00 / kg"
step = "100 g"
"#;

const FOODS: &str = r#"
[[food]]
name = "onion"
also = ["brown onion", "yellow onion"]
kind = "vegetable"
section = "Vegetables"
cup = { chopped = "160 g", sliced = "115 g" }
each = { small = "78 g", medium = "122 g", large = "167 g" }
bunch = "100 g"
clove = "5 g"
slice = "10 g"
sprig = "2 g"
stick = "50 g"
edible = "90%"
cooked = 2.9
drained = "60%"
cut = false
cooks = "boil 30 min"
keeps = { cupboard = "30 days", fridge = "60 days", freezer = "240 days", opened = "7 days" }
thaw = "1 day"
per_100g = { kcal = 41, protein = "0.9 g", carbohydrate = "9.6 g", fat = "0.2 g", fibre = "2.8 g", sodium = "69 mg" }
allergens = []
source = "USDA SR 11282"
"#;

fn full() -> Kitchen {
    kitchen()
        .file("kitchen.toml", KITCHEN)
        .foods(FOODS)
        .recipe("white-bean-mash", MASH)
        .recipe("herb-yoghurt", YOGHURT)
        .week(WEEK)
        .pantry(PANTRY)
        .shops(SHOPS)
}

#[test]
fn every_key_of_every_file_is_read() {
    let output = full().run(&["check"]);
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
}

#[test]
fn the_other_word_of_each_choice_is_read() {
    let kitchen = KITCHEN
        .replace("\"A4\"", "\"letter\"")
        .replace("units = \"metric\"", "units = \"us\"")
        .replace("\"cheapest\"", "\"least-left\"")
        .replace("spoons = \"us\"", "spoons = \"metric\"")
        .replace("near = \"10 °C\"", "near = \"18 F\"");
    let yoghurt = YOGHURT.replace("serve = \"cold\"", "serve = \"cold\"\nbatches = \"any\"");
    let mash = MASH.replace("\"180 °C\"", "\"375 F\"").replace("\"halves\"", "\"whole\"");
    let output = full().file("kitchen.toml", &kitchen).recipe("herb-yoghurt", &yoghurt).recipe("white-bean-mash", &mash).run(&["check"]);
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
}

#[test]
fn the_full_kitchen_is_listed_planned_and_printed() {
    let kitchen = full();
    kitchen.list();
    kitchen.prep();
    assert_eq!(kitchen.run(&["print"]).status.code(), Some(0));
}
