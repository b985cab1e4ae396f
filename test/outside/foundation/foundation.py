"""Beam and ring on a Winkler foundation in 30-digit arithmetic (mpmath 1.3). Run: python3 foundation.py

Ring: S(theta) = sum over all whole n of cos(n theta)/((n^2-1)^2 + K) in closed form, K = k R^4/EI, q = sqrt(1 + i sqrt(K)):
S = Im[-pi cos(q (pi - theta))/(q sin(pi q))]/sqrt(K). An inextensible ring has no n = 0 term: w = F R^3/(2 pi EI) (S - 1/(1+K)).
"""
from mpmath import mp, mpf, mpc, pi, sqrt, cos, sin, exp, radians

mp.dps = 30
EI, k, F = mpf("2e11") * mpf("0.1") ** 4 / 12, mpf("1e7"), mpf("1e5")
lam = (k / (4 * EI)) ** mpf("0.25")
print("straight beam, lambda", mp.nstr(lam, 12))
for x in (0, mpf("0.5"), 1, 2):
    print(x, mp.nstr(F * lam / (2 * k) * exp(-lam * x) * (cos(lam * x) + sin(lam * x)), 12))
for name, EI, R, k, F, angles in (
    ("R1", mpf(2), mpf("0.3"), mpf("6e5"), mpf(1000), (0, 15, 30, 90, 180)),
    ("R2", mpf(50), mpf("0.4381"), mpf("2e5"), mpf(5000), (0, 30, 90, 180)),
):
    K = k * R**4 / EI
    q = sqrt(mpc(1, sqrt(K)))
    print(name, "K", mp.nstr(K, 12), "n = 1", mp.nstr(F / (pi * R * k), 12))
    for degrees in angles:
        theta = radians(mpf(degrees))
        S = (-pi * cos(q * (pi - theta)) / (q * sin(q * pi))).imag / sqrt(K)
        print(degrees, mp.nstr(F * R**3 / (2 * pi * EI) * (S - 1 / (1 + K)), 15))
