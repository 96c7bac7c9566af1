#!/usr/bin/python3
"""Check workbooks that boxbook writes, through LibreOffice and openpyxl.

usage: workbook.py BOXBOOK [--keep FOLDER]

BOXBOOK is the program. For the demo (each pilot, one season and all seasons)
and three generated ledgers, one of which gives ten thousand rows of marks:

- two builds are the same bytes
- every formula, recalculated by LibreOffice, gives the value stored beside it
  within 1e-9, and no cell is an error but the gaps of a chart
- a reader that does not calculate sees numbers as numbers
- every number of the season's JSON stands in the workbook
- a mark changed in the workbook and recalculated gives what boxbook gives for
  the same change in the ledger: mean, points, lost, percent, the points lost by
  family, the families' percents

The treasurer's workbook likewise, of the demo, of a ledger of awkward accounts
and of generated ones; every amount of the year's JSON stands in it. A posting
and a rate changed in it, and recalculated, give the workbook of the ledger
changed alike; a sum that leaves a posting out is found.

Needs Debian's libreoffice-calc and python3-openpyxl. Prints what was compared
and closes with "N passed, N failed"; exits 1 if any failed.
"""

import argparse
import bisect
import hashlib
import json
import pathlib
import random
import re
import shutil
import subprocess
import sys
import tempfile
import time
import warnings

import openpyxl

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
import accounts  # noqa: E402
import recalculate as lo  # noqa: E402

warnings.filterwarnings("ignore", message="Sparkline Group extension")

TOP = pathlib.Path(__file__).resolve().parent.parent
ASOF = "2026-11-25"
ALL = ["--since", "1990-01-01"]


class Tally:
    """Counts what held and what did not."""

    def __init__(self):
        self.passed, self.failed, self.start = 0, 0, time.monotonic()

    def check(self, name, problems, said=""):
        took = f"{time.monotonic() - self.start:5.0f}s"
        if problems:
            self.failed += 1
            print(f"{took} FAIL {name}: {len(problems)} problems", flush=True)
            for line in problems[:12]:
                print("          " + line)
        else:
            self.passed += 1
            print(f"{took} ok   {name}{': ' + said if said else ''}", flush=True)


# ------------------------------------------------------------- the program

class Program:
    """The program under test."""

    def __init__(self, path):
        self.path = str(pathlib.Path(path).resolve())

    def run(self, *args):
        done = subprocess.run([self.path, *args, "--asof", ASOF], capture_output=True, text=True, timeout=300, check=False)
        if done.returncode != 0:
            raise SystemExit(f"boxbook {' '.join(args)}: {done.stderr}")
        return done.stdout

    def json(self, *args):
        return json.loads(self.run(*args, "--format", "json"))

    def workbook(self, ledger, pilot, target, flags):
        self.run("workbook", "-f", str(ledger), "--pilot", pilot, "-o", str(target), *flags)


# --------------------------------------------------- ledgers made for checks

SEQUENCES = {
    "round": (["1.2.6.3:8 9.11.1.5:6", "7.2.2.1:6 9.1.3.2:4", "8.5.2.1:10 9.4.4.2:5", "5.2.1.1:17 9.1.1.1:6 9.1.5.1:2",
               "7.4.1.1:10", "2.3.1.1:5", "8.4.1.1:13 9.1.1.2:8", "1.1.1.1:2 9.9.3.4:11", "7.4.3.1:14", "1.2.1.1:8 9.1.2.4:10",
               "1.1.1.1:2 9.2.3.4:9", "2.2.3.1:22"], 10),
    "square": (["7.4.3.1:14", "8.5.1.1:11 9.1.2.2:6", "1.2.6.3:8 9.11.1.4:5", "K 14", "7.2.2.1:6 9.4.3.2:6",
                "8.4.3.1:14 9.1.1.1:6 9.1.5.1:2", "2.4.1.1:6", "1.1.1.1:2 9.10.3.4:13", "7.4.1.1:10 9.1.3.4:8",
                "1.1.1.1:2 9.9.3.4:11", "K 12 6 9.1", "5.2.1.1:17"], 10),
}
FAULTS = ["radius seen", "line-angle 10deg seen", "roll-stop 20deg seen", "line-length 3:1 seen", "pull-rate felt"]
STYLES = ["panel-mean", "drop-extremes", "as-graded"]


