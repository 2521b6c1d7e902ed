"""Holds the scheduler against OR-Tools CP-SAT (PyPI ortools, one worker), for whoever changes the search: it is no part of `cargo test`.

    pip install ortools==9.15.6755
    python3 tests/outside/cpsat_check.py [--idle] [--seconds 60] [--only afternoon-20] [FOLDER]

It lets `cargo bench --bench schedule` write the invented sessions into FOLDER (or a temporary one), each with the finish that spence found
and proved and the seconds it took; a FOLDER that has sessions already is read as it is. CP-SAT then gets the same sessions, one after
another on the same machine: both must find the same least finish. Printed per size: how many each proved, the median seconds to proof,
and the median over the sessions of CP-SAT's time / spence's. --idle compares the least sum of idle minutes, too.
Ends with status 1 where the two differ. Run it on a machine that does nothing else.
"""

import argparse
import itertools
import json
import os
import pathlib
import statistics
import subprocess
import sys
import tempfile
import time

from ortools.sat.python import cp_model

SAME_DEGREES = 1e-6


def sessions(folder):
    paths = sorted(pathlib.Path(folder).glob("*.json"))
    if not paths:
        subprocess.run(["cargo", "bench", "--bench", "schedule"], check=True, env=os.environ | {"SPENCE_SESSIONS": str(folder)})
        paths = sorted(pathlib.Path(folder).glob("*.json"))
    return [json.loads(path.read_text()) for path in paths]


def presence(people, horizon):
    """When anybody is there: stretches in order, merged where they touch."""
    stretches = []
    for person in sorted(people, key=lambda person: person["from"]):
        start, end = person["from"], horizon if person["until"] is None else min(person["until"], horizon)
        if start >= end:
            continue
        if stretches and start <= stretches[-1][1]:
            stretches[-1][1] = max(stretches[-1][1], end)
        else:
            stretches.append([start, end])
    return stretches


