"""The clearance model with numpy, written from its formulas as a second hand."""

import numpy as np
from car import MOMENTS, body_drop, moments
from height import needed, round_bound
from tyre import Inflated, Outline, static_loaded_radius

ORDER = ("finish", "after the lift", "parachute", "grip lost", "gear change", "middle", "launch", "burnout")
assert sorted(ORDER) == sorted(MOMENTS)


def answers(setup, car, tyre, build=None, degrees=1.0):
    """Heights above the track with the reserve and without, m: arrays of tubs by runs.

    degrees: of the table in which the peaks are sought; the answers do not depend on it.
    """
    runs = len(car["mass"])
    tubs = setup["tubs"]
    required = np.full((len(tubs), runs), -np.inf)
    contact = required.copy()
    if build is None:
        axle = np.full(runs, setup["axleHeight"])
    else:
        axle = static_loaded_radius(car, build, setup["build"])
    inflated = Inflated(car, tyre, setup)
    count = round(120 / degrees)
    angles = np.radians(np.arange(-count, count + 1) * degrees)
    car_moments = moments(car, setup)
    for name in ORDER:
        moment = car_moments[name]
        rows = np.flatnonzero(moment["happens"])
        if len(rows) == 0:
            continue
        outline = Outline(inflated, moment, rows)
        r = outline.table(angles)
        x, z = r * np.sin(angles), r * np.cos(angles)
        drop = body_drop(car, tyre["rideHeightChange"], moment)
        forward = car["axlePathSlope"] * drop + car["bushingGive"] * moment["share"]
        lift = (axle - car["topHeightError"] + drop)[rows]
        # Between its points a table hides less than the square of its step, m: no outline bends that sharply.
        largest = r.max(axis=1) + (angles[1] - angles[0]) ** 2 / 4
        for t, tub in enumerate(tubs):
            offset = tub.centre_forward + (car["centreError"] - forward)[rows]
            for heights, reserve in ((required, setup["reserve"]), (contact, 0.0)):
                beat = heights[t, rows] - lift
                live = np.flatnonzero(round_bound(largest, tub, offset, reserve) > beat)
                if len(live) == 0:
                    continue
                crown = needed(
                    outline, live, (x[live], z[live]), angles, largest[live], tub, offset[live], tub.radius - reserve, beat[live]
                )
                heights[t, rows[live]] = np.maximum(heights[t, rows[live]], lift[live] + crown)
    return required, contact
