"""The tyre's air, its growth and its outline, all runs at once."""

import numpy as np
from car import GRAVITY

LOBE_WIDTH = np.radians(40)
TENSIONED = 0.8


def patch_half_angle(load, pressure, tyre, radius):
    return np.minimum(0.6, load / (2 * (pressure + tyre["patchCarcassPressure"]) * tyre["treadWidth"] * radius))


def patch_weight(x):
    """3(sin x - x cos x)/x^3 of a real or complex argument."""
    small = np.abs(x) < 0.1
    safe = np.where(small, 1, x)
    y = x * x
    series = 1 - y / 10 + y * y / 280 - y * y * y / 15120
    return np.where(small, series, 3 * (np.sin(safe) - safe * np.cos(safe)) / safe**3)


def band_drop(load, patch, radius, radial, tangential, tension, harmonics):
    """Free radius less loaded radius of a standing tyre, m: load times the sum of f_n^2/K_n, and R patch^2/10."""
    total = np.zeros(np.broadcast(load, patch, radial).shape)
    for n in range(harmonics, 0, -1):
        stiffness = np.pi * radius * (tension * (n * n - 1) + radial + tangential / n**2)
        total = total + patch_weight(n * patch) ** 2 / stiffness
    return load * total + radius * patch**2 / 10


def free_radius(tyre, pressure, reference):
    return tyre["referenceRadius"] + tyre["radiusPerPressure"] * (pressure - reference)


def static_loaded_radius(car, tyre, build, harmonics=96):
    """Axle height over the track, m; `build` is build pressure, reference pressure and radial stiffness."""
    pressure, reference, stiffness = build
    load = 0.5 * (car["mass"] * car["rearShare"] - car["addedMass"]) * GRAVITY
    radius = free_radius(tyre, pressure, reference)
    radial = stiffness * tyre["stiffnessFactor"]
    tension = pressure * TENSIONED * tyre["sectionWidth"] / radius
    patch = patch_half_angle(load, pressure, tyre, radius)
    return radius - band_drop(load, patch, radius, radial, radial * tyre["tangentialRatio"], tension, harmonics)


class Inflated:
    """Air and carcass before the car moves: [cold, hot]."""

    def __init__(self, car, tyre, setup):
        reference, stiffness = setup["tyre"]
        station, kelvin = car["stationPressure"], car["airTemperature"]
        cold = tyre["coldPressure"]
        hot = (cold + station) * (kelvin + tyre["airHeating"]) / (kelvin * tyre["volumeRatio"]) - station
        self.pressure = cold, hot
        self.radius = tuple(free_radius(tyre, p, reference) for p in self.pressure)
        self.radial = stiffness * tyre["stiffnessFactor"]
        self.tangential = self.radial * tyre["tangentialRatio"]
        self.bias = setup["construction"] == "bias"
        self.factor = setup["growthFactor"]
        self.tyre = tyre

    def growth(self, hot, speed):
        p = self.pressure[hot] + self.tyre["growthCarcassPressure"]
        radius = self.radius[hot]
        if self.bias:
            per_length = 0.57 * self.tyre["mass"] / (2 * np.pi * radius)
            flattening = 0.77 * np.sqrt(p * self.tyre["sectionWidth"] * radius / per_length)
            flattening = flattening * self.tyre["growthSpeedFactor"]
            scale = self.tyre["growthScale"] * self.tyre["referenceRadius"]
            return self.factor * scale * np.log1p((speed / flattening) ** 2)
        reference = 32 * 6894.757293168361 + self.tyre["growthCarcassPressure"]
        return self.factor * self.tyre["growthScale"] * reference / p * radius * (speed / 50) ** 2