class Model:
    """One session for CP-SAT. Limits of recipes (`soft`) are kept, or overrun by as little as can be where `soft` is asked for."""

    def __init__(self, session, horizon, soft=False):
        self.session, self.horizon, self.cp = session, horizon, cp_model.CpModel()
        self.jobs = session["jobs"]
        self.minutes = [job["hands"] + job["wait"] + job["out"] for job in self.jobs]
        self.start = [self.cp.new_int_var(0, horizon, "") for _ in self.jobs]
        self.end = [start + minutes for start, minutes in zip(self.start, self.minutes)]
        self.there = presence(session["people"], horizon)
        self.finish = self.cp.new_int_var(0, horizon, "")
        self.cp.add_max_equality(self.finish, self.end or [0])
        self.people()
        for machine, facts in enumerate(session["machines"]):
            self.machine(machine, facts)
        self.overrun = self.links(soft)

    def one_of(self, conditions, unless=None):
        """At least one of several lists of inequalities holds, unless the literal does."""
        literals = []
        for condition in conditions:
            literal = self.cp.new_bool_var("")
            literals.append(literal)
            for inequality in condition:
                self.cp.add(inequality).only_enforce_if(literal)
        self.cp.add_bool_or(literals + ([] if unless is None else [unless]))

    def people(self):
        busy = [[] for _ in self.session["people"]]
        for job, start in zip(self.jobs, self.start):
            for offset, minutes in ((0, job["hands"]), (job["hands"] + job["wait"], job["out"])):
                if minutes == 0:
                    continue
                who = []
                for person in job["people"]:
                    facts, here = self.session["people"][person], self.cp.new_bool_var("")
                    who.append(here)
                    busy[person].append(self.cp.new_optional_interval_var(start + offset, minutes, start + offset + minutes, here, ""))
                    self.cp.add(start + offset >= facts["from"]).only_enforce_if(here)
                    if facts["until"] is not None:
                        self.cp.add(start + offset + minutes <= facts["until"]).only_enforce_if(here)
                self.cp.add_exactly_one(who)
        for intervals in busy:
            self.cp.add_no_overlap(intervals)

    def machine(self, machine, facts):
        takes = {job: take for job, facts in enumerate(self.jobs) for at, take in facts["machines"] if at == machine and self.minutes[job] > 0}
        intervals = [self.cp.new_interval_var(self.start[job], self.minutes[job], self.end[job], "") for job in takes]
        self.cp.add_cumulative(intervals, list(takes.values()), facts["room"])
        heat = facts["heat"]
        for job in takes:
            warm_up = heat["warm_up"] if heat and self.jobs[job]["temperature"] is not None else 0
            self.one_of([self.start[job] - warm_up >= first, self.end[job] <= last] for first, last in self.there)
        if heat:
            self.oven(list(takes), heat)

    def oven(self, loads, heat):
        """Loads fall into runs: two in one run differ by at most `near`, two in different runs lie a warm-up apart."""
        warm_up = heat["warm_up"]
        wanted = {job: self.jobs[job]["temperature"] for job in loads}
        in_a_run = {job: self.cp.new_bool_var("") for job in loads}
        for job in loads:
            if wanted[job] is not None:
                self.cp.add(in_a_run[job] == 1)
            else:
                stretches = ([self.start[job] - warm_up >= first, self.end[job] <= last] for first, last in self.there)
                self.one_of(stretches, unless=~in_a_run[job])
        same = {}
        for one, other in itertools.combinations(loads, 2):
            together = same[one, other] = same[other, one] = self.cp.new_bool_var("")
            self.cp.add_implication(together, in_a_run[one])
            self.cp.add_implication(together, in_a_run[other])
            if None not in (wanted[one], wanted[other]) and abs(wanted[one] - wanted[other]) > heat["near"] + SAME_DEGREES:
                self.cp.add(together == 0)
            first = self.cp.new_bool_var("")
            apart = [in_a_run[one], in_a_run[other], ~together]
            self.cp.add(self.end[one] + warm_up <= self.start[other]).only_enforce_if(apart + [first])
            self.cp.add(self.end[other] + warm_up <= self.start[one]).only_enforce_if(apart + [~first])
            for cold, hot in ((one, other), (other, one)):
                first = self.cp.new_bool_var("")
                apart = [~in_a_run[cold], in_a_run[hot]]
                self.cp.add(self.end[cold] + warm_up <= self.start[hot]).only_enforce_if(apart + [first])
                self.cp.add(self.end[hot] <= self.start[cold]).only_enforce_if(apart + [~first])
        for one, other, third in itertools.permutations(loads, 3):
            self.cp.add_bool_or([~same[one, other], ~same[other, third], same[one, third]])

    def links(self, soft):
        over = {}
        for link in self.session["links"]:
            between = self.start[link["after"]] - self.end[link["before"]]
            self.cp.add(between >= link["gap"])
            if link["within"] is None:
                continue
            if not (soft and link["soft"]):
                self.cp.add(between <= link["within"])
                continue
            late = over.setdefault(link["after"], self.cp.new_int_var(0, self.horizon, ""))
            self.cp.add(between - link["within"] <= late)
        return sum(over.values())

    def idle(self):
        last, total = {}, 0
        for job, facts in enumerate(self.jobs):
            if facts["making"] in last:
                between = self.cp.new_int_var(0, self.horizon, "")
                self.cp.add(between >= self.start[job] - self.end[last[facts["making"]]])
                total += between
            last[facts["making"]] = job
        return total

    def least(self, objective, seconds):
        """The least value and whether it is proven; (None, True) where there is no plan."""
        self.cp.minimize(objective)
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.max_time_in_seconds = seconds
        status = solver.solve(self.cp)
        found = status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
        return round(solver.objective_value) if found else None, status in (cp_model.OPTIMAL, cp_model.INFEASIBLE)