def mark(dice, weighted=False):
    if weighted:
        return f"{dice.randint(8, 19) / 2:.1f}"
    roll = dice.random()
    for word, chance in (("HZ", .03), ("PZ", .02), ("AV", .02), ("-", .01), ("A", .005), ("CHZ", .004)):
        if roll < chance:
            return word
        roll -= chance
    return f"{dice.randint(8, 19) / 2:.1f}"


def generated(seed, contests, judges):
    """A ledger of one pilot: three flights a contest, thirteen rows a flight."""
    dice = random.Random(seed)
    out = ['pilot gen\n  name "Gen Erated"\n']
    for name, (figures, positioning) in SEQUENCES.items():
        out.append(f"sequence {name}\n  category intermediate\n  programme {'known' if name == 'round' else 'unknown'}\n")
        out += [f"  {i + 1} {f}\n" for i, f in enumerate(figures)]
        out.append(f"  positioning K {positioning}\n")
    names = ["AA", "BB", "CC", "DD", "EE", "FF", "GG"]
    for c in range(contests):
        year, month, day = 2026 - c // 24, 1 + (c % 24) // 2, 3 + 14 * (c % 2)
        panel = dice.sample(names, dice.choice(judges))
        out.append(f"\ncontest c{c} {year}-{month:02}-{day:02}..{year}-{month:02}-{day + 2:02}\n  name \"Contest {c}\"\n  ladder us\n"
                   f"  rules {dice.choice(STYLES)}\n  panel {' '.join(panel)}\n")
        for offset, programme, sequence in ((0, "known", "round"), (1, "unknown", "square"), (2, "free", "round")):
            out.append(f"flight {year}-{month:02}-{day + offset:02} gen {programme}\n  contest c{c}\n  sequence {sequence}\n")
            figures = SEQUENCES[sequence][0]
            for row in [str(i + 1) for i in range(len(figures))] + ["positioning"]:
                out.append(f"  {row} " + " ".join(mark(dice, row == "positioning") for _ in panel) + "\n")
            if dice.random() < .15:
                out.append(f"  penalty interruption {dice.choice(['30', '12.5'])}\n")
            if dice.random() < .3:
                out.append(f"  official {dice.randint(700, 1300)}.{dice.randint(0, 99):02}\n")
            for _ in range(dice.choice([0, 0, 1, 3])):
                figure = dice.randrange(len(figures))
                fault, on = dice.choice(FAULTS), ""
                codes = [word.split(":")[0] for word in figures[figure].split() if ":" in word]
                if codes and dice.random() < .6:
                    words = fault.split()
                    fault, on = " ".join(words[:-1]), f" on {dice.choice(codes)} {words[-1]}"
                out.append(f"  fault {figure + 1} {fault}{on}\n")
    return "".join(out)


def change(text, flight, figure, seat, new):
    """The ledger with one mark changed."""
    date, pilot, programme = flight.split("/")
    lines = text.split("\n")
    at = next(i for i, line in enumerate(lines) if line.split()[:4] == ["flight", date, pilot, programme])
    row = next(i for i in range(at + 1, len(lines)) if lines[i].split()[:1] == [str(figure)])
    head, *rest = lines[row].split()
    rest[seat] = new
    lines[row] = "  " + " ".join([head] + rest)
    return "\n".join(lines)


# ------------------------------------------------------------ the workbooks