class Outline:
    """Outer edge r = base + band + lobe of many runs at one moment.

    With tau n^4 + (kw - tau) n^2 + kv = tau (n^2 + B1^2)(n^2 + B2^2) the band stands out by
    w = -1/(2 R tau) [S(B1) - S(B2)]/(B1^2 - B2^2), S(B) = phi(B patch)(load B cosh Bt + thrust sinh Bt)/sinh(pi B):
    two exponentials up and two down, of real roots, or of a pair B, B* of which the imaginary part is taken once.
    """

    def __init__(self, inflated, moment, rows):
        tyre = {name: column[rows] for name, column in inflated.tyre.items()}
        hot = int(moment["moving"])
        pressure = inflated.pressure[hot][rows]
        grown = inflated.radius[hot][rows] + inflated.growth(hot, moment["tread"])[rows]
        load, thrust = moment["load"][rows], moment["thrust"][rows]
        tension = pressure * TENSIONED * tyre["sectionWidth"] / grown
        patch = patch_half_angle(load, pressure, tyre, grown)
        self.base = grown + tyre["runOut"]
        self.lobe_height, self.lobe_angle = tyre["lobeHeight"], tyre["lobeAngle"]

        half = (inflated.radial[rows] - tension) / (2 * tension)
        product = inflated.tangential[rows] / tension
        spread = np.sqrt(half**2 - product + 0j)
        spread = np.where(np.abs(spread) < 1e-5 * half, 1e-5 * half, spread)
        roots = np.sqrt(half + spread), np.sqrt(half - spread)
        unit = -1 / (2 * grown * tension) / (2 * spread)
        self.terms = []
        for root, way in zip(roots, (1, -1)):
            decay = np.exp(-np.pi * root)
            weight = way * unit * patch_weight(1j * root * patch) * decay / (1 - decay**2)
            self.terms.append((root, weight * (root * load + thrust), weight * (root * load - thrust)))
        self.real = half**2 >= product

    def take(self, rows):
        """The outline of some of its runs, each as often as it is named."""
        part = object.__new__(Outline)
        part.base, part.lobe_height, part.lobe_angle = self.base[rows], self.lobe_height[rows], self.lobe_angle[rows]
        part.terms = [tuple(value[rows] for value in term) for term in self.terms]
        part.real = self.real[rows]
        return part

    def _lobe(self, angle):
        away = angle - self.lobe_angle
        rate = np.pi / LOBE_WIDTH
        half = 0.5 * self.lobe_height * (np.abs(away) < LOBE_WIDTH)
        cosine = np.cos(rate * away)
        return half * (1 + cosine), -half * rate * np.sin(rate * away), -half * rate**2 * cosine

    def table(self, angles):
        """Radii at the same angles for every run, m: one row a run. `angles` evenly spaced about 0."""
        band = np.empty((len(self.base), len(angles)))
        for rows, kind in ((np.flatnonzero(self.real), np.real), (np.flatnonzero(~self.real), lambda x: x)):
            if len(rows) == 0:
                continue
            # Of a pair of roots the second term is the conjugate of the first.
            terms, times = (self.terms, 1) if kind is np.real else (self.terms[:1], 2)
            total = 0
            for root, up, down in terms:
                growing = np.exp(kind(root[rows])[:, None] * angles)
                total = total + kind(up[rows])[:, None] * growing + kind(down[rows])[:, None] * growing[:, ::-1]
            band[rows] = times * np.real(total)
        away = angles - self.lobe_angle[:, None]
        lobe = 0.5 * (1 + np.cos(np.pi / LOBE_WIDTH * np.clip(away, -LOBE_WIDTH, LOBE_WIDTH)))
        return self.base[:, None] + band + self.lobe_height[:, None] * lobe

    def at(self, angle):
        """Radius and its two derivatives by the angle, one angle a run."""
        lobe, slope, bend = self._lobe(angle)
        radius = self.base + lobe
        for root, up, down in self.terms:
            growing = np.exp(root * angle)
            rising, falling = up * growing, down / growing
            radius = radius + np.real(rising + falling)
            slope = slope + np.real(root * (rising - falling))
            bend = bend + np.real(root**2 * (rising + falling))
        return radius, slope, bend
