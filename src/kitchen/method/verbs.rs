//! What is done, by its verb: one row each. The times are common practice, no source.

use super::places::Kind;

/// How a verb fills its time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Way {
    /// Hands-on, needs no appliance.
    Hands,
    /// Hands-on, on an appliance.
    HandsOn(Kind),
    /// Unattended on an appliance; the minutes where nothing is said.
    Wait(Kind, i64),
    /// Unattended on nothing.
    Stand(i64),
    /// Waits only where a time is given, or for the verb that follows it: "let it cool".
    Leave,
    /// Puts something somewhere and ends no step.
    Put,
    /// Makes an appliance, or something on the hob, hot.
    Heat,
    /// "Turn the oven down": sets, or else is a matter of a moment.
    Set,
    /// At the table, not in the session.
    Serve,
}

/// How long hands take: see [`super::rates`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Rate {
    /// Minutes, however much there is.
    Once(f64),
    /// Minutes for each kilogram, and never less than the first figure.
    ByWeight(f64, f64),
    Peel,
    /// Minutes for each 100 g, times the hardness of the food.
    Cut(f64),
    /// Minutes for each piece.
    Piece(f64),
    /// Leaves from their stalks.
    Pick,
}

pub(super) struct Verb {
    pub word: &'static str,
    pub way: Way,
    pub rate: Rate,
    /// Also a state that food reaches: "until tender and brown" is no clause of its own.
    pub state: bool,
}

const fn row(word: &'static str, way: Way, rate: Rate) -> Verb {
    Verb { word, way, rate, state: false }
}

const fn state(word: &'static str, way: Way, rate: Rate) -> Verb {
    Verb { word, way, rate, state: true }
}

use crate::kitchen::ApplianceKind::{Grill, Hob, Microwave, Oven, Pressure, Slow, Steamer};
use Rate::{ByWeight, Cut, Once, Peel, Pick, Piece};
use Way::{Hands, HandsOn, Heat, Leave, Put, Serve, Set, Stand, Wait};

/// Hardly any time of its own.
const MOMENT: Rate = Once(0.5);

