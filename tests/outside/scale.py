#!/usr/bin/env python3
"""How time and memory grow with each count that a kitchen may hold: a table, a row a count and size.

    cargo build --release
    python3 tests/outside/scale.py target/release/spence [COUNT ...] [--most 10000]

Each kitchen is generated, the same every time. `kB` is the size of its files, `s` the processor time of one run, `MB` the most memory it held;
`x` is the growth of the time over the row before (for ten times the count). A run is ended after a minute. Exit 1 is a limit that the program names.
"""

import argparse
import datetime
import hashlib
import json
import os
import pathlib
import resource
import shutil
import signal
import subprocess
import sys
import tempfile

SIZES = [10, 100, 1_000, 10_000]
TODAY = "2026-11-28"
HOUSEHOLD = '[household]\nname = "Scale"\neaters = 2\ncurrency = "EUR"\n'
OVEN = '\n[[appliance]]\nname = "oven"\nroom = 2\nheat = true\n\n[[appliance]]\nname = "hob"\nroom = 4\n'
TRIP = "\n[[trip]]\non = 2026-11-28\n"
SESSION = '\n[[session]]\nstart = "2026-11-29T14:00"\npeople = ["cook", "helper"]\n'


def recipe(name, ingredients, steps, keeps='keeps = { fridge = "4 days", freezer = "2 months" }'):
    lines = ", ".join(json.dumps(line) for line in ingredients)
    return f'name = "{name}"\nmakes = "4 portions"\n{keeps}\ningredients = [{lines}]\n' + "".join(steps)


def step(text, more="", hands="1 min"):
    return f'\n[[step]]\ntext = "{text}"\nhands = "{hands}"\n{more}\n'


def meal(day, lines, at="supper"):
    each = ", ".join(json.dumps(line) for line in lines)
    return f'\n[[meal]]\non = {day}\nat = "{at}"\neach = [{each}]\n'


def date(after):
    """So many days after the Monday of the week."""
    return (datetime.date(2026, 11, 30) + datetime.timedelta(days=after)).isoformat()


def week(body, start="2026-11-30"):
    return f"from = {start}\n{body}"


def foods(n):
    return "".join(f'[[food]]\nname = "food {i}"\nkind = "grain"\nkeeps = {{ cupboard = "300 days" }}\n\n' for i in range(n))


def plain(files, lines):
    files["recipes/stew.toml"] = recipe("Stew", ["400 g pearl barley"], [step("Simmer.", 'on = "hob"\nwait = "30 min"')])
    files["weeks/w.toml"] = week(TRIP + SESSION + meal(date(0), lines))


def eaters(n, files):
    files["kitchen.toml"] = HOUSEHOLD.replace("eaters = 2\n", "") + "".join(f'\n[[eater]]\nname = "Eater {i}"\n' for i in range(n)) + OVEN
    plain(files, ["1 portion recipe:stew", "40 g feta"])


def shops(n, files):
    files["foods.toml"] = foods(20)
    files["shops.toml"] = "".join(f'[[shop]]\nname = "Shop {i}"\nsections = []\ntrip = "{1 + i % 3}.00"\n\n' for i in range(n))
    for i in range(n):
        for food in range(i % 4, 20, 4):
            files["shops.toml"] += f'[[pack]]\nshop = "Shop {i}"\nfood = "food {food}"\nsize = "500 g"\nprice = "{1 + (i * 7 + food) % 5}.{10 + i % 80}"\n\n'
    plain(files, [f"{100 + food} g food {food}" for food in range(20)])


def packs(n, files):
    files["foods.toml"] = foods(20)
    files["shops.toml"] = '[[shop]]\nname = "Shop"\nsections = []\ntrip = "0.00"\n\n' + "".join(
        f'[[pack]]\nshop = "Shop"\nfood = "food {i % 20}"\nsize = "{100 + i} g"\nprice = "{1 + i % 9}.{10 + i % 80}"\n\n' for i in range(n))
    plain(files, [f"{400 + food} g food {food}" for food in range(20)])


