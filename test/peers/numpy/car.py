"""Speeds and forces of the moments of a run, all runs at once."""

import numpy as np

GRAVITY = 9.80665
MOMENTS = ("burnout", "launch", "gear change", "middle", "grip lost", "finish", "after the lift", "parachute")


def air_density(kelvin, pressure, humidity):
    """Moist air, kg/m3. CIPM-2007 (Picard et al., Metrologia 45 (2008) 149), 400 ppm of carbon dioxide."""
    t = kelvin - 273.15
    saturation = np.exp(1.2378847e-5 * kelvin**2 - 1.9121316e-2 * kelvin + 33.93711047 - 6.3431645e3 / kelvin)
    x = humidity * (1.00062 + 3.14e-8 * pressure + 5.6e-7 * t**2) * saturation / pressure
    a = 1.58123e-6 - 2.9331e-8 * t + 1.1043e-10 * t**2
    z = (
        1
        - pressure / kelvin * (a + (5.707e-6 - 2.051e-8 * t) * x + (1.9898e-4 - 2.376e-6 * t) * x**2)
        + (pressure / kelvin) ** 2 * (1.83e-11 - 0.765e-8 * x**2)
    )
    return pressure * 28.96546e-3 / (z * 8.314472 * kelvin) * (1 - 0.378 * x)


def shift_speed(a, trap, distance, k):
    """Speed up to which acceleration a lasts, when constant power against k v^2 follows and ends at `trap`.

    v_end^3 = v^3 + (a v/k)(1 - E) with E = exp(-3k(distance - v^2/2a)) rises with v: halving finds it to the last bit.
    """
    low, high = np.zeros_like(trap), trap.copy()
    for _ in range(60):
        v = 0.5 * (low + high)
        below = v**3 - a * v / k * np.expm1(-3 * k * (distance - v**2 / (2 * a))) < trap**3
        low, high = np.where(below, v, low), np.where(below, high, v)
    return 0.5 * (low + high)


def moments(car, setup):
    """A dict a moment, by name: tread speed, thrust and load of one tyre, spring force, thrust share, happens, moving."""
    mass, trap, distance = car["mass"], car["trapSpeed"], setup["distance"]
    weight = mass * GRAVITY
    rear = weight * car["rearShare"]
    h, base = car["cgHeight"], car["wheelbase"]
    density = air_density(car["airTemperature"], car["stationPressure"], car["humidity"])
    drag_per_square = 0.5 * density * car["dragArea"]
    k = drag_per_square / mass

    gentle = trap**2 >= 2 * car["launchAcceleration"] * distance
    a = np.where(gentle, trap**2 / (2 * distance), car["launchAcceleration"])
    v1 = np.where(gentle, trap, shift_speed(a, trap, distance, k))
    x1 = v1**2 / (2 * a)
    power = v1 * (a + k * v1**2)

    def thrust(acceleration, v):
        return mass * acceleration + drag_per_square * v**2 + car["rollingCoefficient"] * weight

    half = distance / 2
    later = np.cbrt(v1**3 - a * v1 / k * np.expm1(-3 * k * np.maximum(0, half - x1)))
    middle = np.where(half <= x1, np.sqrt(2 * a * half), later)
    middle_acceleration = np.where(half <= x1, a, power / middle - k * middle**2)
    finish_acceleration = car["finishAcceleration"]
    if setup["finishAccelerationIs"] == "relative":
        finish_acceleration = finish_acceleration * (power / trap - k * trap**2)
    start = np.sqrt(2 * a * 3.0)
    launch_thrust = thrust(a, start)
    burnout_thrust = car["burnoutThrust"] * rear
    always = np.ones(len(mass), dtype=bool)

    def moment(v, slip, force, pull=0.0):
        down, drag = 0.5 * density * v**2 * car["downforceArea"], drag_per_square * v**2
        transfer = (force * h + drag * (car["dragHeight"] - h) + pull * (car["chuteHeight"] - h)) / base
        transfer = np.minimum(transfer, weight - rear)
        return {
            "tread": v * (1 + slip),
            "thrust": force / 2,
            "load": np.maximum(0, (rear + down + transfer) / 2),
            "spring": (down + transfer - car["antiSquat"] * force * h / base) / 2,
            "share": force / launch_thrust,
            "happens": always,
            "moving": True,
        }

    none = np.zeros_like(mass)
    after = {
        "launch": moment(start, car["slipAtLaunch"], launch_thrust),
        "gear change": moment(v1, car["slipUnderway"], thrust(a, v1)),
        "middle": moment(middle, car["slipUnderway"], thrust(middle_acceleration, middle)),
        "grip lost": moment(middle, car["slipGripLost"], thrust(middle_acceleration, middle)),
        "finish": moment(trap, car["slipAtFinish"], np.maximum(0, thrust(finish_acceleration, trap))),
        "after the lift": moment(trap, none, none),
        "parachute": moment(trap, none, none, mass * car["chuteDeceleration"]),
    }
    after["grip lost"]["happens"] = car["gripLostToss"] < setup["gripLostChance"]
    finish, lift = after["finish"]["spring"], after["after the lift"]["spring"]
    cut = moment(v1, none, none)["spring"]
    for name, before, overshoot in (
        ("parachute", lift, "liftOvershoot"),
        ("after the lift", finish, "liftOvershoot"),
        ("gear change", cut, "gearOvershoot"),
    ):
        after[name]["spring"] = after[name]["spring"] + (car[overshoot] - 1) * (after[name]["spring"] - before)
    # The car stands on its front brakes: no load moves.
    after["burnout"] = {
        "tread": car["burnoutSpeed"],
        "thrust": burnout_thrust / 2,
        "load": rear / 2,
        "spring": none,
        "share": burnout_thrust / launch_thrust,
        "happens": always,
        "moving": False,
    }
    for each in after.values():
        each["spring"] = (
            each["spring"] + car["addedMass"] * GRAVITY / 2 + car["wheelRate"] * car["torqueRoll"] * each["share"]
        )
    return after


def body_drop(car, ride_change, moment):
    """Suspension compression from rest, m, bump allowance included."""
    k, travel = car["wheelRate"], car["bumpTravel"] + ride_change
    free = moment["spring"] / k
    stopped = travel + (moment["spring"] - k * travel) / (k + car["stopRate"])
    u = np.maximum(np.where(free > travel, stopped, free), ride_change - car["droopTravel"])
    return u - ride_change + (car["bump"] if moment["moving"] else 0)
