"""One run of one invented car, every moment, by a program that shares nothing with the project but the formulas.

The band is a Fourier sum of 6,000 terms, the track run a numerical integration, the sidewall and the required height
come from general root finders and minimisers (numpy 2.4, scipy 1.17). Writes one-run.json: inputs in SI and answers.
Run: python3 one_run.py
"""
import json
import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq, minimize_scalar

G = 9.80665
N = np.arange(6000, 0, -1, dtype=float)

CAR = dict(
    mass=1195, rearShare=0.51, wheelbase=2.77, cgHeight=0.5, dragArea=0.56, dragHeight=0.57, downforceArea=1.1,
    rollingCoefficient=0.015, wheelRate=33500, bumpTravel=0.055, stopRate=430e3, droopTravel=0.07, antiSquat=1.08,
    axlePathSlope=0.09, bushingGive=0.0025, torqueRoll=0.004, addedMass=35, topHeightError=-0.0015, centreError=0.002,
    trapSpeed=108, launchAcceleration=25, finishAcceleration=8.4, slipAtLaunch=0.12, slipUnderway=0.06,
    slipGripLost=0.3, gripLostToss=0.02, slipAtFinish=0.05, burnoutSpeed=42, burnoutThrust=0.2, gearOvershoot=1.25,
    liftOvershoot=1.3, chuteDeceleration=19, chuteHeight=0.62, bump=0.004, airTemperature=301, stationPressure=97.2e3,
    humidity=0.55,
)
SLICK = dict(
    referenceRadius=0.428, radiusPerPressure=5.2e-8, growthScale=0.035, growthSpeedFactor=1.03,
    growthCarcassPressure=13.8e3, patchCarcassPressure=13.8e3, mass=20.1, sectionWidth=0.37, treadWidth=0.33,
    stiffnessFactor=0.94, tangentialRatio=0.72, lobeHeight=0.0062, lobeAngle=0.68, runOut=0.0008, coldPressure=47e3,
    airHeating=17, volumeRatio=1.006, rideHeightChange=0,
)
RADIAL = dict(
    referenceRadius=0.352, radiusPerPressure=1.1e-8, growthScale=0.0072, growthSpeedFactor=1,
    growthCarcassPressure=300e3, patchCarcassPressure=41e3, mass=14.2, sectionWidth=0.29, treadWidth=0.25,
    stiffnessFactor=1.05, tangentialRatio=1.02, lobeHeight=0.0012, lobeAngle=0.7, runOut=0.0006, coldPressure=112e3,
    airHeating=14, volumeRatio=1.002, rideHeightChange=0.006,
)
MEASURED = {  # pressure, load, axle drop
    "bias": (46e3, 6100, 0.0212),
    "radial": (110e3, 5700, 0.0204),
}
TUB = dict(radius=0.566, centreForward=-0.012)
RESERVE, TOP, DISTANCE, BUILD_PRESSURE = 0.0127, 0.964, 402.336, 46e3
MOMENTS = ["burnout", "launch", "gear change", "middle", "grip lost", "finish", "after the lift", "parachute"]


def density(T, p, humidity):
    t = T - 273.15
    saturation = np.exp(1.2378847e-5 * T**2 - 1.9121316e-2 * T + 33.93711047 - 6.3431645e3 / T)
    x = humidity * (1.00062 + 3.14e-8 * p + 5.6e-7 * t**2) * saturation / p
    Z = 1 - p / T * (1.58123e-6 - 2.9331e-8 * t + 1.1043e-10 * t**2 + (5.707e-6 - 2.051e-8 * t) * x
                     + (1.9898e-4 - 2.376e-6 * t) * x**2) + (p / T) ** 2 * (1.83e-11 - 0.765e-8 * x**2)
    return 28.96546e-3 * p / (Z * 8.314472 * T) * (1 - 0.378 * x)


def weight(x):
    safe = np.where(x < 0.1, 1.0, x)
    return np.where(x < 0.1, 1 - x**2 / 10 + x**4 / 280 - x**6 / 15120,
                    3 * (np.sin(safe) - safe * np.cos(safe)) / safe**3)


def harmonics(R, p, tyre, kw):
    tau = p * 0.8 * tyre["sectionWidth"] / R
    return np.pi * R * (tau * (N * N - 1) + kw + tyre["tangentialRatio"] * kw / (N * N))


def patch(load, p, tyre, R):
    return min(0.6, load / (2 * (p + tyre["patchCarcassPressure"]) * tyre["treadWidth"] * R))


def axle_drop(load, p, tyre, R, kw):
    a = patch(load, p, tyre, R)
    return load * np.sum(weight(N * a) ** 2 / harmonics(R, p, tyre, kw)) + R * a * a / 10