def horizon(session):
    jobs = sum(job["hands"] + job["wait"] + job["out"] for job in session["jobs"])
    heat = sum(machine["heat"]["warm_up"] for machine in session["machines"] if machine["heat"])
    comes = max((person["from"] for person in session["people"]), default=0)
    return jobs + heat * len(session["jobs"]) + sum(link["gap"] for link in session["links"]) + comes + 1


def idle_minutes(session):
    last, total = {}, 0
    for job, start in zip(session["jobs"], session["found"]["starts"]):
        total += max(0, start - last.get(job["making"], start))
        last[job["making"]] = start + job["hands"] + job["wait"] + job["out"]
    return total


def compare(session, options):
    """What CP-SAT says of the session, and in what the two differ."""
    ours, wrong = session["found"], []
    began = time.perf_counter()
    model = Model(session, horizon(session))
    finish, proven = model.least(model.finish, options.seconds)
    row = {"seconds": time.perf_counter() - began, "proven": proven, "idle": None}
    if finish is None and proven and ours["possible"]:
        model = Model(session, horizon(session), soft=True)
        over, sure = model.least(model.overrun, options.seconds)
        if sure and over != ours["over"]:
            wrong.append(f"limits overrun by {ours['over']}, CP-SAT {over}")
    elif finish is not None:
        if ours["over"] or not ours["possible"]:
            wrong.append("told to have no plan that holds every rule; CP-SAT has one")
        elif proven and (ours["finish"] < finish or ours["bound"] > finish or (ours["finish"] == ours["bound"]) != (ours["finish"] == finish)):
            wrong.append(f"finish {ours['finish']}, bound {ours['bound']}, CP-SAT {finish}")
        elif options.idle and ours["plan_finish"] == finish:
            model = Model(session, finish)
            row["idle"], _ = model.least(model.idle(), options.seconds)
    return row, wrong


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("folder", nargs="?")
    parser.add_argument("--idle", action="store_true")
    parser.add_argument("--seconds", type=float, default=60)
    parser.add_argument("--only", default="")
    options = parser.parse_args()
    wrong = 0
    with tempfile.TemporaryDirectory() as folder:
        found = [one for one in sessions(options.folder or folder) if one["name"].startswith(options.only)]
        for size, group in itertools.groupby(found, key=lambda one: one["name"].rsplit("-", 1)[0]):
            rows = []
            for session in group:
                row, differs = compare(session, options)
                rows.append((session["found"], row, idle_minutes(session)))
                wrong += bool(differs)
                for words in differs:
                    print(f"{session['name']}: {words}")
            told(size, rows)
    sys.exit(1 if wrong else 0)


def told(size, rows):
    proven = [(ours, row) for ours, row, _ in rows if ours["finish"] == ours["bound"] and row["proven"]]
    line = f"{size}: {len(rows)} sessions, proven by spence {sum(ours['finish'] == ours['bound'] for ours, _, _ in rows)}"
    line += f", by CP-SAT {sum(row['proven'] for _, row, _ in rows)}"
    if proven:
        ratio = statistics.median(row["seconds"] / max(ours["seconds"], 1e-6) for ours, row in proven)
        mine, theirs = (statistics.median(times) for times in zip(*((ours["seconds"], row["seconds"]) for ours, row in proven)))
        line += f"; median to proof {mine * 1e3:.1f} ms and {theirs * 1e3:.1f} ms, ratio {ratio:.1f}"
    line += f"; whole plan at most {max(ours['plan_seconds'] for ours, _, _ in rows):.2f} s"
    both = [(idle, row["idle"]) for _, row, idle in rows if row["idle"] is not None]
    if both:
        line += f"; idle minutes {sum(mine for mine, _ in both)} and {sum(theirs for _, theirs in both)} in {len(both)} sessions"
        line += f", the same in {sum(mine == theirs for mine, theirs in both)}"
    print(line, flush=True)


if __name__ == "__main__":
    main()
