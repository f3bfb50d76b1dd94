#!/usr/bin/env python3
"""Holds the published schema of the station file against jsonschema, a general validator (from PyPI).

    python3 tools/witness/schema.py         needs: jsonschema; Python 3.11 or later

The schema must be one (JSON Schema 2020-12), every example must keep it, and an example with a planted fault must not. Prints
`N passed, M failed`; exit 1 when something failed.
"""

import copy
import datetime
import json
import sys
import tomllib
from pathlib import Path

from jsonschema import Draft202012Validator

ROOT = Path(__file__).resolve().parents[2]
SCHEMA = ROOT / "schema" / "station.schema.json"


def plain(value):
    """The document as JSON has it: TOML's dates are text there."""
    if isinstance(value, dict):
        return {key: plain(child) for key, child in value.items()}
    if isinstance(value, list):
        return [plain(child) for child in value]
    if isinstance(value, (datetime.date, datetime.datetime, datetime.time)):
        return value.isoformat()
    return value


def planted(document):
    """Copies of a station with one fault each: name, copy."""
    def changed(name, change):
        faulty = copy.deepcopy(document)
        change(faulty)
        return name, faulty

    yield changed("an unknown key at the top", lambda d: d.update(colour="green"))
    yield changed("a name that is a number", lambda d: d.update(name=7))
    yield changed("no name", lambda d: d.pop("name"))
    yield changed("items that are no list", lambda d: d.update(items={"TX1": "tx-300"}))
    yield changed("a power that is true", lambda d: d["emissions"][0]["licence"].update(erp=True))
    yield changed("a service nobody offers", lambda d: d["brief"]["wanted"][0].update(service="quadraphonic"))
    yield changed("an unknown key in a site", lambda d: d["sites"][0].update(colour="green"))


def main():
    schema = json.loads(SCHEMA.read_text(encoding="utf-8"))
    passed = failed = 0

    def report(good, what):
        nonlocal passed, failed
        passed, failed = passed + good, failed + (not good)
        if not good:
            print(f"FAILED {what}")

    try:
        Draft202012Validator.check_schema(schema)
        report(True, "schema")
    except Exception as fault:  # whatever is wrong with it is the answer
        report(False, f"the schema is none: {fault}")
    validator = Draft202012Validator(schema)
    stations = sorted((ROOT / "examples").glob("*/station.toml"))
    report(bool(stations), "no example was found")
    for path in stations:
        document = plain(tomllib.loads(path.read_text(encoding="utf-8")))
        faults = [f"{'.'.join(map(str, e.absolute_path))}: {e.message[:200]}" for e in validator.iter_errors(document)]
        report(not faults, f"{path.relative_to(ROOT)}: {faults[:3]}")
    demo = plain(tomllib.loads((ROOT / "examples" / "orrenay" / "station.toml").read_text(encoding="utf-8")))
    for name, faulty in planted(demo):
        report(not validator.is_valid(faulty), f"{name} is let through")
    print(f"{passed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
