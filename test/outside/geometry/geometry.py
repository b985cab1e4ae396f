"""Plain geometry in 30-digit arithmetic (mpmath 1.3); lengths in inches. Run: python3 geometry.py

Distances to an arc and the gap of two circles come from a search over points of the curves, not from a formula for
the nearest one.
"""
from mpmath import mp, mpf, pi, sin, cos, sqrt, radians, asin, degrees

mp.dps = 30


def lowest(f, low, high, count=720):
    """Least value of f between low and high: scan, then golden section."""
    grid = [low + (high - low) * i / count for i in range(count + 1)]
    best = min(range(count + 1), key=lambda i: f(grid[i]))
    a, b = grid[max(0, best - 1)], grid[min(count, best + 1)]
    ratio = (sqrt(mpf(5)) - 1) / 2
    for _ in range(150):
        c, d = b - ratio * (b - a), a + ratio * (b - a)
        if f(c) < f(d):
            b = d
        else:
            a = c
    return min((f(t), t) for t in (a, b, grid[best]))


for x, z in ((3, 4), (0, 12), (-8, 6), (0, 0), (10, 0), (6, -2), (-3, -4)):
    row = []
    for first, last in ((0, 180), (30, 150)):
        distance = lambda t: sqrt((10 * cos(t) - x) ** 2 + (10 * sin(t) - z) ** 2)
        row.append(mp.nstr(lowest(distance, radians(mpf(first)), radians(mpf(last)))[0], 15))
    print((x, z), *row)
for R, r, ahead, above in (("23.5", "17.25", 1, 0), ("23.5", "17.25", 1, 1), ("23.5", "17.25", 2, mpf("1.5")), ("23.5", "17.25", mpf("-1.5"), 2)):
    R, r = mpf(R), mpf(r)
    gap = lambda t: R - sqrt((r * cos(t) + ahead) ** 2 + (r * sin(t) + above) ** 2)
    least, at = lowest(gap, -pi, pi)
    print("circles", R, r, ahead, above, mp.nstr(least, 15), mp.nstr(degrees(at), 12))
for angle in (60, 90, 120, 180):
    t, R = radians(mpf(angle)), mpf("23.5")
    print("segment", angle, mp.nstr(R * t, 15), mp.nstr(2 * R * sin(t / 2), 15), mp.nstr(R**2 / 2 * (t - sin(t)), 15))
print("flat length", [mp.nstr(pi * D / 2, 12) for D in (52, 43, 38, 31)], mp.nstr(pi * mpf("23.52"), 12))
print("static gaps: tub of 47 centred over the axle, top at 39, axle 16.5 up, round tyre of 34.5; hub angle, distance")
for ahead in (0, 1):
    for angle in (-45, 0, 30, 45, 60, 90):
        t = radians(mpf(angle))
        x, z = mpf("17.25") * sin(t) - ahead, mpf("17.25") * cos(t) - (39 - mpf("16.5") - mpf("23.5"))
        print(ahead, angle, mp.nstr(mpf("23.5") - sqrt(x * x + z * z), 12))
