"""Holds `convert` against the unit library pint (PyPI), for whoever changes the units: it is no part of `cargo test`.

    pip install pint==0.24.4
    cargo build && python3 tests/outside/pint_check.py target/debug/spence

Every pair of weights and every pair of volumes, three amounts each. Then three amounts as purchased and edible portions, worked as
courses on food cost do (edible portion = as purchased x yield); these examples are from memory, and take their yields from the USDA
Standard Reference (refuse of NDB 11282 10 %, 11135 61 %, 11352 25 %). Ends with status 1 where anything differs by more than one part in a million.
"""

import itertools
import json
import subprocess
import sys
import tempfile

import pint

WEIGHTS = {"mg": "milligram", "g": "gram", "kg": "kilogram", "oz": "ounce", "lb": "pound"}
VOLUMES = {
    "ml": "milliliter", "cl": "centiliter", "dl": "deciliter", "l": "liter", "tsp": "teaspoon", "tbsp": "tablespoon",
    "fl oz": "fluid_ounce", "cup": "cup", "pint": "pint", "quart": "quart", "gallon": "gallon",
}
AMOUNTS = [1, 2.5, 370]
EXAMPLES = [
    ("900 g diced onion", "g", 900 / 0.90),
    ("390 g chopped cauliflower", "kg", 0.390 / 0.39),
    ("5 lb diced potato", "lb", 5 / 0.75),
]


def convert(program, line, unit):
    # In an empty folder there is no kitchen: the built-in reference answers.
    with tempfile.TemporaryDirectory() as folder:
        run = subprocess.run([program, "--format", "json", "convert", line, unit], capture_output=True, text=True, cwd=folder)
    if run.returncode != 0:
        sys.exit(f"{line} to {unit}: {run.stderr.strip()}")
    return json.loads(run.stdout)["to"]["amount"]


def main():
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    program = subprocess.run(["realpath", sys.argv[1]], capture_output=True, text=True, check=True).stdout.strip()
    units = pint.UnitRegistry()
    checks = []
    for table in (WEIGHTS, VOLUMES):
        for (ours, theirs), (other, others), amount in itertools.product(table.items(), table.items(), AMOUNTS):
            checks.append((f"{amount} {ours}", other, units.Quantity(amount, theirs).to(others).magnitude))
    checks.extend(EXAMPLES)
    wrong = 0
    for line, unit, expected in checks:
        found = convert(program, line, unit)
        if abs(found - expected) > 1e-6 * expected:
            wrong += 1
            print(f"{line} = {found} {unit}, expected {expected}")
    print(f"{len(checks)} conversions held against pint {pint.__version__}: {wrong} differ")
    sys.exit(1 if wrong else 0)


if __name__ == "__main__":
    main()