class Sheet:
    """A sheet as a table under its headings."""

    def __init__(self, sheet, head=1):
        self.sheet, self.head = sheet, head
        self.columns = {}
        for cell in sheet[head]:
            if cell.value is not None and cell.value not in self.columns:
                self.columns[cell.value] = cell.column

    def rows(self):
        for row in range(self.head + 1, self.sheet.max_row + 1):
            if self.sheet.cell(row, 1).value is None:
                return
            yield row

    def get(self, row, title):
        return self.sheet.cell(row, self.columns[title]).value

    def put(self, row, title, value):
        self.sheet.cell(row, self.columns[title]).value = value


def headed(sheet, first, *more):
    """The first table of a sheet whose headings begin so."""
    for row in range(1, sheet.max_row + 1):
        if sheet.cell(row, 1).value == first and all(any(c.value == m for c in sheet[row]) for m in more):
            return Sheet(sheet, row)
    raise SystemExit(f"{sheet.title}: no table headed {first}")


def numeric(value):
    return isinstance(value, (int, float)) and not isinstance(value, bool)


def same(a, b):
    a, b = ("" if x is None else x for x in (a, b))
    if numeric(a) and numeric(b):
        return abs(a - b) <= 1e-9 * max(1, abs(a))
    return a == b


def recalculated(folder, sources):
    """Let LibreOffice open and save workbooks, all in one go."""
    profile, out = folder / "profile", folder / "out"
    if not profile.exists():
        (profile / "user").mkdir(parents=True)
        (profile / "user" / "registrymodifications.xcu").write_text(lo.SETTINGS, encoding="utf-8")
    command = ["soffice", "-env:UserInstallation=" + profile.resolve().as_uri(), "--headless", "--norestore",
               "--convert-to", "xlsx:Calc MS Excel 2007 XML", "--outdir", str(out), *map(str, sources)]
    done = subprocess.run(command, capture_output=True, text=True, timeout=450, check=False)
    results = [out / s.name for s in sources]
    if done.returncode != 0 or not all(r.exists() for r in results):
        raise SystemExit("LibreOffice failed:\n" + done.stdout + done.stderr)
    return results


def texts_that_are_numbers(formulas, stored):
    found = []
    for sheet in formulas.worksheets:
        values = stored[sheet.title]
        for row in sheet.iter_rows():
            for cell in row:
                value = values[cell.coordinate].value if cell.data_type == "f" else None
                if isinstance(value, str):
                    try:
                        float(value)
                    except ValueError:
                        continue
                    found.append(f"{sheet.title}!{cell.coordinate}: {value!r} is a text")
    return found


def numbers_in(value):
    if isinstance(value, dict):
        for key, v in value.items():
            yield from ((f"{key}{k}", n) for k, n in numbers_in(v))
    elif isinstance(value, list):
        for i, v in enumerate(value):
            yield from ((f"[{i}]{k}", n) for k, n in numbers_in(v))
    elif numeric(value):
        yield "", value


def missing_numbers(document, stored):
    cells = sorted(c.value for s in stored.worksheets for row in s.iter_rows() for c in row if numeric(c.value))
    missing, count = [], 0
    for name, n in numbers_in(document):
        if name.endswith("Shown"):  # of totals rounded for a page: the sheets calculate with exact ones
            continue
        count += 1
        slack = 1e-9 * max(1, abs(n))
        i = bisect.bisect_left(cells, n - slack)
        if i == len(cells) or cells[i] > n + slack:
            missing.append(f"{name}: {n} is in no cell")
    return count, missing


# -------------------------------------------------------------------- edits

