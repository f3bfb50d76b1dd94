#!/usr/bin/env python3
"""Second witness for the knife-edge loss J(nu) of Rec. ITU-R P.526: the exact Fresnel integral of SciPy.

Run, in a Python that has scipy:

    cargo run -q -p propagation --example knife_edge | python3 tools/witness/fresnel.py

Reads lines of JSON {"nu": .., "loss_db": ..} from standard input or from the file named as argument. Exact loss:
J = -20 log10( sqrt((1 - C - S)^2 + (C - S)^2) / 2 ). Prints the spread of the differences and 'N passed, M failed'; exits 1 when a
check fails, 2 when scipy or the input is missing.
"""

import json
import math
import sys

try:
    from scipy.special import fresnel
except ImportError:
    print("scipy is missing: python3 -m venv VENV && VENV/bin/pip install scipy", file=sys.stderr)
    sys.exit(2)

# Name, from nu, to nu, tolerance in dB. The fit is stated for nu > -0.78. Below that the formula says 0 dB, where the exact
# field still swings about the free-space value: the first lobe is the largest.
BANDS = [
    ("fit, -0.70 to 3", -0.70, 3.0, 0.11),
    ("fit, 3 to 20", 3.0, 20.0, 0.14),
    ("edge of the fit, -0.78 to -0.70", -0.7799, -0.70, 0.11),
    ("taken as 0 dB, -3 to -0.78", -3.0, -0.78, 1.4),
]


def exact_db(nu):
    s, c = fresnel(nu)
    return -20 * math.log10(math.hypot(1 - c - s, c - s) / 2)


def main():
    source = open(sys.argv[1], encoding="utf-8") if len(sys.argv) > 1 else sys.stdin
    rows = [json.loads(line) for line in source if line.strip()]
    if len(rows) < 100:
        print(f"only {len(rows)} rows were given", file=sys.stderr)
        sys.exit(2)
    passed = failed = 0
    for name, low, high, tolerance in BANDS:
        differences = sorted(
            (abs(row["loss_db"] - exact_db(row["nu"])), row["nu"]) for row in rows if low <= row["nu"] <= high
        )
        good = sum(1 for difference, _ in differences if difference <= tolerance)
        passed += good
        failed += len(differences) - good
        if not differences:
            print(f"{name}: no rows")
            failed += 1
            continue
        median = differences[len(differences) // 2][0]
        worst, where = differences[-1]
        print(f"{name}: {len(differences)} rows, median {median:.3f} dB, worst {worst:.3f} dB at nu {where:.2f}, allowed {tolerance}")
    print(f"{passed} passed, {failed} failed")
    sys.exit(1 if failed else 0)


if __name__ == "__main__":
    main()
