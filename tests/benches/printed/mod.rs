//! Lines as cookery books print them, of foods that the reference knows.

pub const LINES: [&str; 19] = [
    "8 chicken thighs",
    "2 tins (400 g) white beans, drained",
    "240 g drained white beans",
    "2 cups cooked rice",
    "3 cloves garlic, peeled",
    "4 garlic cloves, finely chopped",
    "4 tbsp olive oil",
    "1 sprig rosemary",
    "2 x 400 g chopped tomatoes",
    "300 g pearl barley",
    "1½ cups sliced onion",
    "1 medium red onion, thinly sliced",
    "500 g beetroot, peeled",
    "2-3 carrots",
    "juice of half a lemon",
    "200 g plain flour, plus 2 tbsp for dusting",
    "salt, to taste",
    "600 g boneless, skinless chicken thighs, cut into chunks",
    "1 lb 4 oz minced beef",
];
