"""Air tables in 30-digit arithmetic (mpmath 1.3), from the published constants. Run: python3 air.py"""
from mpmath import mp, mpf, exp

mp.dps = 30
g0, L, T0, p0 = mpf("9.80665"), mpf("0.0065"), mpf("288.15"), mpf(101325)
R = mpf("8314.32") / mpf("28.9644")
exponent = g0 / (R * L)
earth = mpf(6356766)


def standard(h):
    T = T0 - L * h
    p = p0 * (T / T0) ** exponent
    return T, p, p / (R * T)


def cipm(t, p, humidity):
    """CIPM-2007 with 400 ppm of carbon dioxide: density from the rounded factors of the paper."""
    t, p, humidity = mpf(t), mpf(p), mpf(humidity)
    T = t + mpf("273.15")
    saturation = exp(mpf("1.2378847e-5") * T**2 - mpf("1.9121316e-2") * T + mpf("33.93711047") - mpf("6.3431645e3") / T)
    enhancement = mpf("1.00062") + mpf("3.14e-8") * p + mpf("5.6e-7") * t**2
    x = humidity * enhancement * saturation / p
    Z = (1 - p / T * (mpf("1.58123e-6") - mpf("2.9331e-8") * t + mpf("1.1043e-10") * t**2
                      + (mpf("5.707e-6") - mpf("2.051e-8") * t) * x
                      + (mpf("1.9898e-4") - mpf("2.376e-6") * t) * x**2)
         + (p / T) ** 2 * (mpf("1.83e-11") - mpf("0.765e-8") * x**2))
    return saturation, x, Z, mpf("3.483740e-3") * p / (Z * T) * (1 - mpf("0.3780") * x)


def two_gases(t, p, humidity):
    """Ideal gases of 287.05 and 461.495 J/(kg K); saturation after Magnus."""
    t, p = mpf(t), mpf(p)
    vapour = mpf(humidity) * mpf("611.2") * exp(mpf("17.62") * t / (mpf("243.12") + t))
    T = t + mpf("273.15")
    return (p - vapour) / (mpf("287.05") * T) + vapour / (mpf("461.495") * T)


def density_altitude(rho):
    return T0 / L * (1 - (rho / (p0 / (R * T0))) ** (1 / (exponent - 1)))


def show(*row):
    print(", ".join(mp.nstr(value, 12) if isinstance(value, mp.mpf) else str(value) for value in row))


print("standard atmosphere: geopotential m, K, Pa, kg/m3")
for h in (0, 500, 1000, 2000):
    show(h, *standard(mpf(h)))
print("geometric m, geopotential m, K, Pa, kg/m3")
for z in (1000, 2000):
    h = earth * z / (earth + z)
    show(z, h, *standard(h))
print("moist air: degC, Pa, humidity, saturation Pa, vapour fraction, Z, kg/m3, two ideal gases kg/m3")
for t, p, h in (("20", "101325", "0.5"), ("20", "100000", "0.5"), ("35", "98000", "0.6"), ("15", "101325", "0"), ("0", "101325", "0")):
    show(t, p, h, *cipm(t, p, h), two_gases(t, p, h))
print("density altitude: Pa, degC, kg/m3, m, ft (dry air by the standard's gas constant)")
for p, t in ((mpf(101325), "35"), (standard(mpf(1000))[1], "30"), (standard(mpf("1524"))[1], "30")):
    rho = p / (R * (mpf(t) + mpf("273.15")))
    show(p, t, rho, density_altitude(rho), density_altitude(rho) / mpf("0.3048"))
print("hot pressure: cold, degC, degC, hot (psi or kPa gauge, 1 atm outside)")
psi = mpf("6894.757293168361")
for cold, low, high, unit in (("6", 20, 60, psi), ("4.5", 15, 40, psi), ("20", 20, 80, psi), ("220", 20, 50, mpf(1000))):
    hot = (mpf(cold) * unit + p0) * (high + mpf("273.15")) / (low + mpf("273.15")) - p0
    show(cold, low, high, hot / unit)
