"""Risk of a required height by OpenTURNS, its vectorised Python function over the numpy peer.

form.py HEIGHT: for each line of standard input, a seed, its FORM followed by importance sampling about the design point,
until a coefficient of variation of 10 %: one line with probability, its own coefficient of variation, model calls (the
search included) and processor seconds. A line `plain N` draws N points and evaluates them once.
The case is that of ../fixtures/case.json, its slick in its last tub; every input even between its ends.
"""

import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "numpy"))

import numpy as np  # noqa: E402
import openturns as ot  # noqa: E402
from fixture import build_index, read_case, setups  # noqa: E402
from model import answers  # noqa: E402
from question import CAR, TYRE  # noqa: E402

BLOCK = 256


def problem(height):
    """The failure event, the model's function and the law of its inputs."""
    case = read_case()
    slick = build_index(case)
    setup = setups(case)[slick]
    setup["tubs"] = setup["tubs"][-1:]
    ends = [case["car"][name] for name in CAR] + [case["tyres"][slick]["inputs"][name] for name in TYRE]
    spread = [i for i, (low, high) in enumerate(ends) if high > low]

    def heights(sample):
        sample = np.asarray(sample)
        columns = np.repeat([[low] for low, _ in ends], len(sample), axis=1)
        columns[spread] = sample.T
        found = np.empty((len(sample), 1))
        for at in range(0, len(sample), BLOCK):
            part = columns[:, at : at + BLOCK]
            car, tyre = dict(zip(CAR, part)), dict(zip(TYRE, part[len(CAR) :]))
            found[at : at + BLOCK, 0] = answers(setup, car, tyre, tyre, degrees=2.5)[0][0]
        # Its statistics know no infinity.
        return np.minimum(found, 10.0)

    function = ot.PythonFunction(len(spread), 1, func_sample=heights)
    law = ot.ComposedDistribution([ot.Uniform(*ends[i]) for i in spread])
    needed = ot.CompositeRandomVector(function, ot.RandomVector(law))
    return ot.ThresholdEvent(needed, ot.Greater(), height), function, law


def main():
    height = float(sys.argv[1])
    event, function, law = problem(height)
    for line in sys.stdin:
        before, called = time.process_time(), function.getCallsNumber()
        if line.startswith("plain"):
            sample = law.getSample(int(line.split()[1]))
            probability = float(np.mean(np.asarray(function(sample)) > height))
            cov = 0.0
        else:
            ot.RandomGenerator.SetSeed(int(line))
            form = ot.FORM(ot.AbdoRackwitz(), event, law.getMean())
            form.run()
            point = form.getResult().getStandardSpaceDesignPoint()
            about = ot.ImportanceSamplingExperiment(ot.Normal(point, ot.CovarianceMatrix(len(point))))
            algorithm = ot.ProbabilitySimulationAlgorithm(ot.StandardEvent(event), about)
            algorithm.setMaximumOuterSampling(1000)
            algorithm.setBlockSize(100)
            algorithm.setMaximumCoefficientOfVariation(0.1)
            algorithm.run()
            result = algorithm.getResult()
            probability, cov = result.getProbabilityEstimate(), result.getCoefficientOfVariation()
        spent = time.process_time() - before
        print(f"{probability:.6e} {cov:.4f} {function.getCallsNumber() - called} {spent:.6f}", flush=True)


main()