def choose_edits(book, dice, wanted):
    """Edits by kind: (kind, flight, figure, seat, new mark)."""
    grades = Sheet(book["Grades"])
    judges = [t for t in grades.columns if str(t).startswith("Judge ")]
    found = {"a grade": [], "to HZ": [], "a second HZ, the majority": [], "to AV": []}
    for row in grades.rows():
        figure = grades.get(row, "figure")
        seats = [grades.get(row, j) for j in judges]
        while seats and seats[-1] is None:
            seats.pop()
        given = [i for i, m in enumerate(seats) if numeric(m)]
        if len(seats) < 3 or not given or not numeric(figure):
            continue
        place = (grades.get(row, "flight"), figure)
        hard = seats.count("HZ")
        seat = dice.choice(given)
        if seats[seat] != 4.5:
            found["a grade"].append((*place, seat, "4.5"))
        if hard == 0 and len(given) == len(seats):
            found["to HZ"].append((*place, seat, "HZ"))
            found["to AV"].append((*place, seat, "AV"))
        if hard == 1 and len(seats) == 3 and len(given) == 2:
            found["a second HZ, the majority"].append((*place, seat, "HZ"))
    edits = []
    for kind, places in found.items():
        if not places:
            raise SystemExit(f"no row for an edit: {kind}")
        edits += [(kind, *p) for p in dice.sample(places, min(wanted, len(places)))]
    return edits


def put_mark(source, target, edit):
    _, flight, figure, seat, new = edit
    book = openpyxl.load_workbook(source)
    grades = Sheet(book["Grades"])
    for row in grades.rows():
        if grades.get(row, "flight") == flight and grades.get(row, "figure") == figure:
            grades.put(row, f"Judge {seat + 1}", float(new) if new[0].isdigit() else new)
            book.save(target)
            return
    raise SystemExit(f"no row {flight} {figure}")


def after_edit(program, ledger, pilot, flags, path, edit):
    """Compare an edited workbook with what the program says of the edited ledger."""
    flight = edit[1]
    book = openpyxl.load_workbook(path, data_only=True)
    want = program.json("flight", flight, "-f", str(ledger))
    problems, count = [], 0

    def compare(what, a, b):
        nonlocal count
        count += 1
        if not same(a, b):
            problems.append(f"{what}: boxbook {a!r}, workbook {b!r}")

    flights = Sheet(book["Flights"])
    row = next(r for r in flights.rows() if flights.get(r, "flight") == flight)
    for key in ("raw", "points", "percent"):
        compare(key, want.get(key), flights.get(row, key))
    grades = Sheet(book["Grades"])
    rows = [r for r in grades.rows() if grades.get(r, "flight") == flight]
    for r, line in zip(rows, want["figures"] + [want[k] for k in ("positioning", "harmony") if want.get(k)]):
        for key in ("mean", "points", "lost"):
            compare(f"row {r} {key}", line.get(key), grades.get(r, key))
    elements = Sheet(book["Elements"])
    by_group = {}
    for r in elements.rows():
        if elements.get(r, "flight") == flight and numeric(elements.get(r, "lost")):
            key = elements.get(r, "family")
            by_group[key] = by_group.get(key, 0) + elements.get(r, "lost")
    groups = {g["group"]: g["lost"] for g in want["lost"]["groups"]}
    compare("families with a loss", len([v for v in groups.values() if v]), len([v for v in by_group.values() if abs(v) > 1e-12]))
    for a, b in zip(sorted(groups.values()), sorted(by_group.values())):
        compare("lost by family", a, b)
    families = headed(book["Families"], "family", "K flown")
    told = program.json("families", "-f", str(ledger), "--pilot", pilot, *flags)["groups"]
    for r, group in zip(families.rows(), told):
        for title, key in (("figures", "figures"), ("K flown", "k"), ("percent", "percent"), ("lost per flight", "lostPerFlight")):
            compare(f"family {group['group']} {key}", group[key], families.get(r, title))
    return count, problems


# --------------------------------------------------------------------- main

class Case:
    """One workbook to build and check."""

    def __init__(self, name, ledger, pilot, flags=(), edits=0):
        self.name, self.ledger, self.pilot, self.flags, self.edits = name, ledger, pilot, list(flags), edits


