"""Straight-line car in 30-digit arithmetic (mpmath 1.3). Run: python3 straight-line.py

The last block integrates the point mass step by step (Taylor series of mpmath.odefun), with no use of a closed form.
"""
from mpmath import mp, mpf, sqrt, cbrt, odefun

mp.dps = 30
s = mpf("402.336")
mph = mpf("0.44704")
print("constant power 200 W/kg, no losses, m/s", mp.nstr(cbrt(3 * 200 * s), 12))
print("mph over (hp/lb)^(1/3)", mp.nstr(cbrt(3 * s * mpf("745.6998715822702") / mpf("0.45359237")) / mph, 12))
print("20 m/s2 over the quarter mile, m/s", mp.nstr(sqrt(2 * 20 * s), 12))
g = mpf("9.80665")
print("transfer", mp.nstr(1200 * g * mpf("0.5") / mpf("2.5"), 12), mp.nstr(1100 * 2 * g * mpf("0.45") / mpf("2.65"), 12))
print("front wheels lift at a/g", mp.nstr(mpf("0.5") * mpf("2.65") / mpf("0.45"), 12))
print("dynamic pressure, Pa", mp.nstr(mpf("1.225") / 2 * 50**2, 12), mp.nstr(mpf("1.225") / 2 * (260 * mph) ** 2, 14))
print("downforce of 1 m2 at 260 mph, lbf", mp.nstr(mpf("1.225") / 2 * (260 * mph) ** 2 / mpf("4.4482216152605"), 12))

mp.dps = 18
print("launch m/s2, drag per mass 1/m, shift speed m/s, then speed at 201.168 and 402.336 m by integration")
for a, k, v1 in ((22, mpf("2.6e-4"), 45), (30, mpf("3.1e-4"), 70), (15, mpf("5e-4"), 52)):
    power = v1 * (a + k * v1**2)
    x1 = mpf(v1) ** 2 / (2 * a)
    # v dv/dx = power/v - k v^2
    speed = odefun(lambda x, v: power / v**2 - k * v, x1, mpf(v1))
    print(a, mp.nstr(k, 4), v1, mp.nstr(speed(mpf("201.168")), 14), mp.nstr(speed(s), 14))
