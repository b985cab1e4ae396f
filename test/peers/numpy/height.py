"""Required height, all runs at once."""

import numpy as np

REACH = np.radians(120)


def lowest_centre(tub, radius, x, z):
    """Centre of the arc that a point allows, above the axle: z less the wall's height over the centre there.

    -inf beyond the legs: a leg's end has a search of its own.
    """
    square = radius**2 - x * x
    centre = z - np.sqrt(np.maximum(square, 0))
    if tub.upright:
        centre[square < 0] = -np.inf
    else:
        side = np.abs(x)
        on_leg = side > radius * tub.sin_end
        centre[on_leg] = z[on_leg] - (radius - side[on_leg] * tub.sin_end) / tub.cos_end
        centre[side > tub.end_side - (tub.radius - radius) * tub.sin_end] = -np.inf
    return centre


def curve(outline, reserve, way, out):
    """The curve a reserve outside the outline, `out` outward on the side `way`: its reach, height, and the outline's slope."""
    angle = way * out
    r, dr, _ = outline.at(angle)
    s, c = np.sin(angle), np.cos(angle)
    dx, dz = dr * s + r * c, dr * c - r * s
    speed = np.hypot(dx, dz)
    return way * (r * s - reserve * dz / speed), r * c + reserve * dx / speed, dx


def end_height(outline, reserve, way, target):
    """How high the end of a leg must stand: where the curve first reaches its upright line; -inf where it never does."""
    runs = len(target)
    steps = np.radians(np.arange(0.0, 120.5, 1.0))
    low, high = np.zeros(runs), np.full(runs, np.nan)
    before = curve(outline, reserve, way, low)[2]
    for left, right in zip(steps[:-1], steps[1:]):
        reach, _, slope = curve(outline, reserve, way, np.full(runs, right))
        top = np.full(runs, right)
        turned = (before > 0) & (slope <= 0)
        if np.any(turned):
            inside, outside = np.full(runs, left), top.copy()
            for _ in range(60):
                middle = (inside + outside) / 2
                rising = curve(outline, reserve, way, middle)[2] > 0
                inside, outside = np.where(rising, middle, inside), np.where(rising, outside, middle)
            top = np.where(turned & (reach < target), outside, top)
            reach = curve(outline, reserve, way, top)[0]
        fresh = np.isnan(high) & (reach >= target)
        low, high = np.where(fresh, left, low), np.where(fresh, top, high)
        before = slope
    never = np.isnan(high)
    high = np.where(never, steps[-1], high)
    for _ in range(60):
        middle = (low + high) / 2
        short = curve(outline, reserve, way, middle)[0] < target
        low, high = np.where(short, middle, low), np.where(short, high, middle)
    return np.where(never, -np.inf, curve(outline, reserve, way, high)[1])


def ends_needed(outline, live, largest, tub, offset, radius, found, beat):
    """`found` raised to what the ends of both legs ask for, where that may exceed `beat`."""
    reserve = tub.radius - radius
    for way in (-1, 1):
        ahead = offset + way * tub.end_side
        over = (largest + reserve) ** 2 - ahead**2
        bound = np.sqrt(np.maximum(over, 0)) + tub.end_below
        rows = np.flatnonzero((over > 0) & (bound > np.maximum(found, beat)))
        if len(rows):
            centre = end_height(outline.take(live[rows]), reserve, way, way * ahead[rows]) + tub.end_below
            found[rows] = np.maximum(found[rows], centre)
    return found


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
    """What a round tyre of that radius would need, m over the axle: no less than any outline within it.

    Infinite where that tyre does not stay within the arc's circle all round.
    """
    room = tub.radius - largest - reserve
    square = room**2 - offset**2
    fits = (room > 0) & (square > 0)
    return np.where(fits, tub.radius - np.sqrt(np.where(fits, square, 0)), np.inf)


def needed(outline, live, points, angles, largest, tub, offset, radius, beat):
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
    worth &= np.isfinite(table)
    rows, columns = np.nonzero(peaks & worth & np.isfinite(found)[:, None])
    if len(rows):
        settled = settle(outline.take(live[rows]), tub, offset[rows], radius, angles[columns], step)
        np.maximum.at(found, rows, settled)
    return tub.radius + ends_needed(outline, live, largest, tub, offset, radius, found, beat - tub.radius)
