//! Where something happens: the words that mean an appliance, and those that only look as if they did.

use crate::kitchen::ApplianceKind;

pub(super) type Kind = ApplianceKind;

/// What a phrase says of the place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Place {
    /// On or in the appliance.
    At(Kind),
    /// On the hob, if anything is heated there: a pan alone.
    Pan,
    /// Off the heat.
    Off,
    /// What goes into the oven or under the grill, whoever puts it there.
    Ware,
    /// What may go there, where one of them is heated: "in the dish", "on the tray".
    Dish,
    /// On or in what heats and is of none of the kinds: it is there only where the household has one of that name.
    Other,
    /// A thing that has an appliance in its name, or a place without heat.
    Nothing,
}

/// A phrase as it is written, and what it means. The longest that fits is taken, so "roasting pan" is no pan on the hob.
#[rustfmt::skip]
pub(super) static PLACES: &[(Place, &str)] = &[
    (Place::At(Kind::Oven), "oven"), (Place::At(Kind::Oven), "middle shelf"), (Place::At(Kind::Oven), "top shelf"),
    (Place::At(Kind::Oven), "moderate one"), (Place::At(Kind::Oven), "slow one"), (Place::At(Kind::Oven), "brisk one"),
    (Place::At(Kind::Hob), "hob"), (Place::At(Kind::Hob), "stove"), (Place::At(Kind::Hob), "stovetop"), (Place::At(Kind::Hob), "stove top"),
    (Place::At(Kind::Hob), "on the heat"), (Place::At(Kind::Hob), "over the heat"), (Place::At(Kind::Hob), "over heat"), (Place::At(Kind::Hob), "to the heat"), (Place::At(Kind::Hob), "burner"),
    (Place::At(Kind::Hob), "low heat"), (Place::At(Kind::Hob), "medium heat"), (Place::At(Kind::Hob), "high heat"), (Place::At(Kind::Hob), "gentle heat"),
    (Place::At(Kind::Hob), "moderate heat"), (Place::At(Kind::Hob), "medium low heat"), (Place::At(Kind::Hob), "medium high heat"),
    (Place::At(Kind::Hob), "moderately high heat"), (Place::At(Kind::Hob), "strong heat"), (Place::At(Kind::Hob), "fierce heat"), (Place::At(Kind::Hob), "low flame"),
    (Place::At(Kind::Hob), "medium flame"), (Place::At(Kind::Hob), "high flame"), (Place::At(Kind::Hob), "low ring"),
    (Place::At(Kind::Hob), "lowest heat"), (Place::At(Kind::Hob), "highest heat"), (Place::At(Kind::Hob), "brisk heat"), (Place::At(Kind::Hob), "gentle flame"),
    (Place::At(Kind::Hob), "lowest flame"), (Place::At(Kind::Hob), "slow fire"), (Place::At(Kind::Hob), "gentle fire"), (Place::At(Kind::Hob), "moderate fire"),
    (Place::At(Kind::Hob), "clear fire"), (Place::At(Kind::Hob), "brisk fire"), (Place::At(Kind::Hob), "quick fire"), (Place::At(Kind::Hob), "good fire"), (Place::At(Kind::Hob), "hot fire"),
    (Place::At(Kind::Hob), "sharp fire"), (Place::At(Kind::Hob), "lively heat"), (Place::At(Kind::Hob), "lively flame"), (Place::At(Kind::Hob), "steady heat"), (Place::At(Kind::Hob), "low fire"), (Place::At(Kind::Hob), "over the fire"), (Place::At(Kind::Hob), "simmering water"),
    (Place::At(Kind::Pressure), "pressure cooker"), (Place::At(Kind::Pressure), "high pressure"), (Place::At(Kind::Pressure), "low pressure"),
    (Place::At(Kind::Pressure), "under pressure"), (Place::At(Kind::Pressure), "full pressure"), (Place::At(Kind::Pressure), "natural release"), (Place::At(Kind::Pressure), "to pressure"), (Place::At(Kind::Pressure), "at pressure"),
    (Place::At(Kind::Pressure), "natural pressure release"), (Place::At(Kind::Pressure), "whistle"),
    (Place::At(Kind::Slow), "slow cooker"), (Place::At(Kind::Rice), "rice cooker"), (Place::At(Kind::Microwave), "microwave"),
    (Place::At(Kind::Microwave), "microwave oven"), (Place::At(Kind::Microwave), "microwaveable"), (Place::At(Kind::Microwave), "microwavable"),
    (Place::At(Kind::Microwave), "microwave proof"), (Place::At(Kind::Grill), "under the grill"), (Place::At(Kind::Grill), "grill"), (Place::At(Kind::Grill), "broiler"),
    (Place::At(Kind::Steamer), "steamer"),
    (Place::Pan, "pan"), (Place::Pan, "saucepan"), (Place::Pan, "pot"), (Place::Pan, "wok"), (Place::Pan, "skillet"), (Place::Pan, "frying pan"),
    (Place::Pan, "stockpot"), (Place::Pan, "dutch oven"), (Place::Pan, "kadai"), (Place::Pan, "stewpan"), (Place::Pan, "griddle"), (Place::Pan, "boiling water"), (Place::Pan, "griddle pan"), (Place::Pan, "grill pan"), (Place::Pan, "boiling salted water"),
    (Place::Pan, "salted boiling water"),
    (Place::At(Kind::Hob), "lowest possible heat"), (Place::At(Kind::Hob), "lowest possible flame"), (Place::At(Kind::Hob), "very low heat"),
    (Place::At(Kind::Hob), "very low flame"), (Place::At(Kind::Hob), "very gentle heat"), (Place::At(Kind::Hob), "smallest flame"), (Place::At(Kind::Hob), "tiniest flame"),
    (Place::At(Kind::Hob), "lowest flame possible"), (Place::At(Kind::Hob), "lowest heat possible"), (Place::At(Kind::Hob), "faintest heat"),
    (Place::At(Kind::Pressure), "pressure pan"), (Place::At(Kind::Pressure), "pressure saucepan"), (Place::At(Kind::Pressure), "pressure pot"),
    (Place::At(Kind::Pressure), "lb pressure"), (Place::At(Kind::Pressure), "pound pressure"), (Place::At(Kind::Pressure), "psi"),
    (Place::Other, "sous vide"), (Place::Other, "water bath at"), (Place::Other, "barbecue"), (Place::Other, "bbq"), (Place::Other, "barbeque"), (Place::Other, "air fryer"),
    (Place::Other, "dehydrator"), (Place::Other, "smoker"), (Place::Other, "over coal"), (Place::Other, "hot coal"), (Place::Other, "campfire"),
    (Place::Other, "tandoor"), (Place::Other, "bread machine"), (Place::Other, "bread maker"), (Place::Other, "waffle iron"),
    (Place::Other, "toaster"), (Place::Other, "in the kettle"), (Place::Other, "in a kettle"), (Place::Other, "sandwich press"), (Place::Other, "contact grill"),
    (Place::Other, "rotisserie"),
    (Place::Off, "iced water"), (Place::Off, "ice water"), (Place::Off, "ice bath"), (Place::Off, "off the heat"), (Place::Off, "from the heat"), (Place::Off, "from heat"), (Place::Off, "out of the oven"), (Place::Off, "from the oven"),
    (Place::Off, "turn off the heat"), (Place::Off, "heat off"), (Place::Off, "switch off the heat"), (Place::Off, "off heat"), (Place::Off, "off the stove"), (Place::Off, "off the hob"), (Place::Off, "from the hob"),
    (Place::Off, "from the stove"), (Place::Off, "from the microwave"), (Place::Off, "from the grill"), (Place::Off, "from the pan"), (Place::Off, "from the pot"), (Place::Off, "turn off the oven"),
    (Place::Off, "from the slow cooker"), (Place::Off, "from the pressure cooker"), (Place::Off, "turn the heat off"), (Place::Off, "turn the oven off"), (Place::Off, "wire rack"), (Place::Off, "cooling rack"),
    (Place::Nothing, "oven proof"), (Place::Nothing, "oven safe"), (Place::Nothing, "oven glove"),
    (Place::Nothing, "oven rack"), (Place::Nothing, "pan juice"),
    (Place::Nothing, "steamer basket"), (Place::Nothing, "warm oven dish"),
];

