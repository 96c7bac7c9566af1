#!/usr/bin/env python3
"""The demo's outputs on this processor against those on another one, which an
emulator runs: every byte of the text, markdown, html and csv and of the scores,
other numbers of the JSON and of a workbook's cells to 1e-9.

    processors.py BOXBOOK OTHER [EMULATOR ...]
"""
import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile
import zipfile

PAGES = """flight ines; flight ines 2025-08-16; debrief ines; season ines; season tobias; families ines; faults ines;
drills ines; forecast ines intermediate-known-26; plan ines; ready ines; panel; year; pilots; statement ines; """.replace("\n", " ")
TABLES = ["marks", "flights", "elements", "faults", "drills", "money"]
EXACT = {"flight", "debrief", "export", "year", "statement"}  # scores and money: exact to the end
WITHIN = 1e-9


def ran(program, folder, args):
    out = subprocess.run([*program, *args, "-f", "longmere.boxbook", "--asof", "2026-11-25"], cwd=folder, capture_output=True)
    return out.stdout, out.stderr, out.returncode


def differs(one, other):
    """The first place where two JSON values differ by more than WITHIN."""
    if isinstance(one, dict) and isinstance(other, dict):
        if one.keys() != other.keys():
            return f"keys {one.keys() ^ other.keys()}"
        return next((f"{k}: {d}" for k in one if (d := differs(one[k], other[k]))), "")
    if isinstance(one, list) and isinstance(other, list):
        if len(one) != len(other):
            return f"{len(one)} and {len(other)} items"
        return next((f"{i}: {d}" for i, (a, b) in enumerate(zip(one, other)) if (d := differs(a, b))), "")
    numbers = [isinstance(x, (int, float)) and not isinstance(x, bool) for x in (one, other)]
    if all(numbers):
        return "" if abs(one - other) <= WITHIN * max(1, abs(one)) else f"{one} and {other}"
    return "" if one == other else f"{one!r} and {other!r}"


def cells_differ(one, other):
    """The first part of a workbook that differs, numbers of cells within WITHIN."""
    number = re.compile(r"<v>(-?[0-9.]+(?:[eE][-+]?[0-9]+)?)</v>")
    books = [zipfile.ZipFile(path) for path in (one, other)]
    names = [book.namelist() for book in books]
    if names[0] != names[1]:
        return "other parts"
    for name in names[0]:
        texts = [book.read(name).decode() for book in books]
        values = [[float(v) for v in number.findall(text)] for text in texts]
        if number.sub("<v/>", texts[0]) != number.sub("<v/>", texts[1]) or differs(*values):
            return name
    return ""


def main(native, other):
    failed, tried = [], 0
    with tempfile.TemporaryDirectory() as top:
        folders = []
        for name, program in (("one", [native]), ("other", other)):
            folders.append(os.path.join(top, name))
            subprocess.run([*program, "demo", folders[-1]], check=True, capture_output=True)
            subprocess.run([*program, "workbook", "--club", "-f", "longmere.boxbook", "-o", "club.xlsx"], cwd=folders[-1], check=True, capture_output=True)
        for path in sorted(p.relative_to(folders[0]) for p in pathlib.Path(folders[0]).rglob("*") if p.is_file()):
            tried += 1
            both = [os.path.join(folder, path) for folder in folders]
            if path.suffix == ".xlsx":
                found = cells_differ(*both)
            else:
                found = "" if pathlib.Path(both[0]).read_bytes() == pathlib.Path(both[1]).read_bytes() else "bytes"
            if found:
                failed.append(f"{path}: {found}")
        cases = [(page.split(), form) for page in PAGES.split(";") if page.split() for form in ("text", "markdown", "html", "csv", "json")]
        cases += [(["export", table], form) for table in TABLES for form in ("csv", "json")]
        for words, form in cases:
            tried += 1
            args = [*words, "--format", form]
            one, two = ran([native], folders[0], args), ran(other, folders[1], args)
            if one[1:] != two[1:] or one[2] != 0:
                failed.append(f"{' '.join(args)}: exit {one[2]} and {two[2]}: {one[1].decode()}")
            elif form == "json" and words[0] not in EXACT:
                if found := differs(json.loads(one[0]), json.loads(two[0])):
                    failed.append(f"{' '.join(args)}: {found}")
            elif one[0] != two[0]:
                failed.append(f"{' '.join(args)}: the bytes differ")
    print(f"{tried} outputs, {len(failed)} differ", *failed, sep="\n  ")
    sys.exit(bool(failed) or tried < 80)


main(os.path.abspath(sys.argv[1]), [*sys.argv[3:], os.path.abspath(sys.argv[2])])