/// Longer phrases first where they begin alike.
#[rustfmt::skip]
pub(super) static VERBS: &[Verb] = &[
    // Knives.
    row("chop", Hands, Cut(0.9)), row("cut", Hands, Cut(0.6)), row("slice", Hands, Cut(0.7)), row("dice", Hands, Cut(1.3)),
    row("cube", Hands, Cut(0.8)), row("mince", Hands, Cut(2.0)), row("julienne", Hands, Cut(2.0)), row("shred", Hands, Cut(0.6)),
    row("halve", Hands, Cut(0.25)), row("quarter", Hands, Cut(0.35)), row("trim", Hands, Cut(0.3)), row("carve", Hands, Cut(0.5)),
    row("score", Hands, Once(1.0)), row("slash", Hands, Once(1.0)), row("core", Hands, Piece(0.4)), row("deseed", Hands, Piece(0.5)),
    row("seed", Hands, Piece(0.5)), row("stone", Hands, Piece(0.5)), row("pit", Hands, Piece(0.3)), row("zest", Hands, Piece(1.0)),
    row("segment", Hands, Piece(2.0)), row("fillet", Hands, Piece(4.0)), row("peel", Hands, Peel), row("grate", Hands, Cut(1.5)),
    row("top and tail", Hands, Cut(0.8)), row("tear", Hands, Cut(0.5)), row("snip", Hands, Cut(2.0)), row("pick over", Hands, ByWeight(2.0, 1.0)),
    row("pick", Hands, Pick), row("shell", Hands, Cut(1.5)), row("hull", Hands, Cut(0.8)),
    row("skin", Hands, Piece(0.7)), row("bone", Hands, Once(4.0)), row("debone", Hands, Once(4.0)), row("gut", Hands, Once(3.0)), row("devein", Hands, Cut(1.5)),
    row("portion", Hands, Once(2.0)), row("hack", Hands, Cut(0.5)), row("string", Hands, Cut(0.8)), row("destem", Hands, Cut(0.5)), row("snap", Hands, Cut(0.5)),
    // Water.
    row("wash", Hands, ByWeight(2.0, 1.0)), row("rinse", Hands, ByWeight(2.0, 1.0)), row("scrub", Hands, ByWeight(4.0, 1.0)),
    row("drain", Hands, Once(1.0)), row("strain", Hands, Once(1.0)), row("pat", Hands, Once(1.0)), row("dry", Hands, Once(1.0)),
    row("squeeze", Hands, Piece(0.7)), row("juice", Hands, Piece(0.7)), row("wring", Hands, Once(1.0)), row("sieve", Hands, Once(1.0)),
    // Mixing.
    row("mix", Hands, ByWeight(0.8, 1.0)), row("stir", Hands, MOMENT), row("whisk", Hands, Once(1.5)), row("whip", Hands, Once(3.0)),
    row("beat", Hands, Once(2.0)), row("cream", Hands, Once(4.0)), row("toss", Hands, ByWeight(0.8, 1.0)), row("combine", Hands, ByWeight(0.8, 1.0)),
    row("blend", Hands, Once(2.0)), row("blitz", Hands, Once(2.0)), row("process", Hands, Once(2.0)), row("pulse", Hands, Once(1.0)),
    row("purée", Hands, Once(2.0)), row("puree", Hands, Once(2.0)), row("liquidise", Hands, Once(2.0)), row("mash", Hands, ByWeight(4.0, 2.0)),
    row("crush", Hands, Once(1.5)), row("grind", Hands, Once(2.0)), row("pound", Hands, Once(2.0)), row("knead", Hands, Once(8.0)),
    row("fold", Hands, Once(1.0)), row("rub", Hands, Once(1.5)), row("massage", Hands, Once(2.0)), row("fluff", Hands, MOMENT),
    row("break", Hands, Once(1.0)), row("crack", Hands, Piece(0.2)), row("separate", Hands, Piece(0.5)), row("flake", Hands, Once(2.0)),
    row("crumble", Hands, Once(1.0)), row("muddle", Hands, Once(1.0)), row("skim", Hands, Once(1.0)), row("sift", Hands, Once(1.0)),
    row("dissolve", Hands, Once(1.0)), row("work", Hands, Once(2.0)), row("turn", Hands, Once(1.0)), row("coat", Hands, Once(1.0)),
    row("measure", Hands, Once(1.0)), row("weigh", Hands, Once(1.0)), row("sort", Hands, ByWeight(2.0, 1.0)),
    row("whizz", Hands, Once(2.0)), row("shake", Hands, MOMENT), row("squash", Hands, Once(1.0)), row("bash", Hands, Once(1.0)),
    row("refresh", Hands, Once(1.0)), row("dress", Hands, MOMENT), row("spray", Hands, MOMENT), row("glug", Hands, MOMENT), row("splash", Hands, MOMENT), row("slit", Hands, Once(1.0)),
    row("spatchcock", Hands, Once(5.0)), row("butterfly", Hands, Once(5.0)), row("dollop", Hands, MOMENT), row("sandwich", Hands, Once(1.0)),
    // Shaping and laying out.
    row("roll", Hands, Once(5.0)), row("shape", Hands, Once(5.0)), row("form", Hands, Once(5.0)), row("mould", Hands, Once(2.0)),
    row("stretch", Hands, Once(3.0)), row("flatten", Hands, Once(2.0)), row("press", Hands, Once(1.0)), row("pinch", Hands, Once(2.0)),
    row("divide", Hands, Once(1.5)), row("split", Hands, Once(1.0)), row("spread", Hands, Once(1.0)), row("layer", Hands, Once(4.0)), row("arrange", Hands, Once(1.0)),
    row("thread", Hands, Once(5.0)), row("skewer", Hands, Once(5.0)), row("stuff", Hands, Once(5.0)), row("fill", Hands, Once(2.0)),
    row("wrap", Hands, Once(1.0)), row("tie", Hands, Once(1.0)), row("truss", Hands, Once(2.0)), row("smooth", Hands, MOMENT), row("level", Hands, MOMENT),
    row("knock", Hands, Once(1.0)), row("punch", Hands, Once(1.0)), row("make", Hands, Once(1.0)), row("line", Hands, Once(1.0)),
    row("grease", Hands, Once(1.0)), row("oil", Hands, Once(1.0)), row("butter", Hands, Once(1.0)), row("flour", Hands, Once(1.0)),
    row("dust", Hands, MOMENT), row("brush", Hands, Once(1.0)), row("glaze", Hands, Once(1.0)), row("baste", Hands, Once(1.0)),
    row("prick", Hands, MOMENT), row("pierce", Hands, MOMENT), row("dip", Hands, Once(2.0)), row("dredge", Hands, Once(2.0)),
    row("rewarm", HandsOn(Hob), Once(4.0)), row("assemble", Hands, Once(4.0)), row("pipe", Hands, Once(4.0)), row("ice", Hands, Once(4.0)),
    row("sprinkle", Hands, MOMENT), row("scatter", Hands, MOMENT), row("season", Hands, MOMENT), row("salt", Hands, MOMENT),
    row("pour", Hands, MOMENT), row("drizzle", Hands, MOMENT), row("dot", Hands, MOMENT), row("spoon", Hands, Once(1.0)),
    row("ladle", Hands, Once(1.0)), row("scoop", Hands, Once(1.0)), row("scrape", Hands, MOMENT), row("discard", Hands, MOMENT),
    row("taste", Hands, MOMENT), row("adjust", Hands, MOMENT), row("check", Hands, MOMENT), row("test", Hands, MOMENT), row("give", Hands, MOMENT),
    row("soften with", Hands, MOMENT), row("unwrap", Hands, MOMENT), row("flip", Hands, MOMENT), row("swirl", Hands, MOMENT),
    row("fork", Hands, MOMENT), row("loosen", Hands, MOMENT), row("incorporate", Hands, Once(1.0)), row("blot", Hands, MOMENT),
    row("pile", Hands, MOMENT), row("heap", Hands, MOMENT), row("smear", Hands, Once(1.0)), row("slather", Hands, Once(1.0)), row("squish", Hands, MOMENT),
    row("smash", Hands, Once(1.0)), row("gather", Hands, MOMENT), row("moisten", Hands, MOMENT), row("dampen", Hands, MOMENT), row("crimp", Hands, Once(2.0)),
    row("round", Hands, Once(3.0)), row("sheet to", Hands, Once(3.0)), row("emulsify", Hands, Once(2.0)), row("scale", Hands, Once(1.0)), row("label", Hands, MOMENT),
    row("strew", Hands, MOMENT), row("shower", Hands, MOMENT), row("rain", Hands, MOMENT), row("dab", Hands, MOMENT), row("dunk", Hands, Once(1.0)),
    row("wedge", Hands, Cut(0.6)), row("clean", Hands, ByWeight(4.0, 1.0)), row("probe", Hands, MOMENT),
    row("pull", Hands, Once(3.0)),
    row("thin", Hands, MOMENT), row("rotate", Hands, MOMENT), row("decant", Hands, MOMENT), row("mount with", Hands, Once(1.0)),
    // Put: hands-on, ends no step.
    row("add", Put, MOMENT), row("put", Put, MOMENT), row("place", Put, MOMENT), row("cover", Put, MOMENT), row("uncover", Put, Once(0.0)),
    row("transfer", Put, MOMENT), row("return", Put, MOMENT), row("tip", Put, MOMENT), row("lay", Put, MOMENT), row("set aside", Leave, MOMENT),
    row("set", Set, MOMENT), row("remove", Put, MOMENT), row("take", Put, MOMENT), row("lift", Put, MOMENT), row("move", Put, MOMENT),
    row("pack", Put, Once(1.0)), row("top", Put, MOMENT), row("nestle", Put, MOMENT), row("tuck", Put, MOMENT), row("insert", Put, MOMENT),
    row("drop", Put, MOMENT), row("slide", Put, MOMENT), row("stand in", Put, MOMENT), row("invert", Put, MOMENT), row("unmould", Put, MOMENT), row("reserve", Put, MOMENT),
    row("close", Put, Once(0.0)), row("lock", Put, Once(0.0)), row("seal", Put, MOMENT), row("open", Put, Once(0.0)), row("have", Put, Once(0.0)),
    row("submerge", Put, MOMENT), row("shock", Hands, Once(1.0)), row("immerse", Put, MOMENT), row("plunge", Put, MOMENT), row("spritz", Put, MOMENT), row("use", Put, MOMENT), row("finish", Put, MOMENT),
    row("pop", Put, MOMENT), row("throw", Put, MOMENT), row("chuck", Put, MOMENT), row("stick", Put, MOMENT), row("bung", Put, MOMENT), row("whack", Put, MOMENT), row("shove", Put, MOMENT),
    row("get", Put, MOMENT), row("grab", Put, MOMENT), row("dump", Put, MOMENT), row("flash", Put, MOMENT), row("hang", Put, MOMENT),
    row("tumble", Put, MOMENT), row("lob", Put, MOMENT), row("slosh", Put, MOMENT), row("plonk", Put, MOMENT), row("sling", Put, MOMENT), row("rip", Hands, Cut(0.5)),
    row("fish out", Put, MOMENT), row("draw", Put, MOMENT), row("retrieve", Put, MOMENT), row("fetch", Put, MOMENT),
    row("push", Put, MOMENT), row("load", Put, MOMENT),
    row("start", Set, Once(0.0)), row("begin", Set, Once(0.0)), row("carry on", Set, Once(0.0)),
    row("hot hold", Set, Once(0.0)), row("hot-hold", Set, Once(0.0)), row("hold hot", Set, Once(0.0)), row("hold warm", Set, Once(0.0)), row("hold above", Set, Once(0.0)),
    row("go on", Set, Once(0.0)),
    row("continue", Set, Once(0.0)), row("repeat", Set, MOMENT), row("keep", Set, Once(0.0)), row("store", Serve, Once(0.0)),
    // Heat and what sets it.
    row("bring", Heat, Once(1.0)), row("heat", Heat, Once(1.0)), row("preheat", Heat, Once(0.0)), row("warm", Heat, Once(3.0)),
    row("pre-heat", Heat, Once(0.0)), row("reheat", Heat, Once(3.0)), row("re-heat", Heat, Once(3.0)), row("reduce", Set, Once(0.0)), row("lower", Set, MOMENT), row("decrease", Set, Once(0.0)),
    row("drop the temperature", Set, Once(0.0)), row("drop the heat", Set, Once(0.0)), row("drop the oven", Set, Once(0.0)), row("drop to", Set, Once(0.0)),
    row("increase", Set, Once(0.0)), row("crank", Set, Once(0.0)), row("press start", Set, Once(0.0)), row("raise", Set, Once(0.0)), row("switch", Set, Once(0.0)), row("adjust the heat", Set, Once(0.0)),
    // Hands-on, on the hob.
    row("fry", HandsOn(Hob), Once(6.0)), row("stir-fry", HandsOn(Hob), Once(5.0)), row("pan-fry", HandsOn(Hob), Once(6.0)),
    row("deep-fry", HandsOn(Hob), Once(8.0)), row("dry-fry", HandsOn(Hob), Once(3.0)), row("shallow-fry", HandsOn(Hob), Once(6.0)), row("sauté", HandsOn(Hob), Once(5.0)), row("saute", HandsOn(Hob), Once(5.0)),
    row("sear", HandsOn(Hob), Once(6.0)), row("scramble", HandsOn(Hob), Once(4.0)), row("caramelise", HandsOn(Hob), Once(20.0)),
    row("caramelize", HandsOn(Hob), Once(20.0)), row("char", HandsOn(Hob), Once(5.0)), row("griddle", HandsOn(Hob), Once(6.0)), row("chargrill", HandsOn(Hob), Once(6.0)), row("flash-fry", HandsOn(Hob), Once(3.0)), row("deglaze", HandsOn(Hob), Once(1.0)),
    row("cook and stir", HandsOn(Hob), Once(5.0)), row("cook and crumble", HandsOn(Hob), Once(6.0)), row("cook and whisk", HandsOn(Hob), Once(4.0)),
    row("cook and toss", HandsOn(Hob), Once(4.0)), row("simmer and stir", HandsOn(Hob), Once(4.0)), row("heat and stir", HandsOn(Hob), Once(4.0)),
    row("temper", HandsOn(Hob), Once(3.0)), row("render", HandsOn(Hob), Once(8.0)), row("sizzle", HandsOn(Hob), Once(2.0)),
    state("brown", HandsOn(Hob), Once(8.0)), state("toast", HandsOn(Hob), Once(3.0)), state("sweat", HandsOn(Hob), Once(5.0)),
    state("soften", HandsOn(Hob), Once(5.0)), state("melt", HandsOn(Hob), Once(2.0)), state("thicken", HandsOn(Hob), Once(3.0)),
    state("wilt", HandsOn(Hob), Once(2.0)), state("crisp", HandsOn(Hob), Once(4.0)),
    // Unattended, on an appliance.
    state("simmer", Wait(Hob, 15), Once(0.0)), state("boil", Wait(Hob, 10), Once(0.0)), row("parboil", Wait(Hob, 8), Once(0.0)),
    row("blanch", Wait(Hob, 3), Once(0.0)), row("poach", Wait(Hob, 10), Once(0.0)), row("hard-boil", Wait(Hob, 10), Once(0.0)), row("soft-boil", Wait(Hob, 6), Once(0.0)), row("steam", Wait(Hob, 10), Once(0.0)),
    row("stew", Wait(Hob, 60), Once(0.0)), state("cook", Wait(Hob, 10), Once(0.0)), row("braise", Wait(Hob, 60), Once(0.0)),
    state("bubble", Wait(Hob, 5), Once(0.0)), row("pressure cook", Wait(Pressure, 20), Once(0.0)), row("pressure-cook", Wait(Pressure, 20), Once(0.0)),
    row("slow cook", Wait(Slow, 480), Once(0.0)), row("slow-cook", Wait(Slow, 480), Once(0.0)), row("microwave", Wait(Microwave, 3), Once(0.0)),
    row("zap", Wait(Microwave, 3), Once(0.0)), row("nuke", Wait(Microwave, 3), Once(0.0)), state("tick", Wait(Hob, 10), Once(0.0)), state("blip", Wait(Hob, 10), Once(0.0)),
    state("burble", Wait(Hob, 10), Once(0.0)), state("putter", Wait(Hob, 10), Once(0.0)),
    row("grill", Wait(Grill, 8), Once(0.0)), row("broil", Wait(Grill, 8), Once(0.0)), row("roast", Wait(Oven, 40), Once(0.0)),
    row("bake", Wait(Oven, 30), Once(0.0)), row("oven-roast", Wait(Oven, 40), Once(0.0)), row("gratinate", Wait(Oven, 20), Once(0.0)), row("slow-roast", Wait(Oven, 180), Once(0.0)), row("pot-roast", Wait(Oven, 90), Once(0.0)), row("scald", Wait(Hob, 3), Once(0.0)), row("blind bake", Wait(Oven, 15), Once(0.0)), row("blind-bake", Wait(Oven, 15), Once(0.0)), row("par-bake", Wait(Oven, 15), Once(0.0)), row("part-bake", Wait(Oven, 15), Once(0.0)),
    row("par-cook", Wait(Hob, 8), Once(0.0)), row("part-cook", Wait(Hob, 8), Once(0.0)), row("steam in the steamer", Wait(Steamer, 15), Once(0.0)),
    // Unattended, on nothing.
    row("rest", Stand(10), Once(0.0)), row("steam-dry", Stand(2), Once(0.0)), row("stand", Leave, Once(0.0)), state("cool", Stand(30), Once(0.0)), row("soak", Stand(30), Once(0.0)),
    row("marinate", Stand(60), Once(0.0)), row("marinade", Stand(60), Once(0.0)), state("chill", Stand(60), Once(0.0)), row("refrigerate", Stand(60), Once(0.0)),
    state("freeze", Leave, Once(0.0)), state("rise", Stand(60), Once(0.0)), state("prove", Stand(60), Once(0.0)), row("proof", Leave, Once(0.0)),
    row("cure", Leave, MOMENT), row("brine", Leave, MOMENT), row("pickle", Leave, MOMENT), row("macerate", Leave, MOMENT),
    row("ripen", Leave, MOMENT), row("culture", Leave, MOMENT), row("sprout", Leave, MOMENT), row("hydrate", Leave, MOMENT), row("relax", Leave, MOMENT),
    row("firm up", Leave, MOMENT), row("harden", Leave, MOMENT), row("autolyse", Leave, MOMENT), row("bulk ferment", Leave, MOMENT), row("bulk rise", Leave, MOMENT), row("bench rest", Leave, Once(0.0)), row("final proof", Leave, MOMENT),
    row("final prove", Leave, MOMENT), row("second prove", Leave, MOMENT), row("second rise", Leave, MOMENT), row("first rise", Leave, MOMENT), row("first prove", Leave, MOMENT), row("bloom", Leave, MOMENT),
    row("mature", Leave, MOMENT), row("settle", Leave, MOMENT), row("air-dry", Leave, MOMENT), row("dry-brine", Leave, MOMENT), row("swell", Leave, MOMENT),
    row("retard", Stand(480), MOMENT), row("weigh down", Leave, MOMENT), row("weight down", Leave, MOMENT), row("degorge", Stand(30), MOMENT),
    row("thaw", Stand(480), Once(0.0)), row("rehydrate", Stand(20), Once(0.0)), row("defrost", Leave, Once(0.0)), row("leave", Leave, Once(0.0)), row("let", Leave, Once(0.0)),
    row("allow", Leave, Once(0.0)), row("sit", Leave, Once(0.0)), row("steep", Leave, Once(0.0)), row("infuse", Leave, Once(0.0)), row("wait", Leave, Once(0.0)), row("ferment", Leave, Once(0.0)),
    state("double", Leave, Once(0.0)),
    // At the table.
    row("serve", Serve, Once(0.0)), row("enjoy", Serve, Once(0.0)), row("garnish", Serve, Once(0.0)), row("eat", Serve, Once(0.0)), row("devour", Serve, Once(0.0)), row("tuck in", Serve, Once(0.0)), row("dig in", Serve, Once(0.0)), row("dish up", Serve, Once(0.0)),
    row("plate", Serve, Once(0.0)), row("plate up", Serve, Once(0.0)),
];

/// A verb by its word.
pub(super) fn verb(word: &str) -> Option<&'static Verb> {
    VERBS.iter().find(|verb| verb.word == word)
}

/// The verb of "simmering", "baking" or of "peeled", "chopped", by the ending.
pub(super) fn inflected(word: &str, ending: &str) -> Option<&'static Verb> {
    let stem = word.strip_suffix(ending).filter(|stem| stem.len() > 2)?;
    let undoubled =
        stem.chars().next_back().filter(|last| stem.ends_with(&format!("{last}{last}"))).map(|last| stem.len() - last.len_utf8());
    let forms = [stem.to_owned(), format!("{stem}e"), undoubled.map_or(String::new(), |end| stem[..end].to_owned())];
    forms.iter().find_map(|form| verb(form))
}

/// Verbs that cut: the step needs the skill "knife".
pub(super) fn needs_knife(verb: &Verb) -> bool {
    matches!(verb.rate, Rate::Cut(_) | Rate::Peel) && !matches!(verb.word, "tear" | "shred" | "shell" | "hull")
        || matches!(verb.word, "core" | "carve" | "fillet" | "score")
}