/// Ovenware: what is put into it happens in the oven, or under the grill that is heated.
#[rustfmt::skip]
pub(super) static WARES: &[(Place, &str)] = &[
    (Place::Ware, "roasting tin"), (Place::Ware, "roasting pan"), (Place::Ware, "roasting tray"), (Place::Ware, "roasting dish"), (Place::Ware, "roasting rack"),
    (Place::Ware, "baking tray"), (Place::Ware, "baking sheet"), (Place::Ware, "baking tin"), (Place::Ware, "baking pan"), (Place::Ware, "baking dish"),
    (Place::Ware, "oven tray"), (Place::Ware, "oven dish"), (Place::Ware, "ovenproof dish"), (Place::Ware, "oven proof dish"), (Place::Ware, "ovenware dish"),
    (Place::Ware, "sheet pan"), (Place::Ware, "cake tin"), (Place::Ware, "cake pan"), (Place::Ware, "loaf tin"), (Place::Ware, "loaf pan"),
    (Place::Ware, "muffin tin"), (Place::Ware, "muffin pan"), (Place::Ware, "muffin case"), (Place::Ware, "bun tin"), (Place::Ware, "pie dish"), (Place::Ware, "pie tin"),
    (Place::Ware, "pie pan"), (Place::Ware, "pie plate"), (Place::Ware, "tart tin"), (Place::Ware, "tart pan"), (Place::Ware, "flan tin"), (Place::Ware, "springform pan"),
    (Place::Ware, "springform tin"), (Place::Ware, "sandwich tin"), (Place::Ware, "square pan"), (Place::Ware, "square tin"), (Place::Ware, "tube pan"), (Place::Ware, "bundt pan"),
    (Place::Ware, "jelly roll pan"), (Place::Ware, "swiss roll tin"), (Place::Ware, "gratin dish"), (Place::Ware, "lasagne dish"), (Place::Ware, "souffle dish"), (Place::Ware, "soufflé dish"),
    (Place::Ware, "pizza stone"), (Place::Ware, "baking stone"), (Place::Ware, "grill tray"), (Place::Ware, "broiler pan"), (Place::Ware, "grill rack"),
    (Place::Dish, "dish"), (Place::Dish, "tin"), (Place::Dish, "tray"), (Place::Dish, "casserole"), (Place::Dish, "casserole dish"), (Place::Dish, "ramekin"),
    (Place::Dish, "foil"), (Place::Dish, "parcel"), (Place::Dish, "case"), (Place::Dish, "mould"),
];

