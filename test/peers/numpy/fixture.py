"""The invented case of ../fixtures/case.json."""

import json
from pathlib import Path

import numpy as np
from question import CAR, TYRE, Tub
from tyre import TENSIONED, band_drop, patch_half_angle

FIXTURES = Path(__file__).resolve().parent.parent / "fixtures"


def read_case():
    return json.loads((FIXTURES / "case.json").read_text(encoding="utf-8"))


def draws(case):
    """Every input evenly between its ends. Run by run the next numbers of x -> 48271 x mod 2^31 - 1 (Park and Miller)."""
    groups = [(CAR, case["car"])] + [(TYRE, tyre["inputs"]) for tyre in case["tyres"]]
    ends = np.array([inputs[name] for names, inputs in groups for name in names])
    x = case["seed"]
    shares = np.empty((case["runs"], len(ends)))
    for run in range(case["runs"]):
        for column in range(len(ends)):
            x = 48271 * x % 2147483647
            shares[run, column] = x / 2147483647
    values = (ends[:, 0] + shares * (ends[:, 1] - ends[:, 0])).T
    columns = iter(np.ascontiguousarray(values))
    return [{name: next(columns) for name in names} for names, _ in groups]


def radial_stiffness(tyre):
    """k_w of the tyre with all inputs at their middle that gives the measured drop, N/m2."""
    middle = {name: sum(ends) / 2 for name, ends in tyre["inputs"].items()}
    pressure, radius, load = tyre["referencePressure"], middle["referenceRadius"], tyre["deflection"]["load"]
    tension = pressure * TENSIONED * middle["sectionWidth"] / radius
    patch = patch_half_angle(load, pressure, middle, radius)
    soft, stiff = np.log(1e3), np.log(1e9)
    for _ in range(60):
        k = np.exp((soft + stiff) / 2)
        drop = band_drop(load, patch, radius, k, k * middle["tangentialRatio"], tension, 96)
        soft, stiff = (np.log(k), stiff) if drop > tyre["deflection"]["drop"] else (soft, np.log(k))
    return np.exp((soft + stiff) / 2)


def setups(case):
    """What the model takes of each tyre, in the case's order."""
    stiffness = [radial_stiffness(tyre) for tyre in case["tyres"]]
    built = build_index(case)
    facts = {key: case[key] for key in ("distance", "finishAccelerationIs", "gripLostChance", "reserve", "growthFactor")}
    facts["build"] = [case["build"]["pressure"], case["tyres"][built]["referencePressure"], stiffness[built]]
    facts["tubs"] = [
        Tub(t["radius"], t["halfExtent"], t["centreForward"], t["legLength"]) for t in case["tubs"]
    ]
    return [
        {**facts, "construction": tyre["construction"], "tyre": [tyre["referencePressure"], k]}
        for tyre, k in zip(case["tyres"], stiffness)
    ]


def build_index(case):
    return [tyre["name"] for tyre in case["tyres"]].index(case["build"]["tyre"])
