"""Times the shopping list against the typesetter typst (PyPI typst), for whoever changes the sheets: it is no part of `cargo test`.

    pip install typst==0.15.2
    cargo run --release -- --today 2026-11-27 print --kitchen sample-data --only list --into target/page
    python3 tests/outside/typst_page.py target/page/plan-2026-11-30.json

Both lay out and write the same words in the same type: shops, sections, a box, a name, packs and details a line, and the notes after them, in
two columns of A4. Ours is the fastest run of `cargo bench --bench stages -- i_the_list`, which the script starts; where it has been run before,
give its microseconds as a second argument. Theirs is the fastest of 30 runs, once with a compiler made anew for every page, as a command line
would, and once with one that has read its fonts. The fastest, because other work on the machine only ever adds. A word of the page differs in
every run, because the typesetter remembers what it has set before.
"""

import json
import re
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import typst

RUNS = 30
HEAD = """
#set page(paper: "a4", margin: 10mm, columns: 2, footer: context align(right)[page #counter(page).display("1 of 1", both: true)])
#set text(font: "Source Sans 3", size: 9.5pt, lang: "en")
#let entry(name, packs, details) = block(breakable: false, width: 100%, stroke: (bottom: 0.4pt), inset: (bottom: 3pt), grid(
  columns: (18pt, 1fr, auto), row-gutter: 3pt,
  box(width: 10pt, height: 10pt, stroke: 0.8pt), text(13pt, weight: "semibold", name), text(13pt, packs),
  [], grid.cell(colspan: 2, details)))
"""


def words(text):
    return json.dumps(str(text), ensure_ascii=False)


def amount(quantity):
    return f"{quantity['amount']:g} {quantity['unit']}"


def packs(line):
    return " + ".join(amount(p["amount"]) + " loose" if p["size"] == "loose" else f"{p['count']} × {p['size']}" for p in line["packs"])


def page(shopping, run):
    out = [HEAD]
    for trip in shopping["trips"]:
        out.append(f"= #{words(trip['on'])}\n")
        for shop in trip["shops"]:
            out.append(f"== #{words(shop['shop'] or 'No shop known')} #h(1fr) #{words(shop['cost'] or '')}\n")
            for section in shop["sections"]:
                out.append(f"=== #{words(section['section'])}\n")
                for line in section["lines"]:
                    details = f"need {amount(line['need'])} · until at least {line['last_used']} · for {', '.join(line['for'])}"
                    out.append(f"#entry({words(line['food'])}, {words(packs(line))}, {words(details)})\n")
        out.append("#pagebreak()\n")
    notes = [f"{n.get('food') or n.get('recipe')}, {amount(n['amount'])}, {n['place']}" for n in shopping["from_pantry"]]
    notes += [f"{n.get('food') or n.get('recipe')}, {amount(n['amount'])}, use up by {n['until']}" for n in shopping["expiring"]]
    notes += [f"{n['food']}, {amount(n['amount'])}, good until {n['until']}" for n in shopping["leftovers"]]
    notes += [f"{n['at']} {n['text']}" for n in shopping["moves"]] + shopping["ask"] + shopping["no_price"] + shopping["warnings"]
    out.extend(f"#{words(note)}\n\n" for note in notes)
    return "".join(out) + f"#{words(f'run {run}')}\n"


def fastest_ms(once):
    times = []
    for run in range(-3, RUNS):
        begun = time.perf_counter()
        once(run)
        if run >= 0:
            times.append((time.perf_counter() - begun) * 1000)
    return min(times)


def ours_ms():
    if len(sys.argv) > 2:
        return float(sys.argv[2]) / 1000
    bench = subprocess.run(["cargo", "bench", "--bench", "stages", "--", "i_the_list"], capture_output=True, text=True, check=True).stdout
    row = next(line for line in bench.splitlines() if "i_the_list" in line)
    number, unit = re.findall(r"([\d.]+) (ns|µs|ms)", row)[0]
    return float(number) * {"ns": 1e-6, "µs": 1e-3, "ms": 1.0}[unit]


def main():
    if len(sys.argv) < 2:
        sys.exit(__doc__)
    shopping = json.loads(Path(sys.argv[1]).read_text(encoding="utf-8"))["list"]
    fonts = [str(Path(__file__).resolve().parents[2] / "fonts")]
    with tempfile.TemporaryDirectory() as folder:
        source = Path(folder) / "list.typ"

        def anew(run):
            source.write_text(page(shopping, run), encoding="utf-8")
            return typst.compile(str(source), font_paths=fonts)

        written = anew(0)
        compiler = typst.Compiler(str(source), font_paths=fonts)

        def warm(run):
            source.write_text(page(shopping, run + 1000), encoding="utf-8")
            return compiler.compile(str(source))

        theirs, theirs_warm = fastest_ms(anew), fastest_ms(warm)
    ours = ours_ms()
    print(f"typst writes {len(written)} bytes in {theirs:.1f} ms, {theirs_warm:.1f} ms with its fonts read; spence writes its page in {ours:.2f} ms")
    print(f"ratio {theirs / ours:.0f}, with the fonts read {theirs_warm / ours:.0f}")


if __name__ == "__main__":
    main()
