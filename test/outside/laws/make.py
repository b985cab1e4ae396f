"""Makes laws.json: quantiles, distribution function, density, mean and variance of laws by SciPy 1.17.1."""

import json
import math
import pathlib

from scipy import stats

U = [1e-6, 0.001, 0.05, 0.3, 0.5, 0.8, 0.975, 0.9999]


def log_normal(median, cov):
    return stats.lognorm(s=math.sqrt(math.log1p(cov * cov)), scale=median)


def truncated(mean, sd, low, high):
    return stats.truncnorm((low - mean) / sd, (high - mean) / sd, loc=mean, scale=sd)


cases = [
    ({"kind": "normal", "mean": 224, "sd": 3}, stats.norm(224, 3)),
    ({"kind": "log-normal", "median": 0.036, "cov": 0.25}, log_normal(0.036, 0.25)),
    ({"kind": "log-normal", "median": 215, "cov": 0.06}, log_normal(215, 0.06)),
    (
        {"kind": "truncated-normal", "mean": 0.25, "sd": 0.15, "low": 0, "high": 2},
        truncated(0.25, 0.15, 0, 2),
    ),
    (
        {"kind": "truncated-normal", "mean": -1, "sd": 0.5, "low": 0, "high": 3},
        truncated(-1, 0.5, 0, 3),
    ),
    ({"kind": "triangular", "low": 1.9, "mode": 2.6, "high": 3.2}, stats.triang((2.6 - 1.9) / 1.3, 1.9, 1.3)),
    ({"kind": "uniform", "low": 0.2, "high": 0.45}, stats.uniform(0.2, 0.25)),
    ({"kind": "student-t", "mean": 16.85, "scale": 0.01, "dof": 3}, stats.t(3, 16.85, 0.01)),
    ({"kind": "student-t", "mean": 0, "scale": 1, "dof": 11}, stats.t(11)),
]
# A law learned in the scores of another is that law at the normal law's place: x = F⁻¹(Φ(m + s z)), s by z's sign.
learned = [
    ({"kind": "log-normal", "median": 0.036, "cov": 0.25}, log_normal(0.036, 0.25), 0.65, 0.3, 0.29),
    (
        {"kind": "truncated-normal", "mean": 0.25, "sd": 0.15, "low": 0, "high": 2},
        truncated(0.25, 0.15, 0, 2),
        -0.4,
        0.8,
        0.5,
    ),
    ({"kind": "triangular", "low": 1.9, "mode": 2.6, "high": 3.2}, stats.triang((2.6 - 1.9) / 1.3, 1.9, 1.3), 0.2, 0.6, 1.1),
    ({"kind": "student-t", "mean": 16.85, "scale": 0.01, "dof": 3}, stats.t(3, 16.85, 0.01), -0.1, 0.9, 0.7),
]

rows = [
    {
        "law": law,
        "points": [
            {"u": u, "x": float(d.ppf(u)), "cumulative": float(d.cdf(d.ppf(u))), "density": float(d.pdf(d.ppf(u)))}
            for u in U
        ],
        "mean": float(d.mean()),
        "variance": float(d.var()),
    }
    for law, d in cases
]
for law, d, middle, below, above in learned:
    points = []
    for u in U:
        z = stats.norm.ppf(u)
        score = middle + (below if z < 0 else above) * z
        spread = below if z < 0 else above
        x = float(d.ppf(stats.norm.cdf(score)))
        density = float(d.pdf(x) * stats.norm.pdf(z) / (spread * stats.norm.pdf(score)))
        points.append({"u": u, "x": x, "cumulative": u, "density": density})
    rows.append(
        {
            "law": {"kind": "updated", "from": law, "middle": middle, "below": below, "above": above},
            "points": points,
            "mean": None,
            "variance": None,
        }
    )
pathlib.Path(__file__).with_name("laws.json").write_text(json.dumps(rows, indent=1) + "\n")
