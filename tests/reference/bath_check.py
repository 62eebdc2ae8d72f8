#!/usr/bin/python3
"""One whole bath solved again, another way: all mass balances, the charge balance and the ionic strength at once as one
system of nine equations in logarithms, by SciPy's root without derivatives; ours takes out all but three by hand. The
constants are those of phreeqc-dat as include/lakebound/bath/equilibrium.hpp quotes them; what is checked is the solving and
the book-keeping. Baths of every ion, thin and strong, stand as solved here in tests/bath/whole_baths.inc, where the tests
of the room read them; here that file is held against SciPy anew.
Molar masses are held against the table of elements of python3-periodictable where it is installed.
usage: bath_check.py BATH_VALUES   or   bath_check.py --cases > tests/bath/whole_baths.inc"""

import math
import pathlib
import re
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
     "nh4": -9.252, "co3": 10.329, "co2": 16.681, "henry": -1.468, "hydroxide": 10.8, "basic": 22.7}
L10 = math.log(10.0)
MASS = {"alum": 474.372, "soda": 105.988}
PRESSURE = {"air": 4.2e-4, "stirred": 0.03, "fizzing": 1.0, "closed": None}


def log_gamma(z, strength):
    r = math.sqrt(strength)
    return -0.509 * z * z * (r / (1 + r) - 0.3 * strength)


def species(u, total):
    """Concentrations (mol/L) from the unknowns: pH, log10 activities of Al, SO4, CO2, free Na, K, NH4, ionic strength."""
    ph, al, so4, co2, na, ka, nh, strength = *u[:7], max(u[7], 1e-12)
    g = [0.0] + [log_gamma(z, strength) for z in (1, 2, 3)]
    ten = lambda x: 10.0 ** min(x, 300.0)
    c = {("H", 1): ten(-ph - g[1]), ("OH", -1): ten(ph - 14 - g[1]), ("Na", 1): ten(na - g[1]), ("K", 1): ten(ka - g[1]),
         ("NH4", 1): ten(nh - g[1]), ("NH3", 0): ten(nh + K["nh4"] + ph), ("Cl", -1): total["Cl"],
         ("Al", 3): ten(al - g[3]), ("AlOH", 2): ten(al + K["al"][0] + ph - g[2]),
         ("Al(OH)2", 1): ten(al + K["al"][1] + 2 * ph - g[1]), ("Al(OH)3", 0): ten(al + K["al"][2] + 3 * ph),
         ("Al(OH)4", -1): ten(al + K["al"][3] + 4 * ph - g[1]), ("AlSO4", 1): ten(K["also4"] + al + so4 - g[1]),
         ("Al(SO4)2", -1): ten(K["also42"] + al + 2 * so4 - g[1]), ("SO4", -2): ten(so4 - g[2]),
         ("HSO4", -1): ten(K["hso4"] - ph + so4 - g[1]), ("NaSO4", -1): ten(K["naso4"] + na + so4 - g[1]),
         ("KSO4", -1): ten(K["kso4"] + ka + so4 - g[1]), ("CO2", 0): ten(co2),
         ("HCO3", -1): ten(co2 + K["co3"] - K["co2"] + ph - g[1]), ("CO3", -2): ten(co2 - K["co2"] + 2 * ph - g[2])}
    return c


ABSENT = 1e-15  # mol/L in place of nothing: every unknown keeps its logarithm


