#!/usr/bin/python3
"""One whole bath solved again, another way: all mass balances, the charge balance and the ionic strength at once as one
system of eight equations in logarithms, by SciPy's root without derivatives; ours takes out all but three by hand. The
constants are those of phreeqc-dat as include/lakebound/bath/equilibrium.hpp quotes them; what is checked is the solving and
the book-keeping.
Molar masses are held against the table of elements of python3-periodictable where it is installed.
usage: bath_check.py BATH_VALUES"""

import math
import subprocess
import sys
import time

try:
    import numpy as np
    from scipy.optimize import root
except ImportError:
    print("skipped: NumPy or SciPy is not installed")
    sys.exit(77)

K = {"al": [-5.0, -10.1, -16.9, -22.7], "also4": 3.5, "also42": 5.0, "hso4": 1.988, "naso4": 0.94, "kso4": 1.18,
     "co3": 10.329, "co2": 16.681, "henry": -1.468, "hydroxide": 10.8, "basic": 22.7}
L10 = math.log(10.0)
MASS = {"alum": 474.372, "soda": 105.988}
PRESSURE = {"air": 4.2e-4, "stirred": 0.03, "fizzing": 1.0, "closed": None}


def log_gamma(z, strength):
    r = math.sqrt(strength)
    return -0.509 * z * z * (r / (1 + r) - 0.3 * strength)


def species(u, solid):
    """Concentrations (mol/L) from the unknowns: pH, log10 activities of Al, SO4, CO2, free Na and K, ionic strength."""
    ph, al, so4, co2, na, ka, strength = u[0], u[1], u[2], u[3], u[4], u[5], max(u[6], 1e-12)
    g = [0.0] + [log_gamma(z, strength) for z in (1, 2, 3)]
    ten = lambda x: 10.0 ** min(x, 300.0)
    c = {("H", 1): ten(-ph - g[1]), ("OH", -1): ten(ph - 14 - g[1]), ("Na", 1): ten(na - g[1]), ("K", 1): ten(ka - g[1]),
         ("Al", 3): ten(al - g[3]), ("AlOH", 2): ten(al + K["al"][0] + ph - g[2]),
         ("Al(OH)2", 1): ten(al + K["al"][1] + 2 * ph - g[1]), ("Al(OH)3", 0): ten(al + K["al"][2] + 3 * ph),
         ("Al(OH)4", -1): ten(al + K["al"][3] + 4 * ph - g[1]), ("AlSO4", 1): ten(K["also4"] + al + so4 - g[1]),
         ("Al(SO4)2", -1): ten(K["also42"] + al + 2 * so4 - g[1]), ("SO4", -2): ten(so4 - g[2]),
         ("HSO4", -1): ten(K["hso4"] - ph + so4 - g[1]), ("NaSO4", -1): ten(K["naso4"] + na + so4 - g[1]),
         ("KSO4", -1): ten(K["kso4"] + ka + so4 - g[1]), ("CO2", 0): ten(co2),
         ("HCO3", -1): ten(co2 + K["co3"] - K["co2"] + ph - g[1]), ("CO3", -2): ten(co2 - K["co2"] + 2 * ph - g[2])}
    return c