def lots(n, files):
    files["foods.toml"] = foods(20)
    files["pantry.toml"] = "".join(
        f'[[lot]]\nfood = "food {i % 20}"\namount = "{10 + i % 90} g"\nplace = "cupboard"\nbest_before = 2027-{1 + i % 12:02}-15\n\n' for i in range(n))
    plain(files, [f"{400 + food} g food {food}" for food in range(20)])


def lines(n, files):
    files["foods.toml"] = foods(n)
    files["shops.toml"] = '[[shop]]\nname = "Shop"\nsections = []\ntrip = "0.00"\n\n' + "".join(
        f'[[pack]]\nshop = "Shop"\nfood = "food {i}"\nsize = "500 g"\nprice = "1.{10 + i % 80}"\n\n' for i in range(n))
    plain(files, [f"{100 + i % 400} g food {i}" for i in range(n)])


def weeks(n, files):
    plain(files, ["1 portion recipe:stew"])
    del files["weeks/w.toml"]
    for i in range(n):
        day = lambda d: date(7 * i + d)
        body = f"\n[[trip]]\non = {day(-2)}\n" + f'\n[[session]]\nstart = "{day(-1)}T14:00"\npeople = ["cook"]\n'
        body += "".join(f'\n[[meal]]\non = {day(d)}\nat = "supper"\neach = ["1 portion recipe:stew", "40 g feta"]\n' for d in range(3))
        files[f"weeks/{i:05}.toml"] = week(body, day(0))


def steps(n, files):
    all_steps = [step(f"Do thing {i}.", 'on = "hob"\nwait = "5 min"' if i % 3 == 0 else "") for i in range(n)]
    files["recipes/stew.toml"] = recipe("Stew", ["400 g pearl barley"], all_steps)
    files["weeks/w.toml"] = week(TRIP + SESSION + meal(date(0), ["1 portion recipe:stew"]))


