"""Times the thin-wire solver against the NEC-2 engine of PyNEC on the same files, in one run.

    python -m venv VENV && VENV/bin/pip install PyNEC
    cargo build --release -p wires-bench
    VENV/bin/python tools/nec_bench.py BENCH FILE [FILE...]

BENCH is the built `wires-bench`. Both engines get the wires of the file, solve for its sources and evaluate 91 x 181
directions (2 degrees over the sphere). NEC-2 runs on one thread and so does ours; a second line shows ours on all threads.
Rounds alternate and medians are printed, so that a busy machine disturbs both alike. Without PyNEC it says so and exits 2.
"""

import json
import os
import statistics
import subprocess
import sys
import time

ROUNDS = 7
ELEVATIONS, AZIMUTHS, STEP_DEG = 91, 181, 2.0

try:
    import PyNEC
except ImportError:
    sys.exit("PyNEC is not installed for this Python: pip install PyNEC in a virtual environment, then run again with it")


def nec(case):
    """One NEC-2 run: seconds to solve, seconds for the pattern, maximum gain in dBi."""
    start = time.perf_counter()
    engine = PyNEC.nec_context()
    geometry = engine.get_geometry()
    for tag, wire in enumerate(case["wires"], 1):
        geometry.wire(tag, wire["segments"], *wire["start_m"], *wire["end_m"], wire["radius_m"], 1.0, 1.0)
    engine.geometry_complete(0)
    if case.get("extended_kernel"):
        engine.set_extended_thin_wire_kernel(True)
    engine.gn_card(1 if case["ground"] == "perfect" else -1, 0, 0, 0, 0, 0, 0, 0)
    for source in case["sources"]:
        segments = case["wires"][source["wire"]]["segments"]
        segment = min(segments, int(source["position"] * segments) + 1)
        engine.ex_card(0, source["wire"] + 1, segment, 0, *source["volts"], 0, 0, 0, 0)
    engine.fr_card(0, 1, case["frequency_mhz"], 0)
    engine.xq_card(0)
    solved = time.perf_counter()
    engine.rp_card(0, ELEVATIONS, AZIMUTHS, 1, 0, 0, 0, 0.0, 0.0, STEP_DEG, STEP_DEG, 0.0, 0.0)
    done = time.perf_counter()
    return solved - start, done - solved, engine.get_gain_max(0)


def ours(bench, path, threads):
    """One run of our bench (itself a median of rounds)."""
    env = dict(os.environ, RAYON_NUM_THREADS=str(threads))
    line = subprocess.run([bench, "--json", path], env=env, check=True, capture_output=True, text=True).stdout
    row = json.loads(line)
    return row["solve_s"], row["pattern_s"], row["max_gain_dbi"], row["segments"], row["unknowns"]


def main():
    if len(sys.argv) < 3:
        sys.exit(__doc__)
    bench, files = sys.argv[1], sys.argv[2:]
    for path in files:
        with open(path, encoding="utf-8") as text:
            case = json.load(text)
        rows = {"NEC-2, 1 thread": [], "ours, 1 thread": [], f"ours, {os.cpu_count()} threads": []}
        names = list(rows)
        for _ in range(ROUNDS):
            rows[names[0]].append(nec(case))
            rows[names[1]].append(ours(bench, path, 1))
            rows[names[2]].append(ours(bench, path, os.cpu_count()))
        segments = sum(w["segments"] for w in case["wires"])
        print(f"{os.path.basename(path)}: {segments} segments in NEC-2, "
              f"{rows[names[1]][0][3]} segments and {rows[names[1]][0][4]} unknowns in ours")
        total = {}
        for name in names:
            solve, pattern = (statistics.median(r[i] for r in rows[name]) for i in (0, 1))
            total[name] = solve + pattern
            print(f"  {name:<18} solve {1e3 * solve:8.1f} ms   pattern {1e3 * pattern:8.1f} ms   "
                  f"together {1e3 * total[name]:8.1f} ms   {total[names[0]] / total[name]:6.1f} x   "
                  f"max gain {rows[name][0][2]:.3f} dBi")


if __name__ == "__main__":
    main()
