#!/usr/bin/python3
"""Read the tables that boxbook exports with pandas and R, without options.

usage: tables.py BOXBOOK

For each ledger of the demo:

- every table is read as csv, its columns are those of its JSON, and no column
  mixes types; the columns that hold numbers hold nothing else
- the percent, K and loss of every family are computed again from elements and
  flights, and equal the JSON of families
- computed records are the marks' points less the penalty
- R (read.csv, tables.R) finds the same rows, kinds of columns and sums
- what each party gave less what it had is its closing balance in year's JSON

Needs Debian's python3-pandas and r-base-core. Closes with "N compared"; exits 1 if any differs.
"""

import io
import json
import pathlib
import subprocess
import sys
import tempfile

import pandas

TOP = pathlib.Path(__file__).resolve().parent.parent
ASOF = "2026-11-25"
NUMBERS = {
    "marks": ["k", "used", "points"],
    "flights": ["points", "maximum", "percent", "official", "penalty", "place", "of"],
    "elements": ["figure", "k", "mean", "lost"],
    "faults": ["figure", "amount", "times", "deduction", "points"],
    "drills": ["seenBefore", "before", "seenSince", "since"],
    "money": ["number", "amount", "paid", "line"],
}
FLAGS = {"marks": ["void"], "flights": ["void"], "faults": ["seen", "counted"], "money": ["toClub"]}
compared = 0


def run(*args):
    done = subprocess.run([*map(str, args), "--asof", ASOF], capture_output=True, text=True, check=False)
    if done.returncode:
        raise SystemExit(f"{args}: {done.stderr}")
    return done.stdout


def same(what, got, want):
    global compared
    compared += 1
    if abs(got - want) > 1e-9 * max(1, abs(want)):
        raise SystemExit(f"{what}: from the tables {got!r}, in the JSON {want!r}")


def read(program, ledger):
    """Every table as pandas reads it, held to its JSON."""
    tables = {}
    for name, numbers in NUMBERS.items():
        table = pandas.read_csv(io.StringIO(run(program, "export", name, "-f", ledger)))
        rows = json.loads(run(program, "export", name, "-f", ledger, "--format", "json"))
        if len(table) != len(rows):
            raise SystemExit(f"{name}: {len(table)} rows in csv, {len(rows)} in JSON")
        for row in rows:
            if not set(row) <= set(table.columns):
                raise SystemExit(f"{name}: JSON has other fields: {set(row) - set(table.columns)}")
        for column in numbers:
            if len(table) and not pandas.api.types.is_numeric_dtype(table[column]):
                raise SystemExit(f"{name}: {column} is read as {table[column].dtype}")
        for column in FLAGS.get(name, []):
            if len(table) and table[column].dtype != bool:
                raise SystemExit(f"{name}: {column} is read as {table[column].dtype}")
        tables[name] = table
    return tables


def kind_of(name, column):
    if column in NUMBERS[name]:
        return "number"
    if column == "receipt":  # a text, and often a number
        return "any"
    return "flag" if column in FLAGS.get(name, []) else "text"


def read_by_r(program, ledger):
    """Every table as R reads it, held to its JSON."""
    with tempfile.TemporaryDirectory() as folder:
        contents = ["table,column,kind,rows,sum"]
        for name in NUMBERS:
            text = run(program, "export", name, "-f", ledger)
            pathlib.Path(folder, name + ".csv").write_text(text, encoding="utf-8")
            rows = json.loads(run(program, "export", name, "-f", ledger, "--format", "json"))
            for column in text.splitlines()[0].split(","):
                kind = kind_of(name, column)
                total = sum(float(row.get(column) or 0) for row in rows) if kind in ("number", "flag") else 0
                contents.append(f"{name},{column},{kind},{len(rows)},{total!r}")
        pathlib.Path(folder, "contents.csv").write_text("\n".join(contents) + "\n", encoding="utf-8")
        done = subprocess.run(["Rscript", str(TOP / ".ci" / "tables.R"), folder], capture_output=True, text=True, check=False)
        if done.returncode:
            raise SystemExit(f"R: {done.stderr}")
        print(done.stdout, end="")


def families(program, ledger, tables):
    flights, elements = tables["flights"], tables["elements"]
    marked = flights[flights.flight.isin(tables["marks"].flight)]
    graded = marked[(marked.programme != "practice") & ~marked.void & marked.percent.notna()]
    for pilot in graded.pilot.unique():
        own = graded[graded.pilot == pilot]
        own = own[own.category == own.category.iloc[-1]]
        chosen = elements[elements.flight.isin(own.flight) & (elements.k > 0)]
        told = json.loads(run(program, "families", "-f", ledger, "--pilot", pilot, "--since", "1990-01-01", "--format", "json"))
        for group in told["groups"]:
            rows = chosen[chosen.group.astype(str) == group["group"]]
            what = f"{pilot} {group['group']}"
            same(what + " k", rows.k.sum(), group["k"])
            same(what + " percent", 10 * (rows.k * rows["mean"]).sum() / rows.k.sum(), group["percent"])
            same(what + " figures", len(rows[["flight", "figure"]].drop_duplicates()), group["figures"])
            same(what + " lost a flight", rows.lost.sum() / len(own), group["lostPerFlight"])


def records(tables):
    marks = tables["marks"]
    figures = marks.groupby(["flight", "figure"]).points.mean()
    for row in tables["flights"].itertuples():
        if row.source == "computed":
            same(row.flight, figures[row.flight].sum() - row.penalty, row.points)
            same(row.flight + " percent", 100 * row.points / row.maximum, row.percent)
        elif row.source == "official":
            same(row.flight, row.official, row.points)


def balances(program, ledger, tables):
    money = tables["money"]
    for year in sorted({date[:4] for date in money.date}):
        told = json.loads(run(program, "year", year, "-f", ledger, "--format", "json"))
        till = money[money.date <= year + "-12-31"]
        for party in told["parties"]:
            for balance in party["balance"]:
                rows = till[till.currency == balance["currency"]]
                gave, had = rows[rows["from"] == party["party"]].amount.sum(), rows[rows.to == party["party"]].amount.sum()
                same(f"{year} {party['party']} {balance['currency']}", gave - had, float(balance["amount"]))


def main():
    program = pathlib.Path(sys.argv[1]).resolve()
    for ledger in sorted((TOP / "data" / "demo").glob("*.boxbook")):
        if "part-of" in ledger.read_text(encoding="utf-8"):
            continue
        tables = read(program, ledger)
        read_by_r(program, ledger)
        families(program, ledger, tables)
        records(tables)
        balances(program, ledger, tables)
    print(f"{compared} compared")
    return 0 if compared > 100 else 1


if __name__ == "__main__":
    sys.exit(main())
