#!/usr/bin/env python3
"""Turns the reports of the module golang.org/x/vulndb into a database that
govulncheck reads from a folder.

    vulnerabilities.py MODULE FOLDER
"""
import json
import pathlib
import re
import sys


def fixed(affected):
    """The latest version that mends an affected module, '' where none does."""
    events = [e for r in affected.get("ranges", []) for e in r.get("events", [])]
    return ([e["fixed"] for e in events if "fixed" in e] or [""])[-1]


def main(module, folder):
    reports = [json.loads(p.read_text()) for p in sorted(pathlib.Path(module, "data", "osv").glob("GO-*.json"))]
    if len(reports) < 1000:
        sys.exit(f"{module} has {len(reports)} reports")
    # most reports of the module bear no day of their own; its version does
    version = re.search(r"-(\d{4})(\d\d)(\d\d)\d{6}-[0-9a-f]+$", module.rstrip("/"))
    if not version:
        sys.exit(f"{module} does not end with the day of its version")
    day = "-".join(version.groups())
    modules, vulns = {}, []
    for report in reports:
        about = {"id": report["id"], "modified": report["modified"]}
        vulns.append(about | {"aliases": report.get("aliases", [])})
        for affected in report.get("affected", []):
            path = affected["package"]["name"]
            modules.setdefault(path, {})[report["id"]] = about | {"fixed": fixed(affected)}
    out = pathlib.Path(folder)
    for part in ("ID", "index"):
        (out / part).mkdir(parents=True, exist_ok=True)
    for report in reports:
        (out / "ID" / (report["id"] + ".json")).write_text(json.dumps(report))
    index = {
        "db": {"modified": day + "T00:00:00Z"},
        "modules": [{"path": path, "vulns": list(modules[path].values())} for path in sorted(modules)],
        "vulns": vulns,
    }
    for name, content in index.items():
        (out / "index" / (name + ".json")).write_text(json.dumps(content))
    print(f"{len(reports)} reports, of {day}")


main(*sys.argv[1:])
