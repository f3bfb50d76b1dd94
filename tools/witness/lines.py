"""Holds our lines, chains and rigid lines against scikit-rf (a general network library, from PyPI).

    cargo run -q -p antenna --example chain_json | python3 tools/witness/lines.py

Reads the JSON on standard input, prints `N passed, M failed`, and exits 1 when something failed.
Needs: scikit-rf (2.2 was used), numpy.
"""

import json
import sys

import numpy as np
import skrf

DB_PER_NEPER = 20 / np.log(10)
LIGHT = 299_792_458.0
passed, failed = 0, 0


def check(what, ours, theirs, tolerance):
    """Counts one comparison; prints it when it fails."""
    global passed, failed
    if abs(ours - theirs) <= tolerance:
        passed += 1
    else:
        failed += 1
        print(f"FAILED {what}: ours {ours}, theirs {theirs}, tolerance {tolerance}")


def line(part, freq):
    """The part as a line of scikit-rf, in a 50 ohm system."""
    mhz = freq.f / 1e6
    db_per_m = (part["a"] * np.sqrt(mhz) + part["b"] * mhz) / 100
    db_per_m *= np.sqrt(1 + 0.0039 * (part["conductor_c"] - 20))
    gamma = db_per_m / DB_PER_NEPER + 2j * np.pi * freq.f / (LIGHT * part["velocity"])
    media = skrf.media.DefinedGammaZ0(freq, gamma=gamma, z0=part["z0"], z0_port=50)
    return media.line(part["length_m"], "m")


def chain(case):
    """One chain over the band against the cascade of scikit-rf."""
    answers = case["answers"]
    freq = skrf.Frequency.from_f([a["freq_mhz"] for a in answers], unit="MHz")
    plain = skrf.media.DefinedGammaZ0(freq, z0=50)
    stub = admittance(freq, 0.002j)
    loss = plain.attenuator(-0.1)
    parts = [line(case["feeder"], freq), stub, loss, line(case["jumper"], freq)]
    load_ohm = complex(*case["load_ohm"])
    gamma = (load_ohm - 50) / (load_ohm + 50)
    whole = skrf.network.cascade_list(parts)
    load = plain.load(gamma)
    reflection = (whole ** load).s[:, 0, 0]
    for i, answer in enumerate(answers):
        name = f"load {load_ohm} at {answer['freq_mhz']} MHz"
        ours = complex(*answer["input_reflection"])
        check(f"reflection, {name}", ours, reflection[i], 1e-9)
        mag = abs(reflection[i])
        vswr = (1 + mag) / (1 - mag)
        check(f"VSWR, {name}", answer["vswr"], vswr, 1e-7 * vswr)
        s = whole.s[i]
        wave = s[1, 0] / (1 - s[1, 1] * gamma)
        delivered = abs(wave) ** 2 * (1 - abs(gamma) ** 2)
        check(f"loss, {name}", answer["loss_db"], -10 * np.log10(delivered / (1 - mag**2)), 1e-8)
        check(f"delivered, {name}", answer["delivered_w"], 1000 * delivered, 1e-6)
        planes = answer["planes"]
        # Plane 2 (behind the second part): waves there by the parts before and behind it.
        before, behind = skrf.network.cascade_list(parts[:2]).s[i], (skrf.network.cascade_list(parts[2:]) ** load).s[i, 0, 0]
        onward = before[1, 0] / (1 - before[1, 1] * behind)
        check(f"forward behind part 2, {name}", planes[2]["forward_w"], 1000 * abs(onward) ** 2, 1e-6)
        peak = np.sqrt(2 * 1000 * 50) * abs(onward * (1 + behind))
        check(f"peak voltage behind part 2, {name}", planes[2]["voltage_peak_v"], peak, 1e-7)


def admittance(freq, siemens):
    """A fixed admittance across a 50 ohm line."""
    y = siemens * 50
    s = np.array([[-y / (2 + y), 2 / (2 + y)], [2 / (2 + y), -y / (2 + y)]])
    return skrf.Network(frequency=freq, s=np.tile(s, (len(freq.f), 1, 1)), z0=50)


def rigid(row):
    """A rigid line against the coaxial medium of scikit-rf."""
    freq = skrf.Frequency(row["freq_mhz"], row["freq_mhz"], 1, unit="MHz")
    inner, outer = row["inner_mm"] / 1e3, row["outer_mm"] / 1e3
    coax = skrf.media.Coaxial(freq, Dint=inner, Dout=outer, epsilon_r=1, tan_delta=0, sigma=5.8e7)
    db = coax.gamma.real[0] * DB_PER_NEPER * 100
    check(f"rigid {row['outer_mm']} mm, dB per 100 m", row["db_per_100m"], db, 0.001)
    check(f"rigid {row['outer_mm']} mm, ohm", row["z0_ohm"], coax.z0_characteristic.real[0], 0.05)


data = json.load(sys.stdin)
for case in data["chains"]:
    chain(case)
for row in data["rigid"]:
    rigid(row)
print(f"{passed} passed, {failed} failed (scikit-rf {skrf.__version__})")
sys.exit(1 if failed else 0)