def sidewall(kind, tyre):
    """k_w of the middle tyre: its spread is left out, as in the measurement."""
    p, load, drop = MEASURED[kind]
    R = tyre["referenceRadius"]
    return brentq(lambda kw: axle_drop(load, p, tyre, R, kw) - drop, 1e4, 1e8, xtol=1e-6, rtol=1e-14)


def body_drop(force, ride):
    free = force / CAR["wheelRate"]
    travel = CAR["bumpTravel"] + ride
    if free > travel:
        free = travel + (force - CAR["wheelRate"] * travel) / (CAR["wheelRate"] + CAR["stopRate"])
    return max(free, -(CAR["droopTravel"] - ride)) - ride


def run(kind, tyre, kw_middle, axle, reference):
    rho = density(CAR["airTemperature"], CAR["stationPressure"], CAR["humidity"])
    weight_n = CAR["mass"] * G
    rolling = CAR["rollingCoefficient"] * weight_n
    k = 0.5 * rho * CAR["dragArea"] / CAR["mass"]
    a = CAR["launchAcceleration"]

    def speed_at(v1, x):
        power = v1 * (a + k * v1 * v1)
        x1 = v1 * v1 / (2 * a)
        if x <= x1:
            return np.sqrt(2 * a * x)
        step = solve_ivp(lambda _, v: power / v**2 - k * v, (x1, x), [v1], rtol=1e-12, atol=1e-12, method="DOP853")
        return step.y[0, -1]

    shift = brentq(lambda v1: speed_at(v1, DISTANCE) - CAR["trapSpeed"], 10, CAR["trapSpeed"] - 1, xtol=1e-12)
    power = shift * (a + k * shift**2)
    middle = speed_at(shift, DISTANCE / 2)
    launch = np.sqrt(2 * a * 3.0)
    thrust_of = lambda acceleration, v: CAR["mass"] * acceleration + 0.5 * rho * v * v * CAR["dragArea"] + rolling
    launch_thrust = thrust_of(a, launch)

    def forces(v, thrust, chute=0.0):
        drag, down = 0.5 * rho * v * v * CAR["dragArea"], 0.5 * rho * v * v * CAR["downforceArea"]
        moved = thrust * CAR["cgHeight"] + drag * (CAR["dragHeight"] - CAR["cgHeight"])
        moved = (moved + chute * (CAR["chuteHeight"] - CAR["cgHeight"])) / CAR["wheelbase"]
        moved = min(moved, weight_n * (1 - CAR["rearShare"]))
        load = max(0.0, (weight_n * CAR["rearShare"] + down + moved) / 2)
        spring = (down + moved - CAR["antiSquat"] * thrust * CAR["cgHeight"] / CAR["wheelbase"]) / 2
        return load, spring

    middle_thrust = thrust_of(power / middle - k * middle**2, middle)
    finish_thrust = thrust_of(CAR["finishAcceleration"], CAR["trapSpeed"])
    chute = CAR["mass"] * CAR["chuteDeceleration"]
    over = lambda before, after, o: after + (o - 1) * (after - before)
    trap = CAR["trapSpeed"]
    burn = CAR["burnoutThrust"] * weight_n * CAR["rearShare"]
    rows = {
        "burnout": (0.0, CAR["burnoutSpeed"], burn, weight_n * CAR["rearShare"] / 2, 0.0),
        "launch": (launch, launch * (1 + CAR["slipAtLaunch"]), launch_thrust, *forces(launch, launch_thrust)),
    }
    shift_thrust = thrust_of(a, shift)
    load, spring = forces(shift, shift_thrust)
    rows["gear change"] = (shift, shift * (1 + CAR["slipUnderway"]), shift_thrust, load,
                           over(forces(shift, 0.0)[1], spring, CAR["gearOvershoot"]))
    rows["middle"] = (middle, middle * (1 + CAR["slipUnderway"]), middle_thrust, *forces(middle, middle_thrust))
    rows["grip lost"] = (middle, middle * (1 + CAR["slipGripLost"]), middle_thrust, *forces(middle, middle_thrust))
    rows["finish"] = (trap, trap * (1 + CAR["slipAtFinish"]), finish_thrust, *forces(trap, finish_thrust))
    load, lift = forces(trap, 0.0)
    rows["after the lift"] = (trap, trap, 0.0, load, over(rows["finish"][4], lift, CAR["liftOvershoot"]))
    load, spring = forces(trap, 0.0, chute)
    rows["parachute"] = (trap, trap, 0.0, load, over(lift, spring, CAR["liftOvershoot"]))

    answers = {}
    for name in MOMENTS:
        v, tread, thrust, load, spring = rows[name]
        share = thrust / launch_thrust
        spring += 0.5 * CAR["addedMass"] * G + CAR["wheelRate"] * CAR["torqueRoll"] * share
        p = tyre["coldPressure"]
        if name != "burnout":
            warm = 1 + tyre["airHeating"] / CAR["airTemperature"]
            p = (p + CAR["stationPressure"]) * warm / tyre["volumeRatio"] - CAR["stationPressure"]
        free = tyre["referenceRadius"] + tyre["radiusPerPressure"] * (p - reference)
        if kind == "bias":
            mu = 0.57 * tyre["mass"] / (2 * np.pi * free)
            flat = 0.77 * np.sqrt((p + tyre["growthCarcassPressure"]) * tyre["sectionWidth"] * free / mu)
            flat *= tyre["growthSpeedFactor"]
            growth = tyre["growthScale"] * tyre["referenceRadius"] * np.log1p((tread / flat) ** 2)
        else:
            q = tyre["growthScale"] * (32 * 6894.757293168361 + tyre["growthCarcassPressure"])
            growth = q / (p + tyre["growthCarcassPressure"]) * free * (tread / 50) ** 2
        R = free + growth
        alpha = patch(load, p, tyre, R)
        f = weight(N * alpha) / harmonics(R, p, tyre, kw_middle * tyre["stiffnessFactor"])
        drop = body_drop(spring, tyre["rideHeightChange"]) + (0 if name == "burnout" else CAR["bump"])
        forward = CAR["axlePathSlope"] * drop + CAR["bushingGive"] * share

        def radius(theta):
            phi = theta - np.pi
            w = -np.sum(f * (load * np.cos(N * phi) + thrust / 2 / N * np.sin(N * phi)))
            away = min(abs(theta - tyre["lobeAngle"]) / np.radians(40), 1)
            return R + tyre["runOut"] + w + tyre["lobeHeight"] / 2 * (1 + np.cos(np.pi * away))

        x_c = TUB["centreForward"] + CAR["centreError"]

        def needed(theta, reserve):
            r = radius(theta)
            side = r * np.sin(theta) - x_c + forward
            T = TUB["radius"]
            return axle - CAR["topHeightError"] + drop + T + r * np.cos(theta) - np.sqrt((T - reserve) ** 2 - side**2)

        def clearance(theta):
            r = radius(theta)
            up = TOP + CAR["topHeightError"] - axle - TUB["radius"] - drop
            return TUB["radius"] - np.hypot(r * np.sin(theta) - x_c + forward, r * np.cos(theta) - up)

        def least(function):
            grid = np.radians(np.arange(-75, 75.1, 0.5))
            best = grid[np.argmin([function(t) for t in grid])]
            found = minimize_scalar(function, bounds=(best - 0.01, best + 0.01), method="bounded",
                                    options={"xatol": 1e-9})
            return found.fun, found.x

        height, angle = least(lambda t: -needed(t, RESERVE))
        contact, _ = least(lambda t: -needed(t, 0.0))
        gap, tight = least(clearance)
        # Beside the tyre the wall is a leg's; where that is nearer the figures here do not apply.
        sides = [t for t in np.radians(np.arange(75, 120, 1.0)) for t in (t, -t)]
        if min(TUB["radius"] - abs(radius(t) * np.sin(t) - x_c + forward) for t in sides) < gap or abs(tight) > 1.3:
            gap = tight = None
        answers[name] = dict(
            airDensity=rho, carSpeed=v, treadSpeed=tread, tyreThrust=thrust / 2, tyreLoad=load, springForce=spring,
            pressure=p, freeRadius=free, growth=growth, halfPatch=alpha, drop=drop, forward=forward,
            requiredHeight=-height, requiredAngle=angle, contactHeight=-contact, gap=gap, tightAngle=tight,
        )
    return answers


kw = {"bias": sidewall("bias", SLICK), "radial": sidewall("radial", RADIAL)}
build_load = 0.5 * (CAR["mass"] * CAR["rearShare"] - CAR["addedMass"]) * G
build_radius = SLICK["referenceRadius"] + SLICK["radiusPerPressure"] * (BUILD_PRESSURE - MEASURED["bias"][0])
axle_height = build_radius - axle_drop(build_load, BUILD_PRESSURE, SLICK, build_radius, kw["bias"] * SLICK["stiffnessFactor"])
result = dict(
    car={name: float(value) for name, value in CAR.items()},
    tub=TUB, reserve=RESERVE, topHeight=TOP, distance=DISTANCE, buildPressure=BUILD_PRESSURE,
    buildLoad=build_load, staticLoadedRadius=axle_height,
    tyres=[
        dict(construction=kind, values=tyre, measured=MEASURED[kind], radialStiffness=kw[kind],
             moments=run(kind, tyre, kw[kind], axle_height, MEASURED[kind][0]))
        for kind, tyre in (("bias", SLICK), ("radial", RADIAL))
    ],
)
with open("one-run.json", "w") as out:
    json.dump(result, out, indent=1, default=float)
    out.write("\n")
