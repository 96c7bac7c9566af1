#!/usr/bin/python3
"""Keep the accounts that boxbook exports in a general double-entry program.

usage: accounts.py BOXBOOK

For the demo and 100 generated ledgers `boxbook export money` is read by hledger
with the rules below, nothing else, and the balance of every party in every
currency at the end of every year must be the closing balance of
`boxbook year --format json`: none more, none less, to the last digit.

Then faults are planted in exported tables, one at a time (a row left out, a row
twice, a cent, two parties changed over, another currency, a day into the next
year), and hledger must disagree each time.

Needs Debian's hledger. Closes with "N balances of N ledgers"; exits 1 if any
differs or a planted fault stays unnoticed.
"""

import csv
import datetime
import io
import json
import pathlib
import random
import shutil
import subprocess
import sys
import tempfile
from decimal import Decimal

TOP = pathlib.Path(__file__).resolve().parent.parent
LEDGERS = 100
ASOF = "2028-06-30"

# From gave, to had; income from outside is in no party's balance.
RULES = """\
skip 1
decimal-mark .
fields date, number, entry, from, to, sum, unit, paid, paidunit, kind, contest, for, club, receipt, remark, file, line
description %number %entry %kind
account1 %from
amount1 %sum %unit
account2 %to
amount2 -%sum %unit
if %entry income
  skip
"""


def run(*args):
    done = subprocess.run([*map(str, args)], capture_output=True, text=True, check=False)
    if done.returncode:
        raise SystemExit(f"{args}: {done.stderr}")
    return done.stdout


# ------------------------------------------------- ledgers made for the check

PARTIES = {"ines": "pilot", "tobias": "pilot", "yuki": "pilot", "marek": "coach", "rolf": "person"}
UNITS = {"EUR": 2, "CHF": 2, "JPY": 0, "BHD": 3}


class Writer:
    """Writes lines of money at random."""

    def __init__(self, seed):
        self.dice = random.Random(seed)

    def amount(self, unit=None, least=0):
        unit = unit or self.dice.choice(list(UNITS))
        most = self.dice.choice([40, 40, 9999, 2_000_000])
        minor = Decimal(self.dice.randint(least, most)).scaleb(-UNITS[unit])
        return f"{minor:.{UNITS[unit]}f} {unit}"

    def date(self):
        return datetime.date(2024 + self.dice.randrange(5), self.dice.randint(1, 12), self.dice.randint(1, 28))

    def people(self, names):
        chosen = self.dice.sample(names, self.dice.randint(1, len(names)))
        if self.dice.random() < .3:
            return " ".join(f"{name} {self.dice.randint(1, 9)}" for name in chosen)
        return " ".join(chosen)

    def tail(self):
        out = f" receipt {self.dice.randint(1, 99)}" if self.dice.random() < .3 else ""
        return out + self.dice.choice(["", "", ' "two nights, \\"the flat\\", and a half"', ' "=1+1"'])

    def cost(self, date):
        dice, each = self.dice, ""
        whom = "club" if dice.random() < .2 else self.people(list(PARTIES))
        if whom != "club" and not any(c.isdigit() for c in whom) and dice.random() < .2:
            each = " each"
        refund = "-" if dice.random() < .1 else ""
        kind = dice.choice(["fuel", "entry", "lodging", "membership"])
        by = f" by {dice.choice([*PARTIES, 'club'])}" if dice.random() < .8 else ""
        club = " to club" if dice.random() < .3 else ""
        return f"cost {date} {kind} {refund}{self.amount(least=1)}{each} for {whom}{by}{club}{self.tail()}"

    def line(self):
        dice, date = self.dice, self.date()
        roll = dice.random()
        if roll < .55:
            return self.cost(date)
        if roll < .65:
            return f"income {date} sponsorship {self.amount(least=1)}{self.tail()}"
        one, other = dice.sample([*PARTIES, "club"], 2)
        if roll < .75:
            return f"owed {date} {one} {other} {self.amount(least=1)}"
        debt = f" for {self.amount('CHF', 1)}" if dice.random() < .3 else ""
        return f"settle {date} {one} {other} {self.amount('EUR' if debt else None, 1)}{debt}{self.tail()}"

    def ledger(self):
        out = [f'{kind} {name}\n  name "{name.title()} Doe"' for name, kind in PARTIES.items()]
        if self.dice.random() < .3:
            out.append("year-start 10-01")
        for i in range(self.dice.randint(0, 3)):
            date = self.date()
            out.append(f"contest c{i} {date}\n  name \"Contest {i}\"")
            out += ["  " + self.cost("").replace("  ", " ") for _ in range(self.dice.randint(1, 4))]
        out += [self.line() for _ in range(self.dice.randint(1, 40))]
        return "\n".join(out) + "\n"


