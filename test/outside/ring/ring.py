"""Thin ring in 30-digit arithmetic (mpmath 1.3). Run: python3 ring.py"""
from mpmath import mp, mpf, pi, sqrt, nsum, inf

mp.dps = 30


def bending_frequency(n, R, EI, mass):
    return n * (n**2 - 1) / (2 * pi * R**2) * sqrt(EI / (mass * (n**2 + 1)))


d = mpf("0.1")
print("free circular ring, R 1 m, round bar 0.1 m", [mp.nstr(bending_frequency(n, mpf(1), mpf("2e11") * pi * d**4 / 64, 8000 * pi * d**2 / 4), 12) for n in (2, 3, 4, 5)])
t, b = mpf("0.048"), mpf("0.05")
print("ring of 0.048 by 0.05 m, R 0.369 m", [mp.nstr(bending_frequency(n, mpf("0.369"), mpf("1.85e11") * b * t**3 / 12, 7800 * b * t), 12) for n in (2, 3)])
EI = mpf("2e11") * mpf("0.01") ** 3 / 12
print("collapse load n = 2, 3, 4", [mp.nstr((n * n - 1) * EI, 12) for n in (2, 3, 4)])
print("pinched ring, loaded and other diameter over F R^3/EI", mp.nstr(pi / 4 - 2 / pi, 15), mp.nstr(2 / pi - mpf(1) / 2, 15))
print("the same as sums", mp.nstr(4 / pi * nsum(lambda k: 1 / (4 * k * k - 1) ** 2, [1, inf]), 15),
      mp.nstr(-4 / pi * nsum(lambda k: (-1) ** int(k) / (4 * k * k - 1) ** 2, [1, inf]), 15))
