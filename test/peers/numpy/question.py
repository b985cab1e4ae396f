"""What a peer is asked: the fixed facts of one tyre and a ladder of tubs, and the draws of every input (SI)."""

import math

import numpy as np

CAR = """mass rearShare wheelbase cgHeight dragArea dragHeight downforceArea rollingCoefficient wheelRate bumpTravel
stopRate droopTravel antiSquat axlePathSlope bushingGive torqueRoll addedMass topHeightError centreError trapSpeed
launchAcceleration finishAcceleration slipAtLaunch slipUnderway slipGripLost gripLostToss slipAtFinish burnoutSpeed
burnoutThrust gearOvershoot liftOvershoot chuteDeceleration chuteHeight bump airTemperature stationPressure
humidity""".split()

TYRE = """referenceRadius radiusPerPressure growthScale growthSpeedFactor growthCarcassPressure patchCarcassPressure
mass sectionWidth treadWidth stiffnessFactor tangentialRatio lobeHeight lobeAngle runOut coldPressure airHeating
volumeRatio rideHeightChange""".split()


class Tub:
    """Arc and legs; where a leg ends is told from the arc's centre, to the side and below."""

    def __init__(self, radius, half_extent, centre_forward, leg_length):
        self.radius = radius
        self.centre_forward = centre_forward
        self.upright = half_extent > math.pi / 2 - 1e-9
        self.sin_end = 1.0 if self.upright else math.sin(half_extent)
        self.cos_end = 0.0 if self.upright else math.cos(half_extent)
        self.end_side = radius * self.sin_end + leg_length * self.cos_end
        self.end_below = leg_length * self.sin_end - radius * self.cos_end


def read_setup(name):
    """The lines of a setup file as a dict; `tubs` is a list of Tub."""
    setup = {"tubs": []}
    for line in open(name, encoding="utf-8"):
        key, *values = line.split()
        if key == "tub":
            setup["tubs"].append(Tub(*map(float, values)))
        elif key in ("construction", "finishAccelerationIs"):
            setup[key] = values[0]
        else:
            setup[key] = float(values[0]) if len(values) == 1 else [float(v) for v in values]
    setup["runs"] = int(setup["runs"])
    return setup


def read_draws(name, setup):
    """Columns by name: of the car, the tyre and, where the axle stands on it, the build tyre."""
    columns = np.fromfile(name).reshape(-1, setup["runs"])
    car = dict(zip(CAR, columns))
    tyre = dict(zip(TYRE, columns[len(CAR) :]))
    build = dict(zip(TYRE, columns[len(CAR) + len(TYRE) :])) if "build" in setup else None
    return car, tyre, build