def cases(folder):
    demo = folder / "demo"
    shutil.copytree(TOP / "data" / "demo", demo)
    ledger = demo / "longmere.boxbook"
    sizes = {"small": (3, 4, [3]), "mixed": (7, 30, [3, 4, 5]), "large": (11, 260, [3, 4, 5])}
    made = {}
    for name, (seed, contests, judges) in sizes.items():
        made[name] = folder / f"{name}.boxbook"
        made[name].write_text(generated(seed, contests, judges), encoding="utf-8")
    return [
        Case("ines-2026", ledger, "ines", ["--season", "2026"], edits=1),
        Case("ines-all", ledger, "ines", ALL),
        Case("tobias", ledger, "tobias"),
        Case("yuki", ledger, "yuki"),
        Case("small", made["small"], "gen", ALL, edits=1),
        Case("mixed", made["mixed"], "gen", ALL, edits=1),
        Case("large", made["large"], "gen", ALL),
    ]


def check_case(program, tally, folder, case):
    path = folder / f"{case.name}.xlsx"
    start = time.monotonic()
    program.workbook(case.ledger, case.pilot, path, case.flags)
    took = time.monotonic() - start
    again = folder / "again.xlsx"
    program.workbook(case.ledger, case.pilot, again, case.flags)
    digests = [hashlib.sha256(p.read_bytes()).hexdigest() for p in (path, again)]
    tally.check(f"{case.name}: two builds", [] if digests[0] == digests[1] else ["they differ"],
                f"{path.stat().st_size} bytes, {took:.2f}s")
    formulas = openpyxl.load_workbook(path)
    stored = openpyxl.load_workbook(path, data_only=True)
    tally.check(f"{case.name}: numbers are numbers", texts_that_are_numbers(formulas, stored))
    season = program.json("season", "-f", str(case.ledger), "--pilot", case.pilot, *case.flags)
    # Part of a title; what made the answer; thresholds; what the day of asking has ahead; said in words on the first
    # page; beside each other on the screen alone, where the season before stands beside this one.
    for apart in ("season", "boxbook", "limits", "ahead", "expires", "level", "mean", "entered", "beside"):
        season.pop(apart, None)
    for flight in season["flights"]:
        for apart in ("zerosCost", "zerosPercent"):  # said in a note on the screen; what the judges took stands on the sheets
            flight.pop(apart, None)
    for trend in [season.get("trend"), *season.get("trends", [])]:
        if trend:
            for apart in ("longestGap", "detectable"):  # said in a note on the screen, of no sheet
                trend.pop(apart, None)
    count, missing = missing_numbers(season, stored)
    tally.check(f"{case.name}: the season's numbers", missing, f"{count} numbers")
    bare = folder / "bare" / path.name
    bare.parent.mkdir(exist_ok=True)
    lo.without_values(path, bare)
    computed = openpyxl.load_workbook(recalculated(folder, [bare])[0], data_only=True)
    counts, differences = lo.compare(formulas, stored, computed)
    if counts["formulas"] == 0:
        differences.append("no formula was compared")
    rows = sum(1 for _ in Sheet(stored["Grades"]).rows())
    tally.check(f"{case.name}: recalculated", differences, f"{rows} rows of marks, " + ", ".join(f"{n} {what}" for what, n in counts.items()))
    return path, stored


# ------------------------------------------------------ the treasurer's workbook

def club_cases(folder):
    """Ledgers and years, by name."""
    demo = folder / "demo" / "longmere.boxbook"
    awkward = TOP / "report" / "workbook" / "testdata" / "accounts.boxbook"
    found = {"club-demo": (demo, "2026"), "club-before": (demo, "2025"), "club-awkward": (awkward, "2026")}
    for seed in range(6):
        made = folder / f"club{seed}.boxbook"
        made.write_text(accounts.Writer(seed).ledger() + "rate 2026 CHF 1.0417 EUR\nrate 2026 JPY 0.0061 EUR\n", encoding="utf-8")
        found[f"club-{seed}"] = made, "2026"
    return found


def club_workbook(program, ledger, year, target):
    program.run("workbook", "--club", year, "-f", str(ledger), "-o", str(target))
    return openpyxl.load_workbook(target), openpyxl.load_workbook(target, data_only=True)


def without(path, folder):
    """A copy without the values of its formulas."""
    bare = folder / "bare" / path.name
    bare.parent.mkdir(exist_ok=True)
    lo.without_values(path, bare)
    return bare