def rest(given, solid, gas, guesses=()):
    """Rest of a bath of these totals (mol/L): the unknowns, the share of aluminium laid down, the carbon held (mol/L)."""
    total = {name: given.get(name, 0.0) or ABSENT for name in ("Al", "SO4", "Na", "K", "NH4", "C")}
    total["Cl"] = given.get("Cl", 0.0)
    scale = sum(total.values())

    def residual(u, with_solid, vented):
        c = species(u, total)
        down = u[8] * total["Al"] if with_solid else 0.0
        al = sum(v for (n, _), v in c.items() if n.startswith("Al")) + down
        so4 = sum(v * (2 if n == "Al(SO4)2" else 1) for (n, _), v in c.items() if "SO4" in n)
        so4 += 0.25 * down if solid == "basic" else 0.0
        carbon = c[("CO2", 0)] + c[("HCO3", -1)] + c[("CO3", -2)]
        saturation = (u[1] + 3 * u[0] - K["hydroxide"] if solid == "hydroxide"
                      else 4 * u[1] + u[2] + 10 * u[0] - K["basic"])
        out = [sum(z * v for (_, z), v in c.items()) / scale, al / total["Al"] - 1, so4 / total["SO4"] - 1,
               (u[3] - math.log10(PRESSURE[gas]) - K["henry"]) if vented else carbon / total["C"] - 1,
               (c[("Na", 1)] + c[("NaSO4", -1)]) / total["Na"] - 1, (c[("K", 1)] + c[("KSO4", -1)]) / total["K"] - 1,
               (c[("NH4", 1)] + c[("NH3", 0)]) / total["NH4"] - 1,
               u[7] / (0.5 * sum(z * z * v for (_, z), v in c.items())) - 1]
        return out + [saturation if with_solid else u[8]]

    log = {name: math.log10(value) for name, value in total.items() if value > 0}
    strength = 0.5 * (total["Na"] + total["K"] + total["NH4"] + total["Cl"] + total["Al"]) + total["SO4"] + 1e-6
    for vented in ([True] if gas == "air" else [False] if gas == "closed" else [True, False]):
        for with_solid in ((True, False) if given.get("Al", 0.0) > 0 else (False,)):
            pressed = math.log10(PRESSURE[gas]) + K["henry"] if PRESSURE[gas] else log["C"] - 1.0
            starts = list(guesses) + [np.array([p, (K["hydroxide"] - 3 * p) if with_solid else log["Al"] - 1.0, log["SO4"] - 0.6,
                                                pressed, log["Na"] - 0.15, log["K"] - 0.15, log["NH4"] - 0.15, strength, 0.95])
                                      for p in (9.5, 8.0, 7.0, 6.5, 5.5, 4.8, 4.0, 3.3, 10.5, 11.5)]
            for start in starts:
                found = root(residual, start, args=(with_solid, vented), method="hybr", tol=1e-14)
                size = max(abs(x) for x in residual(found.x, with_solid, vented))
                if size > 1e-9 or (with_solid and found.x[8] < -1e-12):
                    continue
                c = species(found.x, total)
                held = c[("CO2", 0)] + c[("HCO3", -1)] + c[("CO3", -2)]
                if vented and gas != "air" and held > total["C"] * (1 + 1e-9):
                    continue  # it would take up gas: it holds all it was given instead
                if not vented and gas not in ("air", "closed") and c[("CO2", 0)] > 10 ** K["henry"] * PRESSURE[gas] * (1 + 1e-9):
                    continue
                if not with_solid and given.get("Al", 0.0) > 0 and (solid == "hydroxide" or given.get("SO4", 0.0) > 0):
                    s = (found.x[1] + 3 * found.x[0] - K["hydroxide"] if solid == "hydroxide"
                         else 4 * found.x[1] + found.x[2] + 10 * found.x[0] - K["basic"])
                    if s > 1e-9:
                        continue
                return found.x, found.x[8] if with_solid else 0.0, held
    raise RuntimeError(f"no rest found for {given}, {solid}, {gas}")


def solve(soda, solid, gas, guess):
    """Of 50 g of potash alum and this much soda, in g."""
    litre = 1.4 + 0.01 * soda
    alum, carbonate = 50 / MASS["alum"] / litre, soda / MASS["soda"] / litre
    x, share, held = rest({"Al": alum, "K": alum, "SO4": 2 * alum, "Na": 2 * carbonate, "C": carbonate}, solid, gas, [guess])
    return x, share, held * litre


