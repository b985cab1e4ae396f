"""Writes the committed answers of ../fixtures from its case.json: `python3 write_answers.py`.

Draws, stiffness and heights come from this folder alone. Prints what the table's width and the harmonics' number do.
"""

import csv
import json
from pathlib import Path

import numpy as np
from model import answers
from question import CAR, TYRE, Tub
from tyre import TENSIONED, band_drop, patch_half_angle, static_loaded_radius

FIXTURES = Path(__file__).resolve().parent.parent / "fixtures"


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


def main():
    case = json.loads((FIXTURES / "case.json").read_text(encoding="utf-8"))
    car, *tyres = draws(case)
    names = [tyre["name"] for tyre in case["tyres"]]
    stiffness = [radial_stiffness(tyre) for tyre in case["tyres"]]
    built = names.index(case["build"]["tyre"])
    build = [case["build"]["pressure"], case["tyres"][built]["referencePressure"], stiffness[built]]
    tubs = [
        Tub(t["radius"], t["halfExtent"], t["centreForward"], np.inf if t["legFloor"] is None else t["legFloor"])
        for t in case["tubs"]
    ]
    axle = static_loaded_radius(car, tyres[built], build)
    more = static_loaded_radius(car, tyres[built], build, 4000)
    print(f"axle height: 96 harmonics against 4000, worst {np.abs(axle - more).max():.1e} m")
    for tyre, draw, k in zip(case["tyres"], tyres, stiffness):
        setup = {
            **{key: case[key] for key in ("distance", "finishAccelerationIs", "gripLostChance", "reserve", "growthFactor")},
            "construction": tyre["construction"],
            "tyre": [tyre["referencePressure"], k],
            "build": build,
            "tubs": tubs,
        }
        heights, _, _ = answers(setup, car, draw, tyres[built])
        coarse, _, _ = answers(setup, car, draw, tyres[built], degrees=5.0)
        finite = np.isfinite(heights)
        assert np.array_equal(finite, np.isfinite(coarse))
        worst = np.abs(heights[finite] - coarse[finite]).max()
        print(f"{tyre['name']}: k_w {k:.12g} N/m2; a table of 1 degree against 5, worst {worst:.1e} m")
        with open(FIXTURES / f"{tyre['name']}.csv", "w", newline="", encoding="utf-8") as out:
            writer = csv.writer(out, lineterminator="\n")
            writer.writerow(tub["name"] for tub in case["tubs"])
            writer.writerows([f"{height:.15g}" for height in row] for row in heights.T)


main()
