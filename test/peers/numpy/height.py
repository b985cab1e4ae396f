"""Required height and gap to the legs, all runs at once."""

import numpy as np

REACH = np.radians(100)


def lowest_centre(tub, radius, x, z):
    """Centre of the arc that a point allows, above the axle: z less the wall's height over the centre there."""
    square = radius**2 - x * x
    centre = z - np.sqrt(np.maximum(square, 0))
    if tub.upright:
        centre[square < 0] = np.inf
    else:
        side = np.abs(x)
        on_leg = side > radius * tub.sin_end
        centre[on_leg] = z[on_leg] - (radius - side[on_leg] * tub.sin_end) / tub.cos_end
    return centre


def settle(outline, tub, offset, radius, angle, step):
    """Largest centre near each starting angle: Newton within the table's bracket, halving where it does not settle."""
    low, high = np.maximum(angle - step, -REACH), np.minimum(angle + step, REACH)
    best = np.full(len(angle), -np.inf)
    change = np.full(len(angle), np.inf)
    last = np.zeros(len(angle))
    for _ in range(8):
        r, dr, ddr = outline.at(angle)
        s, c = np.sin(angle), np.cos(angle)
        x, z = r * s - offset, r * c
        centre = lowest_centre(tub, radius, x, z)
        best = np.maximum(best, centre)
        dx, dz = dr * s + r * c, dr * c - r * s
        ddx, ddz = ddr * s + 2 * dr * c - r * s, ddr * c - 2 * dr * s - r * c
        on_arc = np.abs(x) <= radius * tub.sin_end
        up = np.where(on_arc, z - centre, radius * tub.cos_end)
        across = np.where(on_arc, x, np.sign(x) * radius * tub.sin_end)
        with np.errstate(invalid="ignore", divide="ignore"):
            first = (across * dx + up * dz) / radius
            second = (across * ddx + up * ddz + np.where(on_arc, dx**2 + dz**2 - first**2, 0)) / radius
            newton = np.where(second < 0, -first / second, np.sign(first) * step / 2)
            change = np.clip(angle + newton, low, high) - angle
            last = np.where(up > 0, centre + first * change * radius / (2 * up), centre)
        settled = np.abs(change) < 1e-5
        if np.all(settled | np.isinf(best)):
            break
        angle = np.where(np.isnan(change), angle, angle + change)
    # A last step of Newton's that small is right to its third order.
    best = np.where(settled & np.isfinite(last), np.maximum(best, last), best)
    rest = np.flatnonzero(~settled & np.isfinite(best))
    if len(rest):
        best[rest] = golden(outline.take(rest), tub, offset[rest], radius, low[rest], high[rest], best[rest])
    return best


def golden(outline, tub, offset, radius, low, high, best):
    """Largest centre between two angles by golden section: slow, but nothing stops it, not even an upright wall."""
    share = 0.5 * (np.sqrt(5) - 1)

    def value(angle):
        r = outline.at(angle)[0]
        return lowest_centre(tub, radius, r * np.sin(angle) - offset, r * np.cos(angle))

    left, right = high - share * (high - low), low + share * (high - low)
    at_left, at_right = value(left), value(right)
    for _ in range(60):
        best = np.maximum(best, np.maximum(at_left, at_right))
        more = at_left > at_right
        low, high = np.where(more, low, left), np.where(more, right, high)
        fresh = np.where(more, high - share * (high - low), low + share * (high - low))
        at_fresh = value(fresh)
        left, right = np.where(more, fresh, right), np.where(more, left, fresh)
        at_left, at_right = np.where(more, at_fresh, at_right), np.where(more, at_left, at_fresh)
    return best


def round_bound(largest, tub, offset, reserve):
    """What a round tyre of that radius would need, m over the axle: no less than any outline within it."""
    room = tub.radius - largest - reserve
    square = room**2 - offset**2
    fits = (room > 0) & (square > 0)
    return np.where(fits, tub.radius - np.sqrt(np.where(fits, square, 0)), np.inf)


def needed(outline, live, points, angles, tub, offset, radius, beat):
    """Crown above the axle for the live runs of an outline, m, where it may exceed `beat`; else a lower bound of it.

    points: x and z of the live runs at `angles`, one row a run.
    """
    x, z = points
    step = angles[1] - angles[0]
    table = lowest_centre(tub, radius, x - offset[:, None], z)
    found = table.max(axis=1)
    padded = np.pad(table, ((0, 0), (1, 1)), constant_values=-np.inf)
    peaks = (table >= padded[:, :-2]) & (table >= padded[:, 2:])
    # What a table this wide can hide of a peak, away from an upright wall.
    hidden = step**2
    side = np.abs(x - offset[:, None]) > 0.9 * radius
    worth = (table > np.maximum(found, beat - tub.radius)[:, None] - hidden) | (side & tub.upright)
    rows, columns = np.nonzero(peaks & worth & np.isfinite(found)[:, None])
    if len(rows):
        settled = settle(outline.take(live[rows]), tub, offset[rows], radius, angles[columns], step)
        np.maximum.at(found, rows, settled)
    return tub.radius + found


def leg_gap(x, z, angles, tub, offset, floor):
    """Smallest gap to the upright walls from 60 degrees on, above `floor`: a parabola through a table of every degree."""
    reach = np.sign(angles) * (x - offset[:, None])
    legs = (np.abs(angles) > np.radians(59.5)) & (z >= floor[:, None])
    reach = np.where(legs, reach, -np.inf)
    place = reach.argmax(axis=1)
    row = np.arange(len(reach))
    here = reach[row, place]
    before, after = reach[row, np.maximum(place - 1, 0)], reach[row, np.minimum(place + 1, len(angles) - 1)]
    with np.errstate(invalid="ignore", divide="ignore"):
        bend = before - 2 * here + after
        top = np.where((bend < 0) & np.isfinite(bend), here - (after - before) ** 2 / (8 * bend), here)
    return tub.radius - top