def whole_baths():
    """Baths of every ion, thin and strong, with too little and too much alkali: totals, solid, gas."""
    salts = {"potash alum": {"Al": 1, "K": 1, "SO4": 2}, "ammonium alum": {"Al": 1, "NH4": 1, "SO4": 2},
             "aluminium sulphate": {"Al": 1, "SO4": 1.5}, "aluminium chloride": {"Al": 1, "Cl": 3}, "none": {}}
    alkalis = {"soda": {"Na": 2, "C": 1}, "bicarbonate": {"Na": 1, "C": 1}, "potash": {"K": 2, "C": 1}, "lye": {"Na": 1}}
    charge = {"soda": 2, "bicarbonate": 1, "potash": 2, "lye": 1}
    for salt, gives in salts.items():
        for alkali, brings in alkalis.items():
            for strength in (0.0005, 0.07):
                for per in (0.4, 2.7, 3.05, 4.5):
                    total = {}
                    for name, count in gives.items():
                        total[name] = total.get(name, 0.0) + count * strength
                    for name, count in brings.items():
                        total[name] = total.get(name, 0.0) + count * per * strength / charge[alkali]
                    # One gas and one solid for each, by turns, so that all meet.
                    turn = len(salt) + 3 * len(alkali) + int(10 * per) + (7 if strength > 0.01 else 0)
                    yield total, ("hydroxide", "basic")[turn % 2], ("air", "stirred", "fizzing", "closed")[turn // 2 % 4]


NAMES = ("Al", "SO4", "Na", "K", "NH4", "Cl", "C")
WORDS = {"hydroxide": "LakeSolid::hydroxide", "basic": "LakeSolid::basic_sulphate", "air": "open_to_air()",
         "stirred": "stirred()", "fizzing": "fizzing()", "closed": "closed_jar()"}


def case_lines():
    """Of tests/bath/whole_baths.inc; a bath whose rest SciPy does not find from any start is left out."""
    yield "// Printed by tests/reference/bath_check.py --cases (SciPy root). Do not edit. mol in a litre of Al, SO4, Na, K, NH4,"
    yield "// Cl, C; solid, gas; pH, share of the aluminium laid down, ionic strength (mol/L), carbon held (mol)."
    for total, solid, gas in whole_baths():
        try:
            x, share, held = rest(total, solid, gas)
        except RuntimeError:
            continue
        row = lambda values: "{" + ", ".join(f"{v:.12g}" for v in values) + "}"
        yield (f"{{{row(total.get(name, 0.0) for name in NAMES)}, {WORDS[solid]}, {WORDS[gas]}, "
               f"{row((x[0], share, x[7], held))}}},")


def cases():
    wanted = pathlib.Path(__file__).parents[1].joinpath("bath/whole_baths.inc").read_text().splitlines()
    made = list(case_lines())
    # The last digits are another machine's rounding.
    figures = lambda text: [float(x) for x in re.findall(r"(?<![A-Za-z])-?\d[\d.]*(?:e-?\d+)?", text)]
    same = len(made) == len(wanted) and all(
        len(figures(a)) == len(figures(b)) and all(abs(x - y) <= 2e-10 * max(1.0, abs(x)) for x, y in zip(figures(a), figures(b)))
        for a, b in zip(made[2:], wanted[2:]))
    if not same:
        sys.exit("tests/bath/whole_baths.inc is not what SciPy finds: print it anew with --cases")
    print(f"{len(made) - 2} baths of every ion as tests/bath/whole_baths.inc has them")


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
    np.seterr(all="ignore")  # starts that lead nowhere overflow
    if sys.argv[1] == "--cases":
        print("\n".join(case_lines()))
        return
    cases()
    lines = [line.split() for line in subprocess.run([sys.argv[1]], capture_output=True, text=True, check=True).stdout.splitlines()]
    masses([(row[1], float(row[2])) for row in lines if row[0] == "mass"])
    rows = [row for row in lines if row[0] == "bath"]
    if len(rows) != 56:
        sys.exit(f"56 baths wanted, got {len(rows)}")
    guess = np.array([4.8, -4.2, -2.2, -3.0, -1.5, -1.5, -15.0, 0.15, 0.5])
    worst = 0.0
    for _, solid, gas, soda, ph, laid, strength, carbon in rows:
        x, share, held = solve(float(soda), solid, gas, guess)
        gaps = (abs(x[0] - float(ph)), abs(share - float(laid)), abs(x[7] / float(strength) - 1),
                abs(held / float(carbon) - 1))
        worst = max(worst, *gaps)
        # Both solve the same equations, each to its last figures.
        if max(gaps) > 1e-9:
            sys.exit(f"{solid} {gas} {soda} g: pH {ph} and {x[0]}, laid {laid} and {share}, I {strength} and {x[7]}, "
                     f"carbon {carbon} and {held}")
        guess = x
    print(f"56 baths agree within {worst:.1e}")
    curve = [(float(row[1]), float(row[2])) for row in lines if row[0] == "curve"]
    theirs, ours = math.inf, float(next(row[1] for row in lines if row[0] == "time"))
    for _ in range(3):  # best of three, each point from the one before
        begin, at = time.perf_counter(), np.array([4.8, -4.2, -2.2, -3.0, -1.5, -1.5, -15.0, 0.15, 0.5])
        for soda, ph in curve[1:]:
            at, _, _ = solve(soda, "hydroxide", "stirred", at)
            if ph > 0 and abs(at[0] - ph) > 1e-9:
                sys.exit(f"curve at {soda} g: pH {ph} and {at[0]}")
        theirs = min(theirs, time.perf_counter() - begin)
    print(f"a curve of {len(curve)} points: ours {ours * 1e3:.1f} ms, SciPy {theirs * 1e3:.0f} ms, {theirs / ours:.0f} times")


main()
