"""Holds the scheduler against OR-Tools CP-SAT (PyPI ortools, one worker), for whoever changes the search: it is no part of `cargo test`.

    pip install ortools==9.15.6755
    python3 tests/outside/cpsat_check.py [--idle] [--seconds 60] [--only afternoon-20] [FOLDER]

It lets `cargo bench --bench schedule` write the invented sessions into FOLDER (or a temporary one), each with the finish that spence found
and proved and the seconds it took; a FOLDER that has sessions already is read as it is. CP-SAT then gets the same sessions, one after
another on the same machine: both must find the same least finish. Printed per size: how many each proved, the median seconds to proof,
and the median over the sessions of CP-SAT's time / spence's. Where no plan keeps every limit, the sums of broken minutes must be the same.
--idle compares the least sum of idle minutes, too, and in sessions up to 20 tasks the fewest hand-overs.
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


KINDS = ("safety", "until", "within", "gap", "hold")


class Model:
    """One session for CP-SAT. Its limits are kept, or broken by as little as can be, kind by kind, where `soft` is asked for."""

    def __init__(self, session, horizon, soft=False):
        self.session, self.horizon, self.soft, self.cp = session, horizon, soft, cp_model.CpModel()
        self.jobs = session["jobs"]
        self.minutes = [job["hands"] + job["wait"] + job["out"] for job in self.jobs]
        self.start = [self.cp.new_int_var(0, horizon, "") for _ in self.jobs]
        self.end = [start + minutes for start, minutes in zip(self.start, self.minutes)]
        self.leaves = [self.leave(person) for person in session["people"]]
        self.watch = self.watches()
        self.who = {}
        self.finish = self.cp.new_int_var(0, horizon, "")
        self.cp.add_max_equality(self.finish, [end for end, job in zip(self.end, self.jobs) if not job["uncounted"]] or [0])
        self.people()
        for machine, facts in enumerate(session["machines"]):
            self.machine(machine, facts)
        self.over = {kind: {} for kind in KINDS}
        self.links()
        self.served()
        self.broken = [sum(self.over[kind].values()) for kind in KINDS]
        self.broken[1] = sum(leave - person["until"] for leave, person in zip(self.leaves, session["people"]) if person["until"] is not None)

    def leave(self, person):
        """When somebody leaves: at `until`, or later where limits may be broken."""
        if person["until"] is None:
            return self.horizon
        return self.cp.new_int_var(person["until"], max(self.horizon, person["until"]), "") if self.soft else person["until"]

    def watches(self):
        """After each stretch of hours: until when somebody stays, and when others come."""
        stretches = presence(self.session["people"], self.horizon)
        watches = []
        for place, (_, end) in enumerate(stretches):
            comes = stretches[place + 1][0] if place + 1 < len(stretches) else self.horizon
            there = [leave for leave, person in zip(self.leaves, self.session["people"]) if person["from"] <= end]
            until = self.cp.new_int_var(0, self.horizon, "")
            self.one_of([until <= leave] for leave in there)
            watches.append((until, comes))
        return (stretches[0][0] if stretches else self.horizon), watches

    def watched(self, job, warm_up, unless=None):
        """Somebody is there from a warm-up before the job to its end."""
        first, watches = self.watch
        unless = [] if unless is None else [unless]
        came = self.cp.add(self.start[job] - warm_up >= first)
        if unless:
            came.only_enforce_if([~literal for literal in unless])
        for until, comes in watches:
            others = [[self.start[job] - warm_up >= comes], [until >= comes]] if comes < self.horizon else []
            self.one_of([[self.end[job] <= until]] + others, unless=unless[0] if unless else None)

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
        for index, (job, start) in enumerate(zip(self.jobs, self.start)):
            for offset, minutes in ((0, job["hands"]), (job["hands"] + job["wait"], job["out"])):
                if minutes == 0:
                    continue
                who = self.who[index, offset > 0] = {}
                for person in job["people"]:
                    here = who[person] = self.cp.new_bool_var("")
                    busy[person].append(self.cp.new_optional_interval_var(start + offset, minutes, start + offset + minutes, here, ""))
                    self.cp.add(start + offset >= self.session["people"][person]["from"]).only_enforce_if(here)
                    self.cp.add(start + offset + minutes <= self.leaves[person]).only_enforce_if(here)
                self.cp.add_exactly_one(who.values())
        for intervals in busy:
            self.cp.add_no_overlap(intervals)

    def machine(self, machine, facts):
        takes = {job: take for job, facts in enumerate(self.jobs) for at, take in facts["machines"] if at == machine and self.minutes[job] > 0}
        intervals = [self.cp.new_interval_var(self.start[job], self.minutes[job], self.end[job], "") for job in takes]
        self.cp.add_cumulative(intervals, list(takes.values()), facts["room"])
        heat = facts["heat"]
        for job in takes:
            warm_up = heat["warm_up"] if heat and self.jobs[job]["temperature"] is not None else 0
            if facts["watched"]:
                self.watched(job, warm_up)
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
                self.watched(job, warm_up, unless=~in_a_run[job])
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

    def limit(self, kind, job, over):
        """`over` minutes at most 0, or broken where that may be; of a job the worst counts."""
        if not self.soft:
            self.cp.add(over <= 0)
            return
        if job not in self.over[kind]:
            self.over[kind][job] = self.cp.new_int_var(0, self.horizon, "")
        self.cp.add(over <= self.over[kind][job])

    def links(self):
        for link in self.session["links"]:
            between = self.start[link["after"]] - self.end[link["before"]]
            self.cp.add(between >= (link["gap"] if link["safety"] else 0))
            if link["gap"] and not link["safety"]:
                self.limit("gap", link["after"], link["gap"] - between)
            if link["within"] is not None:
                self.limit("safety" if link["safety"] else "within", link["after"], between - link["within"])

    def served(self):
        for job, facts in enumerate(self.jobs):
            if facts["serve"]:
                self.limit("hold", job, self.end[job] - facts["serve"]["at"])
                self.limit("hold", job, facts["serve"]["at"] - facts["serve"]["hold"] - self.end[job])

    def hand_overs(self):
        """Steps whose person is not that of the step before in the same making."""
        last, total = {}, 0
        for job, facts in enumerate(self.jobs):
            if facts["hands"] == 0:
                continue
            if facts["making"] in last:
                before, now = self.who[last[facts["making"]], False], self.who[job, False]
                stays = []
                for person in before.keys() & now.keys():
                    both = self.cp.new_bool_var("")
                    self.cp.add_implication(both, before[person])
                    self.cp.add_implication(both, now[person])
                    stays.append(both)
                total += 1 - sum(stays)
            last[facts["making"]] = job
        return total

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
    comes = max((max(person["from"], person["until"] or 0) for person in session["people"]), default=0)
    comes += max((job["serve"]["at"] for job in session["jobs"] if job["serve"]), default=0)
    return jobs + heat * len(session["jobs"]) + sum(link["gap"] for link in session["links"]) + comes + 1


def idle_minutes(session):
    last, total = {}, 0
    for job, start in zip(session["jobs"], session["found"]["starts"]):
        total += max(0, start - last.get(job["making"], start))
        last[job["making"]] = start + job["hands"] + job["wait"] + job["out"]
    return total


def hand_overs(session):
    last, total = {}, 0
    for job, person in zip(session["jobs"], session["found"]["people"]):
        if person is not None:
            total += last.get(job["making"], person) != person
            last[job["making"]] = person
    return total


def least_broken(session, seconds):
    """The least sums of broken minutes, kind by kind, as far as they are proven."""
    found = []
    for place in range(len(KINDS)):
        model = Model(session, horizon(session), soft=True)
        for kind, least in enumerate(found):
            model.cp.add(model.broken[kind] <= least)
        least, sure = (0, True) if isinstance(model.broken[place], int) else model.least(model.broken[place], seconds)
        if not sure:
            break
        found.append(least)
    return found


def compare(session, options):
    """What CP-SAT says of the session, and in what the two differ."""
    ours, wrong = session["found"], []
    began = time.perf_counter()
    model = Model(session, horizon(session))
    finish, proven = model.least(model.finish, options.seconds)
    row = {"seconds": time.perf_counter() - began, "proven": proven, "idle": None, "finish": None, "hand_overs": None}
    broken = any(ours["broken"])
    if finish is None and proven:
        least = least_broken(session, options.seconds)
        if least != ours["broken"][: len(least)]:
            wrong.append(f"limits broken by {ours['broken']}, CP-SAT {least}")
    elif finish is not None:
        row["finish"] = finish
        if broken:
            wrong.append("told that a limit is broken; CP-SAT keeps them all")
        elif proven and (ours["finish"] < finish or ours["bound"] > finish or (ours["finish"] == ours["bound"]) != (ours["finish"] == finish)):
            wrong.append(f"finish {ours['finish']}, bound {ours['bound']}, CP-SAT {finish}")
        elif options.idle and ours["plan_finish"] == finish:
            model = Model(session, horizon(session))
            model.cp.add(model.finish <= finish)
            row["idle"], sure = model.least(model.idle(), options.seconds)
            if sure and row["idle"] == idle_minutes(session) and len(session["jobs"]) <= 20:
                model = Model(session, horizon(session))
                model.cp.add(model.finish <= finish)
                model.cp.add(model.idle() <= row["idle"])
                row["hand_overs"], _ = model.least(model.hand_overs(), options.seconds)
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
                row["ours"] = hand_overs(session)
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
    finishes = [(ours["finish"], row["finish"]) for ours, row, _ in rows if row["finish"]]
    if finishes:
        near = sum(mine <= 1.02 * theirs for mine, theirs in finishes)
        worst = max(mine / theirs for mine, theirs in finishes)
        line += f"; finish within 2 % of CP-SAT's best in {near} of {len(finishes)}, at worst {100 * (worst - 1):.1f} % over"
    named = [(row["ours"], row["hand_overs"]) for _, row, _ in rows if row["hand_overs"] is not None]
    if named:
        near = sum(mine <= theirs + 1 for mine, theirs in named)
        line += f"; hand-overs within one of the least in {near} of {len(named)}, {sum(mine for mine, _ in named)} and {sum(theirs for _, theirs in named)}"
    print(line, flush=True)


if __name__ == "__main__":
    main()