def makings(n, files):
    body = TRIP + SESSION
    for i in range(n):
        files[f"recipes/dish-{i}.toml"] = recipe(f"Dish {i}", [f"{100 + i % 300} g pearl barley"], [step("Stir."), step("Bake.", 'on = "oven"\ntemperature = "180 °C"\nwait = "20 min"')])
    per_meal = max(1, n // 12)
    for m in range(0, n, per_meal):
        dishes = [f"1 portion recipe:dish-{i}" for i in range(m, min(n, m + per_meal))]
        body += meal(date(m // per_meal % 4), dishes, "supper" if m // per_meal % 2 else "lunch")
    files["weeks/w.toml"] = week(body)


def levels(n, files):
    for i in range(n):
        inner = [f"1 portion recipe:level-{i + 1}", "20 g butter"] if i + 1 < n else ["400 g pearl barley"]
        files[f"recipes/level-{i}.toml"] = recipe(f"Level {i}", inner, [step("Stir.")])
    files["weeks/w.toml"] = week(TRIP + SESSION + meal(date(0), ["1 portion recipe:level-0"]))


def open_meals(n, files):
    fits = {"filling": 6, "sauce": 4}
    for place, many in fits.items():
        for i in range(many):
            files[f"recipes/{place}-{i}.toml"] = recipe(f"{place} {i}", [f"{100 + 20 * i} g pearl barley"], [step("Stir.")], 'keeps = { fridge = "6 days" }\nfits = ["%s"]' % place)
    files["meals.toml"] = '[[pattern]]\nname = "Plate"\neach = ["1 portion any:filling", "1 portion any:sauce"]\n'
    body = TRIP + SESSION + "\n[compose]\none_at_most = 20\n"
    for i in range(n):
        body += f'\n[[meal]]\non = {date(i // 2)}\nat = "{"supper" if i % 2 else "lunch"}"\nopen = true\n'
    files["weeks/w.toml"] = week(body)


def bookings(n, files):
    plain(files, ["1 portion recipe:stew", "1 g plain flour"])
    text = lambda left: f'[[lot]]\nfood = "plain flour"\namount = "{left} g"\nplace = "cupboard"\n'
    sha = lambda one: hashlib.sha256(one.encode()).hexdigest()
    lot = lambda left: {"food": "plain flour", "amount": {"amount": float(left), "unit": "g"}, "place": "cupboard"}
    left, previous, book = 900_000, "", []
    for number in range(1, n + 1):
        after = left if number == 1 else left - 1
        booking = {"number": number, "on": "2026-11-28", "verb": "waste", "what": "thrown away: 1 g plain flour", "why": "spilt"}
        if number == 1:
            booking = {"number": 1, "on": "2026-11-28", "verb": "opening", "what": "what lay on the shelf when the book was begun"}
        booking["changes"] = [{"from": None if number == 1 else lot(left), "to": lot(after)}]
        booking["files"] = {"pantry.toml": {"before": sha(text(left)), "after": sha(text(after))}}
        booking["previous"] = previous
        dumped = lambda own: json.dumps({**booking, "own": own}, separators=(",", ":"), ensure_ascii=False)
        whole = dumped(sha(dumped("")))
        previous, left = sha(whole), after
        book.append(whole + "\n")
    files["pantry.toml"] = text(left)
    files["pantry.book.jsonl"] = "".join(book)


# Count, the generator, and what is run.
COUNTS = {
    "eaters": (eaters, ["list"]),
    "shops": (shops, ["list"]),
    "packs": (packs, ["list"]),
    "lots": (lots, ["list", "stock"]),
    "list lines": (lines, ["list", "print"]),
    "weeks": (weeks, ["list", "check"]),
    "steps": (steps, ["prep"]),
    "makings": (makings, ["list", "prep"]),
    "levels": (levels, ["list"]),
    "open meals": (open_meals, ["compose"]),
    "bookings": (bookings, ["list", "stock", "book", "waste"]),
}
ARGUMENTS = {"waste": ["waste", "1 g plain flour", "--why", "spilt"], "print": ["print", "--only", "list"]}


def run(program, folder, verb):
    """Exit status, processor seconds, most memory in MB; status None where a minute was not enough."""
    command = [program, "--kitchen", folder, "--today", TODAY, *ARGUMENTS.get(verb, [verb])]
    child = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_CPU, (60, 60)))
    said = child.stderr.read().decode(errors="replace").strip().splitlines()
    _, status, used = os.wait4(child.pid, 0)
    if os.WIFSIGNALED(status):
        ended = "ended after a minute" if os.WTERMSIG(status) in (signal.SIGXCPU, signal.SIGKILL) else f"signal {os.WTERMSIG(status)}"
        return ended, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024, ""
    code = os.WEXITSTATUS(status)
    mistakes = [line for line in said if line.startswith("error")]
    return code, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024, mistakes[0][:110] if mistakes else ""


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("program")
    parser.add_argument("counts", nargs="*", help=", ".join(COUNTS))
    parser.add_argument("--most", type=int, default=SIZES[-1])
    asked = parser.parse_args()
    program = str(pathlib.Path(asked.program).resolve())
    print("| count | how many | verb | kB | exit | s | x | MB | said |\n| --- | ---: | --- | ---: | ---: | ---: | ---: | ---: | --- |")
    for name in asked.counts or COUNTS:
        generate, verbs = COUNTS[name]
        before = {}
        for size in (size for size in SIZES if size <= asked.most):
            files = {"kitchen.toml": HOUSEHOLD + OVEN}
            generate(size, files)
            folder = pathlib.Path(tempfile.mkdtemp())
            for path, text in files.items():
                (folder / path).parent.mkdir(parents=True, exist_ok=True)
                (folder / path).write_text(text)
            kilobytes = sum(len(text.encode()) for path, text in files.items() if path != "pantry.book.jsonl") // 1000
            for verb in verbs:
                code, seconds, megabytes, said = run(program, str(folder), verb)
                growth = f"{seconds / before[verb]:.1f}" if before.get(verb, 0) >= 0.005 else ""
                before[verb] = seconds
                print(f"| {name} | {size} | {verb} | {kilobytes} | {code} | {seconds:.2f} | {growth} | {megabytes:.0f} | {said} |", flush=True)
            shutil.rmtree(folder)


if __name__ == "__main__":
    sys.exit(main())
