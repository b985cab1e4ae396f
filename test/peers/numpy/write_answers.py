"""Writes the committed answers of ../fixtures from its case.json: `python3 write_answers.py`.

Draws, stiffness and heights come from this folder alone. Prints what the table's width and the harmonics' number do.
"""

import csv

import numpy as np
from fixture import FIXTURES, build_index, draws, read_case, setups
from model import answers
from tyre import static_loaded_radius


def main():
    case = read_case()
    car, *tyres = draws(case)
    build = tyres[build_index(case)]
    for tyre, draw, setup in zip(case["tyres"], tyres, setups(case)):
        if draw is build:
            few, many = (static_loaded_radius(car, build, setup["build"], harmonics) for harmonics in (96, 4000))
            print(f"axle height: 96 harmonics against 4000, worst {np.abs(few - many).max():.1e} m")
        heights, _ = answers(setup, car, draw, build)
        coarse, _ = answers(setup, car, draw, build, degrees=2.5)
        finite = np.isfinite(heights)
        assert np.array_equal(finite, np.isfinite(coarse))
        worst = np.abs(heights[finite] - coarse[finite]).max()
        print(f"{tyre['name']}: k_w {setup['tyre'][1]:.12g} N/m2; tables of 1 and 2.5 degrees differ by {worst:.1e} m")
        with open(FIXTURES / f"{tyre['name']}.csv", "w", newline="", encoding="utf-8") as out:
            writer = csv.writer(out, lineterminator="\n")
            writer.writerow(tub["name"] for tub in case["tubs"])
            writer.writerows([f"{height:.15g}" for height in row] for row in heights.T)


main()