def amounts_in(value):
    """The numbers of a document whose amounts are texts."""
    if isinstance(value, dict):
        for key, v in value.items():
            if not key.lower().endswith("name"):
                yield from ((f"{key}{k}", n) for k, n in amounts_in(v))
    elif isinstance(value, list):
        for i, v in enumerate(value):
            yield from ((f"[{i}]{k}", n) for k, n in amounts_in(v))
    elif isinstance(value, str):
        try:
            yield "", float(value)
        except ValueError:
            return


def club_amounts(program, ledger, year):
    """What the year's JSON has that the sheets show."""
    told = program.json("year", year, "-f", str(ledger))
    shown = {key: told[key] for key in ("parties", "settle")}
    shown["club"] = {key: told["club"].get(key, []) for key in ("costs", "income", "result", "moved", "claims", "claimsOpening", "owed", "budget")}
    shown["contests"] = [{"costs": c["costs"], "pilots": c.get("pilots", [])} for c in told["contests"]]
    # what the ledger says from the first count on, in one row where pots are compared together
    counted = told["club"]["inHand"]
    shown["inHand"] = [h["amount"] for h in counted]
    shown["together"] = [h["together"]["amount"] for h in counted if "together" in h]
    shown["stands"] = [{key: h["stands"][key] for key in ("ledger", "difference")} for h in counted if "stands" in h]
    return dict(amounts_in(shown))


def check_club(program, tally, folder):
    made = {}
    for name, (ledger, year) in club_cases(folder).items():
        path = folder / f"{name}.xlsx"
        formulas, stored = club_workbook(program, ledger, year, path)
        club_workbook(program, ledger, year, folder / "again.xlsx")
        tally.check(f"{name}: two builds", [] if path.read_bytes() == (folder / "again.xlsx").read_bytes() else ["they differ"])
        tally.check(f"{name}: numbers are numbers", texts_that_are_numbers(formulas, stored))
        wanted = club_amounts(program, ledger, year)
        cells = {round(c.value, 6) for s in stored.worksheets for row in s.iter_rows() for c in row if numeric(c.value)}
        # what is open of an oldest item stands behind its name, not in a cell of its own
        said = " ".join(c.value for s in stored.worksheets for row in s.iter_rows() for c in row if isinstance(c.value, str))
        named = {k for k, n in wanted.items() if k.endswith("oldestOpen") and f" {n:,.2f}" in said}
        lacking = [f"{k}: {n} is in no cell" for k, n in wanted.items() if round(n, 6) not in cells and k not in named]
        tally.check(f"{name}: the year's amounts", lacking, f"{len(wanted)} amounts")
        made[name] = path, formulas, stored
    results = recalculated(folder, [without(path, folder) for path, _, _ in made.values()])
    for (name, (_, formulas, stored)), result in zip(made.items(), results):
        counts, differences = lo.compare(formulas, stored, openpyxl.load_workbook(result, data_only=True))
        if counts["numbers"] < 20:
            differences.append("hardly a formula was compared")
        tally.check(f"{name}: recalculated", differences, ", ".join(f"{n} {what}" for what, n in counts.items()))
    check_club_edits(program, tally, folder, made["club-demo"][0])


def changed_posting(book):
    """A membership that is still to come, billed at one more."""
    journal = Sheet(book["Journal"])
    for row in journal.rows():
        if journal.get(row, "remark") == "still to come" and journal.get(row, "kind") == "membership":
            journal.put(row, "amount", 121)
            return
    raise SystemExit("no membership is still to come")


def changed_rate(book):
    page = book["The year"]
    for row in range(1, page.max_row + 1):
        if page.cell(row, 1).value == "1 CHF":
            page.cell(row, 2).value = 1.1
            return
    raise SystemExit("no rate on the sheet The year")


CLUB_EDITS = {
    "a posting": (changed_posting, "membership 120.00 EUR for yuki", "membership 121.00 EUR for yuki"),
    "a rate": (changed_rate, "CHF 1.04 EUR", "CHF 1.10 EUR"),
}


