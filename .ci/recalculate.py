#!/usr/bin/env python3
"""Recalculate a workbook with LibreOffice and compare with the values in it.

usage: recalculate.py WORKBOOK.xlsx [--cached OTHER.xlsx] [--keep FOLDER]

Every formula cell's stored value is taken out of a copy, LibreOffice computes
the copy anew, and each number must agree with the stored one within 1e-9
(absolute, or relative beyond 1), each text exactly. An error is one unless the
formula gives #N/A by itself, with NA(), for a gap in a chart. With --cached the stored
values are those of another workbook of the same shape, such as one written
after the same change was made to the ledger. --keep leaves the recalculated
workbook in a folder.

Needs LibreOffice Calc (soffice) and openpyxl. Exits 0 if all agree, 1 on a
difference or an error cell, 2 if nothing could be compared.
"""

import argparse
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import zipfile

import openpyxl

TOLERANCE = 1e-9
TIMEOUT = 300  # seconds

# Always recalculate on load, whoever wrote the file.
SETTINGS = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load">
<prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>
"""

CELL = re.compile(rb"<c (?P<head>[^>]*)>(?P<body>.*?)</c>", re.S)
VALUE = re.compile(rb"<v>.*?</v>|<v/>", re.S)
TYPE = re.compile(rb' t="(?:str|e|b)"')


def without_values(source, target):
    """Copy a workbook without the values of its formulas; count them."""
    count = 0

    def strip(match):
        nonlocal count
        head, body = match.group("head"), match.group("body")
        if b"<f>" not in body and b"<f " not in body:
            return match.group(0)
        count += 1
        return b"<c " + TYPE.sub(b"", head) + b">" + VALUE.sub(b"", body) + b"</c>"

    with zipfile.ZipFile(source) as old, zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as new:
        for info in old.infolist():
            data = old.read(info)
            if info.filename.startswith("xl/worksheets/sheet"):
                data = CELL.sub(strip, data)
            new.writestr(info.filename, data)
    return count


def recalculate(source, folder):
    """Let LibreOffice open and save the workbook; give the saved one."""
    profile = folder / "profile"
    (profile / "user").mkdir(parents=True)
    (profile / "user" / "registrymodifications.xcu").write_text(SETTINGS, encoding="utf-8")
    out = folder / "out"
    command = [
        "soffice", "-env:UserInstallation=" + profile.resolve().as_uri(), "--headless", "--norestore",
        "--convert-to", "xlsx:Calc MS Excel 2007 XML", "--outdir", str(out), str(source),
    ]
    done = subprocess.run(command, capture_output=True, text=True, timeout=TIMEOUT, check=False)
    result = out / (source.stem + ".xlsx")
    if done.returncode != 0 or not result.exists():
        print("recalculate: LibreOffice failed:\n" + done.stdout + done.stderr, file=sys.stderr)
        raise SystemExit(2)
    return result


def same(stored, computed):
    """Whether two values agree: empty text and an empty cell are alike."""
    stored = "" if stored is None else stored
    computed = "" if computed is None else computed
    numbers = (int, float)
    if isinstance(stored, numbers) and isinstance(computed, numbers):
        return abs(stored - computed) <= TOLERANCE * max(1, abs(stored))
    return type(stored) is type(computed) and stored == computed


def is_error(value):
    return isinstance(value, str) and re.fullmatch(r"#[A-Z0-9/]+[!?]?|Err:\d+", value) is not None


def compare(formulas, stored, computed):
    """Compare every formula cell; give counts and the differences in words."""
    counts = {"formulas": 0, "numbers": 0, "texts": 0, "empty": 0, "gaps": 0, "errors": 0}
    differences = []
    for sheet in formulas.worksheets:
        for row in sheet.iter_rows():
            for cell in row:
                if cell.data_type != "f":
                    continue
                place = f"{sheet.title}!{cell.coordinate}"
                was, now = stored[sheet.title][cell.coordinate].value, computed[sheet.title][cell.coordinate].value
                counts["formulas"] += 1
                kind = "numbers" if not isinstance(was, str) and was is not None else "texts" if was else "empty"
                counts[kind] += 1
                if was == now == "#N/A" and "NA()" in cell.value:
                    counts["gaps"] += 1  # of a chart, as the formula says
                elif is_error(was) or is_error(now):
                    counts["errors"] += 1
                    differences.append(f"{place}: error: stored {was!r}, computed {now!r}")
                elif not same(was, now):
                    differences.append(f"{place}: stored {was!r}, computed {now!r}: {cell.value}")
    return counts, differences


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("workbook", type=pathlib.Path)
    parser.add_argument("--cached", type=pathlib.Path, help="take the stored values from this workbook")
    parser.add_argument("--keep", type=pathlib.Path, help="leave the recalculated workbook here")
    args = parser.parse_args()
    if shutil.which("soffice") is None:
        print("recalculate: LibreOffice (soffice) is not installed", file=sys.stderr)
        return 2
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        bare = folder / "bare.xlsx"
        without_values(args.workbook, bare)
        result = recalculate(bare, folder)
        if args.keep:
            args.keep.mkdir(parents=True, exist_ok=True)
            shutil.copy(result, args.keep / args.workbook.name)
        formulas = openpyxl.load_workbook(args.workbook)
        stored = openpyxl.load_workbook(args.cached or args.workbook, data_only=True)
        computed = openpyxl.load_workbook(result, data_only=True)
        counts, differences = compare(formulas, stored, computed)
    print(f"{args.workbook.name}: " + ", ".join(f"{n} {what}" for what, n in counts.items())
          + f", {len(differences)} differences")
    for line in differences[:40]:
        print("  " + line)
    if counts["formulas"] == 0:
        return 2
    return 1 if differences else 0


if __name__ == "__main__":
    sys.exit(main())
