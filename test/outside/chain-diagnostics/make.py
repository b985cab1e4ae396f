"""Makes chains.json: chains of several kinds and what ArviZ says of them. Run with numpy and arviz 0.23.4."""

import json
import pathlib

import arviz
import numpy as np


def autoregressive(rng, chains, draws, share, scale=1.0):
    out = np.zeros((chains, draws))
    out[:, 0] = rng.normal(size=chains) * scale
    for i in range(1, draws):
        out[:, i] = share * out[:, i - 1] + np.sqrt(1 - share**2) * scale * rng.normal(size=chains)
    return out


rng = np.random.default_rng(20)
kinds = {
    "independent": rng.normal(size=(4, 100)),
    "slow": autoregressive(rng, 4, 200, 0.9),
    "antithetic": autoregressive(rng, 4, 100, -0.5),
    "one chain elsewhere": rng.normal(size=(4, 100)) + np.array([[0], [0], [0], [1.2]]),
    "one chain wider": rng.normal(size=(4, 100)) * np.array([[1], [1], [1], [3]]),
    "heavy tails": rng.standard_cauchy(size=(4, 100)),
    "two chains, odd length": autoregressive(rng, 2, 101, 0.5),
}
rows = []
for name, chains in kinds.items():
    chains = np.round(chains, 4)
    rows.append(
        {
            "kind": name,
            "chains": chains.tolist(),
            "rHat": float(arviz.rhat(chains, method="rank")),
            "bulk": float(arviz.ess(chains, method="bulk")),
            "tail": float(arviz.ess(chains, method="tail")),
        }
    )
place = pathlib.Path(__file__).with_name("chains.json")
place.write_text(json.dumps(rows) + "\n")
