"""The tightest runs beside others in parallel coordinates, from the files of `tubgap draws`: python3 parallel.py FOLDER TO.svg

pandas and matplotlib.
"""

import glob
import json
import sys

import matplotlib

matplotlib.use("svg")
import matplotlib.pyplot as plt
import pandas as pd

folder, to = sys.argv[1:3]
about = json.load(open(f"{folder}/draws.json"))
tub, tyre = about["tubs"][0], about["tyres"][0]
file = sorted(glob.glob(f"{folder}/draws-*.{about['files']}"))[0]
runs = (pd.read_parquet if about["files"] == "parquet" else pd.read_csv)(file)
runs = runs[runs.tyre == tyre].sort_values(f"{tub}.required_height_m")
inputs = [name for name in ("run.trapSpeed_m_s", "tyres[].growthScale", "tyres[].coldPressure_Pa",
                            "suspension.bumpTravel_m", "aero.downforceArea_m2") if name in runs]
shown = pd.concat([runs.iloc[:: max(1, len(runs) // 60)], runs.tail(20)])
scaled = (shown[inputs] - runs[inputs].min()) / (runs[inputs].max() - runs[inputs].min())
scaled["of"] = ["a run"] * (len(shown) - 20) + ["the 20 tightest"] * 20
figure, axes = plt.subplots(figsize=(9, 4.5))
pd.plotting.parallel_coordinates(scaled, "of", ax=axes, color=["#9a9a9a", "#a4332a"], linewidth=0.8)
axes.set_title(f"{tyre} in {tub}, invented: each line a run, each axis from least to most")
axes.tick_params(axis="x", labelrotation=12)
figure.tight_layout()
figure.savefig(to)
print(f"written to {to}")
