"""What moves the required height, from the files of `tubgap draws`: python3 fit.py FOLDER [tub] [tyre]

First-order indices by the variance of means over bins of each input (a "given data" estimate: no design of its own is asked
for), and a quadratic response surface by least squares, judged on runs that it was not fitted to. numpy and pandas.
"""

import glob
import json
import sys

import numpy as np
import pandas as pd

folder = sys.argv[1]
about = json.load(open(f"{folder}/draws.json"))
tub = sys.argv[2] if len(sys.argv) > 2 else about["tubs"][0]
tyre = sys.argv[3] if len(sys.argv) > 3 else about["tyres"][0]
read = pd.read_parquet if about["files"] == "parquet" else pd.read_csv
runs = pd.concat(read(file) for file in sorted(glob.glob(f"{folder}/draws-*.{about['files']}")))
runs = runs[(runs.tyre == tyre) & (runs.drawn == "plain")]
need = runs[f"{tub}.required_height_m"].astype(float)
runs, need = runs[np.isfinite(need)], need[np.isfinite(need)].to_numpy()

# Columns between the weight and the axle are the inputs that vary.
names = [column["name"] for column in about["columns"]]
inputs = [name for name in names[names.index("weight") + 1 : names.index("build.axleHeight_m")] if runs[name].nunique() > 1]
values = runs[inputs].to_numpy(float)

BINS = 32


def first_order(x):
    """Share of the variance of `need` that the mean over bins of x explains, less what chance alone would."""
    edges = np.quantile(x, np.linspace(0, 1, BINS + 1)[1:-1])
    group = np.searchsorted(edges, x)
    counts = np.bincount(group, minlength=BINS)
    sums = np.bincount(group, need, minlength=BINS)
    means = sums[counts > 0] / counts[counts > 0]
    between = np.average((means - need.mean()) ** 2, weights=counts[counts > 0])
    share = between / need.var()
    return share - (np.count_nonzero(counts) - 1) / len(need) * (1 - share)


shares = pd.Series({name: first_order(values[:, k]) for k, name in enumerate(inputs)}).sort_values(ascending=False)
print(f"{tub}, {tyre}: {len(need)} runs, standard deviation {1000 * need.std():.2f} mm")
for name, share in shares.head(8).items():
    print(f"  {share:6.3f}  {name}")

# A quadratic response surface in the eight that matter most.
main = list(shares.index[:8])
z = (runs[main] - runs[main].mean()) / runs[main].std()
z = z.to_numpy()
terms = [np.ones(len(z)), *z.T, *[z[:, i] * z[:, j] for i in range(len(main)) for j in range(i, len(main))]]
design = np.column_stack(terms)
half = len(need) // 2
weights, *_ = np.linalg.lstsq(design[:half], need[:half], rcond=None)
left = need[half:] - design[half:] @ weights
print(f"quadratic surface in {len(main)} inputs: R2 {1 - left.var() / need[half:].var():.3f} on runs it was not fitted to")