# ---------------------------------------------------------------- both sides

class Books:
    """A ledger's exported table, and what boxbook says of its years."""

    def __init__(self, program, ledger, asof=ASOF):
        self.table = run(program, "export", "money", "-f", ledger, "--asof", asof)
        self.years = []  # the day after each, and the closing balances
        for year in range(2023, 2029):
            told = json.loads(run(program, "year", year, "-f", ledger, "--asof", asof, "--format", "json"))
            balances = {}
            for party in told["parties"]:
                for b in party["balance"]:
                    if Decimal(b["amount"]):
                        balances[party["party"], b["currency"]] = Decimal(b["amount"])
            end = datetime.date.fromisoformat(told["last"]) + datetime.timedelta(1)
            self.years.append((end, balances))

    def differences(self, folder, table=None):
        """What hledger has otherwise, of all years."""
        (folder / "money.csv").write_text(self.table if table is None else table, encoding="utf-8")
        (folder / "money.rules").write_text(RULES, encoding="utf-8")
        # Each year's end by itself: a club's year need not be the calendar's.
        found, count = [], 0
        for end, want in self.years:
            said = run("hledger", "-f", folder / "money.csv", "--rules-file", folder / "money.rules",
                       "balance", "--flat", "--no-total", "--layout", "bare", "-O", "csv", "-e", end)
            got = {(r["account"], r["commodity"]): Decimal(r["balance"]) for r in csv.DictReader(io.StringIO(said)) if Decimal(r["balance"])}
            count += len(want)
            for key in sorted(set(got) | set(want)):
                if got.get(key, 0) != want.get(key, 0):
                    found.append(f"up to {end} {key[0]} {key[1]}: hledger {got.get(key, 0)}, boxbook {want.get(key, 0)}")
        return count, found


def planted(books):
    """Tables with one fault each, by what it is."""
    rows = list(csv.DictReader(io.StringIO(books.table)))
    ends = [end.isoformat() for end, _ in books.years]
    at = next(i for i, r in enumerate(rows) if r["entry"] != "income" and r["from"] != r["to"] and Decimal(r["amount"]))
    late = next(end for end in ends if end > rows[at]["date"])

    def changed(**fields):
        return [r if i != at else {**r, **fields} for i, r in enumerate(rows)]

    row = rows[at]
    faults = {
        "a row left out": rows[:at] + rows[at + 1:],
        "a row twice": rows[:at + 1] + rows[at:],
        "a cent": changed(amount=str(Decimal(row["amount"]) + Decimal("0.01"))),
        "two parties changed over": changed(**{"from": row["to"], "to": row["from"]}),
        "another currency": changed(currency="XAU"),
        "a day into the next year": changed(date=late),
    }
    for name, table in faults.items():
        out = io.StringIO()
        writer = csv.DictWriter(out, rows[0].keys(), lineterminator="\n")
        writer.writeheader()
        writer.writerows(table)
        yield name, out.getvalue()


def main():
    program = pathlib.Path(sys.argv[1]).resolve()
    if not shutil.which("hledger"):
        raise SystemExit("accounts.py: hledger is not installed")
    total = ledgers = faults = 0
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        demo = TOP / "data" / "demo" / "longmere.boxbook"
        sources = [demo]
        for seed in range(LEDGERS):
            sources.append(folder / f"made{seed}.boxbook")
            sources[-1].write_text(Writer(seed).ledger(), encoding="utf-8")
        for source in sources:
            books = Books(program, source)
            count, found = books.differences(folder)
            if found:
                raise SystemExit(f"{source}:\n  " + "\n  ".join(found[:12]))
            total, ledgers = total + count, ledgers + 1
            if source in sources[:4]:
                for fault, table in planted(books):
                    if not books.differences(folder, table)[1]:
                        raise SystemExit(f"{source}: {fault} in the table, and hledger agrees")
                    faults += 1
    print(f"{total} balances of {ledgers} ledgers, {faults} planted faults found")
    return 0 if ledgers > LEDGERS and total > 10 * LEDGERS and faults else 1


if __name__ == "__main__":
    sys.exit(main())