def check_club_edits(program, tally, folder, path):
    """What is changed in the workbook gives what the same change in the ledger does."""
    folder = folder / "club-edits"
    folder.mkdir()
    text = (TOP / "data" / "demo" / "longmere.boxbook").read_text(encoding="utf-8")
    files, wanted = [], []
    for name, (edit, old, new) in CLUB_EDITS.items():
        book = openpyxl.load_workbook(path)
        edit(book)
        files.append(folder / f"{name.replace(' ', '-')}.xlsx")
        book.save(files[-1])
        if text.count(old) != 1:
            raise SystemExit(f"the demo has {old!r} {text.count(old)} times")
        shutil.copytree(TOP / "data" / "demo", folder / name)
        ledger = folder / name / "longmere.boxbook"
        ledger.write_text(text.replace(old, new), encoding="utf-8")
        wanted.append((name, *club_workbook(program, ledger, "2026", folder / f"{name}-wanted.xlsx")))
    files.append(folder / "fault.xlsx")
    planted(path, files[-1])
    results = [openpyxl.load_workbook(r, data_only=True) for r in recalculated(folder, [without(f, folder) for f in files])]
    before = openpyxl.load_workbook(path, data_only=True)
    for (name, formulas, stored), result in zip(wanted, results):
        counts, differences = lo.compare(formulas, stored, result)
        if not lo.compare(formulas, before, result)[1]:
            differences.append("nothing followed the change")
        tally.check(f"club: {name} changed", differences, f"{counts['numbers']} numbers")
    found = lo.compare(openpyxl.load_workbook(path), before, results[-1])[1]
    tally.check("club: a sum that leaves the first posting out", [] if found else ["it was not found"], f"{len(found)} cells differ")


def planted(source, target):
    """The workbook with sums that begin a row too late."""
    book = openpyxl.load_workbook(source)
    for row in book["Members"].iter_rows():
        for cell in row:
            if isinstance(cell.value, str):
                cell.value = re.sub(r"(Journal!\$[A-Z]+)\$2:", r"\1$3:", cell.value)
    book.save(target)


def check_edits(program, tally, folder, case, path, stored):
    edits = choose_edits(stored, random.Random(case.name), case.edits)
    changed = folder / f"edits-{case.name}"
    changed.mkdir()
    files = []
    for i, edit in enumerate(edits):
        files.append(changed / f"{case.name}-edit{i}.xlsx")
        put_mark(path, files[i], edit)
    text = case.ledger.read_text(encoding="utf-8")
    for edit, result in zip(edits, recalculated(folder, files)):
        ledger = case.ledger.with_name(f"changed-{case.name}.boxbook")
        ledger.write_text(change(text, *edit[1:]), encoding="utf-8")
        count, problems = after_edit(program, ledger, case.pilot, case.flags, result, edit)
        tally.check(f"{case.name}: {edit[0]} ({edit[1]} figure {edit[2]} seat {edit[3] + 1} {edit[4]})", problems, f"{count} values")


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("boxbook", type=pathlib.Path)
    parser.add_argument("--keep", type=pathlib.Path, help="work in this folder, and leave it")
    parser.add_argument("--only", help="only cases with this in their name")
    args = parser.parse_args()
    program, tally = Program(args.boxbook), Tally()
    with tempfile.TemporaryDirectory() as name:
        folder = args.keep or pathlib.Path(name)
        folder.mkdir(parents=True, exist_ok=True)
        for case in cases(folder):
            if args.only and args.only not in case.name:
                continue
            path, stored = check_case(program, tally, folder, case)
            if case.edits:
                check_edits(program, tally, folder, case, path, stored)
        if not args.only or "club" in args.only:
            check_club(program, tally, folder)
    print(f"{tally.passed} passed, {tally.failed} failed")
    return 1 if tally.failed or not tally.passed else 0


if __name__ == "__main__":
    sys.exit(main())