def solve(soda, solid, gas, guess):
    litre = 1.4 + 0.01 * soda
    alum, carbonate = 50 / MASS["alum"] / litre, soda / MASS["soda"] / litre
    total = {"Al": alum, "K": alum, "SO4": 2 * alum, "Na": 2 * carbonate, "C": carbonate}

    def residual(u, with_solid, vented):
        c = species(u, solid)
        down = u[7] if with_solid else 0.0
        al = sum(v for (n, _), v in c.items() if n.startswith("Al")) + down
        so4 = sum(v * (2 if n == "Al(SO4)2" else 1) for (n, _), v in c.items() if "SO4" in n)
        so4 += 0.25 * down if solid == "basic" else 0.0
        carbon = c[("CO2", 0)] + c[("HCO3", -1)] + c[("CO3", -2)]
        saturation = (u[1] + 3 * u[0] - K["hydroxide"] if solid == "hydroxide"
                      else 4 * u[1] + u[2] + 10 * u[0] - K["basic"])
        out = [sum(z * v for (_, z), v in c.items()) / 0.01, al / total["Al"] - 1, so4 / total["SO4"] - 1,
               (u[3] - math.log10(PRESSURE[gas]) - K["henry"]) if vented else carbon / total["C"] - 1,
               (c[("Na", 1)] + c[("NaSO4", -1)]) / total["Na"] - 1, (c[("K", 1)] + c[("KSO4", -1)]) / total["K"] - 1,
               u[6] / (0.5 * sum(z * z * v for (_, z), v in c.items())) - 1]
        return out + [saturation if with_solid else u[7]]

    for vented in ([True] if gas == "air" else [False] if gas == "closed" else [True, False]):
        for with_solid in (True, False):
            pressed = math.log10(PRESSURE[gas]) + K["henry"] if PRESSURE[gas] else -1.8
            starts = [guess] + [np.array([p, K["hydroxide"] - 3 * p, -2.2, pressed, math.log10(2 * carbonate) - 0.15, -1.3,
                                          0.15, 0.95 * alum]) for p in (9.5, 8.0, 6.5, 4.8, 4.0)]
            for start in starts:
                found = root(residual, start, args=(with_solid, vented), method="hybr", tol=1e-13)
                size = max(abs(x) for x in residual(found.x, with_solid, vented))
                if size > 1e-8 or (with_solid and found.x[7] < -1e-12):
                    continue
                c = species(found.x, solid)
                held = c[("CO2", 0)] + c[("HCO3", -1)] + c[("CO3", -2)]
                if vented and gas != "air" and held > total["C"] * (1 + 1e-9):
                    continue  # it would take up gas: it holds all it was given instead
                if not vented and gas not in ("air", "closed") and c[("CO2", 0)] > 10 ** K["henry"] * PRESSURE[gas] * (1 + 1e-9):
                    continue
                if not with_solid:
                    s = (found.x[1] + 3 * found.x[0] - K["hydroxide"] if solid == "hydroxide"
                         else 4 * found.x[1] + found.x[2] + 10 * found.x[0] - K["basic"])
                    if s > 1e-9:
                        continue
                return found.x, found.x[7] / total["Al"], held * litre
    raise RuntimeError(f"no rest found for {soda} g, {solid}, {gas}")


def masses(rows):
    try:
        import periodictable
    except ImportError:
        print("molar masses: python3-periodictable is not installed, not held against it")
        return
    worst = 0.0
    for formula, ours in rows:
        parts = formula.split(".", 1)
        theirs = periodictable.formula(parts[0]).mass
        if len(parts) == 2:
            theirs += float(parts[1].removesuffix("H2O") or 1) * periodictable.formula("H2O").mass
        # Five-figure weights against full ones: sulphur and aluminium differ by 2 in 10 000 at most.
        worst = max(worst, abs(ours / theirs - 1))
    print(f"{len(rows)} molar masses within {worst:.1e} of python3-periodictable")
    if worst > 2e-4:
        sys.exit("a molar mass differs")


def main():
    lines = [line.split() for line in subprocess.run([sys.argv[1]], capture_output=True, text=True, check=True).stdout.splitlines()]
    masses([(row[1], float(row[2])) for row in lines if row[0] == "mass"])
    rows = [row for row in lines if row[0] == "bath"]
    if len(rows) != 56:
        sys.exit(f"56 baths wanted, got {len(rows)}")
    guess = np.array([4.8, -4.2, -2.2, -3.0, -1.5, -1.5, 0.15, 0.03])
    worst = 0.0
    for _, solid, gas, soda, ph, laid, strength, carbon in rows:
        x, share, held = solve(float(soda), solid, gas, guess)
        gaps = (abs(x[0] - float(ph)), abs(share - float(laid)), abs(x[6] / float(strength) - 1),
                abs(held / float(carbon) - 1))
        worst = max(worst, *gaps)
        # Both solve the same equations, each to its last figures.
        if max(gaps) > 1e-9:
            sys.exit(f"{solid} {gas} {soda} g: pH {ph} and {x[0]}, laid {laid} and {share}, I {strength} and {x[6]}, "
                     f"carbon {carbon} and {held}")
        guess = x
    print(f"56 baths agree within {worst:.1e}")
    curve = [(float(row[1]), float(row[2])) for row in lines if row[0] == "curve"]
    theirs, ours = math.inf, float(next(row[1] for row in lines if row[0] == "time"))
    for _ in range(3):  # best of three, each point from the one before
        begin, at = time.perf_counter(), np.array([4.8, -4.2, -2.2, -3.0, -1.5, -1.5, 0.15, 0.03])
        for soda, ph in curve[1:]:
            at, _, _ = solve(soda, "hydroxide", "stirred", at)
            if ph > 0 and abs(at[0] - ph) > 1e-9:
                sys.exit(f"curve at {soda} g: pH {ph} and {at[0]}")
        theirs = min(theirs, time.perf_counter() - begin)
    print(f"a curve of {len(curve)} points: ours {ours * 1e3:.1f} ms, SciPy {theirs * 1e3:.0f} ms, {theirs / ours:.0f} times")


main()