/// What oven words mean in degrees Celsius: slow, moderate and hot as cookery books print them; those between are common practice, no source.
pub(super) static OVENS: &[(f64, &str)] = &[
    (120.0, "very slow oven"),
    (120.0, "very cool oven"),
    (140.0, "cool oven"),
    (150.0, "slow oven"),
    (150.0, "low oven"),
    (160.0, "moderately slow oven"),
    (180.0, "moderate oven"),
    (180.0, "medium oven"),
    (200.0, "moderately hot oven"),
    (200.0, "fairly hot oven"),
    (200.0, "quick oven"),
    (200.0, "brisk oven"),
    (220.0, "hot oven"),
    (240.0, "very hot oven"),
    (180.0, "moderate heat oven"),
    // "In a hot oven for 20 minutes, then in a moderate one for an hour."
    (180.0, "moderate one"),
    (150.0, "slow one"),
    (200.0, "brisk one"),
];

/// Gas marks and their degrees Celsius, as printed on British cookers.
pub(super) static GAS: &[(f64, f64)] = &[
    (0.25, 110.0),
    (0.5, 120.0),
    (1.0, 140.0),
    (2.0, 150.0),
    (3.0, 170.0),
    (4.0, 180.0),
    (5.0, 190.0),
    (6.0, 200.0),
    (7.0, 220.0),
    (8.0, 230.0),
    (9.0, 240.0),
];
