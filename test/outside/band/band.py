"""Displacement of a tensioned band on springs, by two methods that share nothing with the project.

1. Fourier sum in double precision with 400,000 terms (numpy); the terms fall as n^-4, so the rest is below 1e-17 m.
2. The band's differential equation as a periodic boundary value problem (scipy.integrate.solve_bvp):
   R (tau v'''' - (k_w - tau) v'' + k_v v) = q + p', w = -v', parabolic pressures p and q on the patch.

Run: python3 band.py     (numpy 2.x, scipy 1.1x). Prints the rows of bulge.ts, the axle drop of drop.ts and the
largest difference between the methods. No random numbers, no seed.
"""
import numpy as np
from scipy.integrate import solve_bvp

ANGLES = [-90, -45, 0, 15, 30, 45, 60, 90]
CASES = [
    # name, R, k_w, k_v, tau, alpha, F_z, F_x
    ("firm, load", 0.44, 7e5, 5e5, 32e3, 0.3, 1e4, 0.0),
    ("firm, thrust", 0.44, 7e5, 5e5, 32e3, 0.3, 0.0, 1e4),
    ("soft, both", 0.44, 6e4, 3e5, 87e3, 0.3, 1e4, 1e4),
    ("very soft, both", 0.44, 2e4, 2e3, 9e4, 0.3, 4e3, 4e3),
    ("short patch, both", 0.36, 5e5, 5e5, 6e4, 0.02, 5e3, 5e3),
]
N = np.arange(400_000, 0, -1, dtype=float)


def weight(x):
    # The closed form cancels below x = 0.1.
    safe = np.where(x < 0.1, 1.0, x)
    series = 1 - x**2 / 10 + x**4 / 280 - x**6 / 15120
    return np.where(x < 0.1, series, 3 * (np.sin(safe) - safe * np.cos(safe)) / safe**3)


def stiffness(n, R, kw, kv, tau):
    return np.pi * R * (tau * (n * n - 1) + kw + kv / (n * n))


def by_sum(theta, R, kw, kv, tau, alpha, Fz, Fx):
    phi = theta - np.pi
    f = weight(N * alpha) / stiffness(N, R, kw, kv, tau)
    return -np.sum(f * (Fz * np.cos(N * phi) + Fx / N * np.sin(N * phi)))


def by_equation(R, kw, kv, tau, alpha, Fz, Fx):
    # Three smooth pieces, joined at the ends of the patch: y holds v, v', v'', v''' of each.
    ends = [(-np.pi, -alpha), (-alpha, alpha), (alpha, np.pi)]

    def rhs(x, y):
        rows = []
        for piece, (low, high) in enumerate(ends):
            v, v1, v2, v3 = y[4 * piece : 4 * piece + 4]
            phi = low + (high - low) * x
            pressure = 0.0
            if piece == 1:
                pressure = -Fx * 0.75 / alpha * (1 - (phi / alpha) ** 2) + Fz * 1.5 / alpha**3 * phi
            fourth = (pressure / R + (kw - tau) * v2 - kv * v) / tau
            rows += [(high - low) * row for row in (v1, v2, v3, fourth)]
        return np.vstack(rows)

    def joints(a, b):
        return np.concatenate([b[0:4] - a[4:8], b[4:8] - a[8:12], b[8:12] - a[0:4]])

    mesh = np.linspace(0, 1, 400)
    solution = solve_bvp(rhs, joints, mesh, np.zeros((12, mesh.size)), tol=1e-8, max_nodes=20_000)
    assert solution.success, solution.message

    def bulge(theta):
        phi = (theta + 2 * np.pi) % (2 * np.pi) - np.pi
        piece = 0 if phi < -alpha else 1 if phi < alpha else 2
        low, high = ends[piece]
        return -solution.sol((phi - low) / (high - low))[4 * piece + 1]

    return bulge


worst = 0.0
for name, *numbers in CASES:
    row = [by_sum(np.radians(a), *numbers) for a in ANGLES]
    other = by_equation(*numbers)
    worst = max(worst, max(abs(w - other(np.radians(a))) for w, a in zip(row, ANGLES)))
    print(name, ", ".join(f"{w:.15e}" for w in row))
R, kw, kv, tau, alpha, load = 0.44, 7e5, 5e5, 32e3, 0.3, 6200.0
deflection = load * np.sum(weight(N * alpha) ** 2 / stiffness(N, R, kw, kv, tau))
print("sum of the axle drop", f"{deflection:.15e}", "with the curvature of the patch", f"{deflection + R * alpha**2 / 10:.15e}")
print("methods differ by at most, m", worst)
