#!/usr/bin/env python3
"""Prints tests/bath/bath_tables.inc: solutions, filters, washes, pens and drying cakes as NumPy and SciPy find them.

Solutions by Brent's method on the published formula; filters by non-negative least squares, with a fresh one beside
them by Brent's method; washes by the normal law of SciPy over the readings' equal shares, their quantiles by Brent's
method; pens by the correlation written again (wash_check.py) and inverted by Brent's method; a drying cake by its
posterior on a dense grid of tau and m_end, A taken out by its normal law. What is checked is the working out: the
coefficients are those that the headers quote.
usage: bath_tables.py > tests/bath/bath_tables.inc   or   bath_tables.py --check FILE
Needs NumPy and SciPy; ends with 77 where they are missing.
"""
import sys

try:
    import numpy as np
    from scipy.optimize import brentq, nnls
    from scipy.stats import norm
except ImportError:
    sys.exit(77)

sys.dont_write_bytecode = True
import held_tables  # noqa: E402
from wash_check import kappa  # noqa: E402

random = np.random.default_rng(7)
HOUR = 3600.0

# laliberte-2009, as lib/bath/solution.cpp has them: c0 to c4.
LALIBERTE = {
    "Na2CO3": (5.45486543455015e-7, 1.72154929405038e-7, -0.0825850207323492, 0.00168822949783412, 4705.39822185746),
    "K2CO3": (2290.10867876218, 1038.77363895405, 0.109769327294915, 0.000497783340935823, -74.0786862142127),
    "NaHCO3": (0.0377378060615898, 0.00710029652458366, 0.0735733388535116, 0.00168369765511221, 3291.38382252025),
    "NaOH": (319.020509469838, 528.592358475315, -0.102197896602724, 0.000350420706415566, 765.970470238438),
    "Na2SO4": (4.45025449497252e-6, 9.12086519621226e-6, 0.0840358370073922, 0.00465767525381795, 4349.50513887423),
    "K2SO4": (7.10599369467468e-6, 4.6555866279207e-5, 0.349566841181191, 0.00751053641501126, 4200.09377806549),
    "(NH4)2SO4": (618.24075073611, 966.128116121243, 0.602706202526747, 0.0016279026793269, 667.573420648081),
    "Al2(SO4)3": (-0.0054335130421113, 0.00615454451922733, -0.0281614954186176, 0.00391344328446045, 3645.62065396415),
    "AlCl3": (-63.5506457736032, 338.780498541295, 0.162759786321933, 0.0153181315946676, 1539.83480739683),
    "NaCl": (-0.00324112223655149, 0.0636354335906616, 1.01371399467365, 0.0145951015210159, 3317.34854426537),
}


def water(t):
    """kg/m3: Tanaka to 40 degC, Kell above (particle/water.hpp)."""
    if t <= 40:
        return 999.974950 * (1 - (t - 3.983035) ** 2 * (t + 301.797) / (522528.9 * (t + 69.34881)))
    top = np.polyval([-280.54253e-12, 105.56302e-9, -46.170461e-6, -7.9870401e-3, 16.945176, 999.83952], t)
    return top / (1 + 16.879850e-3 * t)


def density(shares, t):
    s = sum(shares.values())
    volume = (1 - s) / water(t)
    for name, share in shares.items():
        c0, c1, c2, c3, c4 = LALIBERTE[name]
        volume += share / ((c0 * s + c1) * np.exp(1e-6 * (t + c4) ** 2) / (s + c2 + c3 * t))
    return 1 / volume


def solution_densities():
    """Shares in the order of Solute, degC: kg/m3."""
    for number in range(24):
        shares = random.uniform(0, .029, 10)
        if number < 10:
            shares = np.where(np.arange(10) == number, .11, 0.0)
        t = (15, 55, 40, 40.5)[number] if number < 4 else random.uniform(15, 55)
        yield [*shares, t, density({n: x for n, x in zip(LALIBERTE, shares) if x > 0}, t)]


def made_solutions():
    """Soda ash, potassium alum (0, 1); basis in the order of StrengthBasis; strength; degC: share by mass, water to 1 g
    of the salt (g), mL of solution to it, density (g/mL)."""
    alum, k2so4, al2so43 = 474.372, 174.252, 342.132  # g/mol
    parts = [{"Na2CO3": 1.0}, {"Al2(SO4)3": .5 * al2so43 / alum, "K2SO4": .5 * k2so4 / alum}]
    for salt, basis, strength, t in [(0, 0, .08, 20), (0, 1, .1, 20), (0, 2, .1, 20), (0, 1, .2, 50), (0, 1, .02, 15), (1, 0, .1, 45),
                                     (1, 1, .1, 55), (1, 2, .12, 30), (1, 1, .05, 20)]:
        def rho(w):
            return density({n: w * x for n, x in parts[salt].items()}, t) / 1000
        w = (strength if basis == 0 else brentq(lambda x: x * rho(x) - strength, 1e-6, .3, xtol=1e-15) if basis == 1 else
             brentq(lambda x: x / (1 - x) * water(t) / 1000 - strength, 1e-6, .3, xtol=1e-15))
        yield [salt, basis, strength, t, w, 1 / w - 1, 1 / w / rho(w), rho(w)]


def filters():
    """n, then V (L) and t (s) of each reading, the whole (L): a (s/L2), b (s/L), time of the whole and of the rest beside
    a fresh filter (s)."""
    def row(volumes, times, whole):
        v, t = np.array(volumes), np.array(times)
        (a, b), _ = nnls(np.column_stack((v, np.ones_like(v))), t / v)

        def passed(time, before):
            gone = a * before**2 + b * before
            return brentq(lambda x: a * x * x + b * x - gone - time, 0, 1e3, xtol=1e-15) - before
        rest = whole - v[-1]
        alone = a * whole**2 + b * whole
        most = alone - a * v[-1]**2 - b * v[-1]
        shared = brentq(lambda time: passed(time, v[-1]) + passed(time, 0) - rest, 0, most, xtol=1e-11, rtol=1e-14) if rest > 0 else 0.0
        return [v.size, *np.column_stack((v, t)).ravel(), whole, a, b, alone, shared]
    yield row([.5, 1.0], [50, 300], 1.6)  # paper of less than nothing
    yield row([.3, .5, 1.0], [40, 100, 420], 1.7)
    yield row([.5, 1.0], [600, 1200], 2.0)  # paper alone
    yield row([.4, .9, 1.3], [800, 2500, 4600], 1.3)  # nothing to come
    for _ in range(8):
        v = np.sort(random.uniform(.1, 1.2, random.integers(2, 6)))
        a, b = np.exp(random.normal(7, .8)), np.exp(random.normal(6.5, .7))
        yield row(v, (a * v * v + b * v) * np.exp(random.normal(0, .005, v.size)), v[-1] * random.uniform(1.3, 3))


def filter_outlooks():
    """V (L), t (s) of two readings, whole (L): finish middle, low, high, the same with a second, saved (s), chance that it
    pays; by 400 000 draws with volumes to 3 %, times to 20 s, the law to 35 %, 300 s of handling."""
    for v1, t1, v2, t2, whole in [(.5, 2000, 1.0, 7200, 3), (.5, 700, 1.0, 1900, 1.6), (.4, 900, .8, 2300, 1.5), (.3, 120, .9, 620, 1.6)]:
        n = 400_000
        v = np.array([v1, v2])[:, None] * np.exp(.03 * random.standard_normal((2, n)))
        t = np.maximum(np.array([t1, t2])[:, None] * 1e-3, np.array([t1, t2])[:, None] + 20 * random.standard_normal((2, n)))
        a = (t[1] / v[1] - t[0] / v[0]) / (v[1] - v[0])
        b = t[0] / v[0] - a * v[0]
        torn, bare = a < 0, (a >= 0) & (b < 0)
        b = np.where(torn, (t / v).mean(0), np.where(bare, 0, b))
        a = np.where(torn, 0, np.where(bare, t.sum(0) / (v * v).sum(0), a))
        factor = np.exp(.35 * random.standard_normal(n))
        rest = a * (whole**2 - v2**2) + b * (whole - v2)
        low, high = np.zeros(n), rest.copy()
        for _ in range(60):
            middle = .5 * (low + high)
            slope = 2 * a * v2 + b
            run = 2 * middle / (slope + np.sqrt(slope**2 + 4 * a * middle)) + 2 * middle / (b + np.sqrt(b * b + 4 * a * middle))
            low, high = np.where(run < whole - v2, middle, low), np.where(run < whole - v2, high, middle)
        alone, shared = t2 + rest * factor, t2 + high * factor
        yield [v1, t1, v2, t2, whole, *np.quantile(alone, (.5, .05, .95)), *np.quantile(shared, (.5, .05, .95)),
               np.median(alone - shared), np.mean(alone - shared > 300)]


def washes():
    """Strength, its doubt (g/L), scale; bed (L), factor; filled (L), factor; lake (g), factor; held (mL/g; 0: none),
    factor; stirred; target; salts of the wash water (g/L): left, low, high, clean now, likely, sure (-1: not in 20),
    clean after one (-1: clean now), water for sure (L), from the wash water; then low, high and clean of 3 washes more."""
    z = norm.ppf((np.arange(200) + .5) / 200)
    for number in range(14):
        c, u, scale = random.uniform(.2, 4), random.uniform(.005, .3), random.uniform(.01, .08)
        bed, filled, lake = random.uniform(.2, .6), random.uniform(1.2, 2), random.uniform(5, 15)
        f_bed, f_filled, f_lake = np.exp(random.uniform(.02, .15, 3))
        held, f_held = (random.uniform(2, 9), np.exp(random.uniform(.05, .3))) if number % 2 else (0.0, 1.0)
        stirred, target, hard = random.uniform(.02, .15), .01, random.uniform(0, .5)
        if number == 0:
            c, u = .005, .002
        if number in (2, 3):  # hardly a vessel larger than its bed
            bed, filled, f_bed = .9 * filled, filled, 1.3

        def median(n, at=0.0):
            volume = held if held else bed * 1e3 / lake
            return np.maximum(0, c + at * u) * (bed / filled) ** n * volume / 1e3

        def sd(n):
            return np.sqrt(sum(x * x for x in (
                (n if held else n + 1) * np.log(f_bed), n * np.log(f_filled), n * stirred,
                np.log(f_held) if held else np.log(f_lake), scale)))

        def chance(n, x):
            at = median(n, z)
            return np.where(at > 0, norm.cdf(np.log(x / np.where(at > 0, at, 1)) / sd(n)), 1).mean()

        def quantile(n, p):
            if chance(n, 1e-9) >= p:
                return 0.0
            return min(1.0, np.exp(brentq(lambda l: chance(n, np.exp(l)) - p, np.log(1e-9), np.log(1e3), xtol=1e-12)))
        clean = np.maximum.accumulate([chance(n, target) for n in range(21)])
        likely, sure = (next((n for n in range(21) if clean[n] >= p), -1) for p in (.5, .9))
        if sure >= 0 and min(abs(clean - .9)) < 1e-6 or min(abs(clean - .5)) < 1e-6:
            continue
        yield [c, u, scale, bed, f_bed, filled, f_filled, lake, f_lake, held, f_held, stirred, target, hard,
               min(1, median(0)), quantile(0, .05), quantile(0, .95), clean[0], likely, sure, -1 if clean[0] >= .9 else clean[1],
               sure * (filled - bed) if sure >= 0 else 0, hard * (held if held else bed * 1e3 / lake) / 1e3,
               quantile(min(sure + 1, 3) if sure >= 0 else 3, .05), quantile(min(sure + 1, 3) if sure >= 0 else 3, .95),
               clean[min(sure + 1, 3) if sure >= 0 else 3]]


def pens():
    """Na, K, NH4, SO4, HCO3 (mol); decant shown (uS/cm), at (degC), compensated; wash water the same; per kelvin, repeats to,
    calibrated to, step (uS/cm), thermometer (K): strength and its doubt (g/L), over the wash water at 25 degC (uS/cm)."""
    for number in range(16):
        cations, sulphate = random.uniform(.1, 2, 3), random.uniform(.2, 2)
        bicarbonate = 0.0 if number % 3 == 0 else random.uniform(.1, 3)
        cations *= (2 * sulphate + bicarbonate) / cations.sum()
        ions = dict(zip(("na", "k", "nh4", "so4", "hco3"), (*cations, sulphate, bicarbonate)))
        tap, shown = random.uniform(50, 800), random.uniform(900, 6000)
        t, t_tap = random.uniform(5, 44), random.uniform(5, 44)
        by_pen, by_pen_tap = number % 2, number // 2 % 2
        if number in (4, 5):  # hardly any more salt than the water had, and a little less
            shown, tap, t_tap, by_pen_tap = (301.0, 299.0)[number - 4], 300.0, t, by_pen
        per, repeats, calibrated, step, thermometer = .019 + .002 * (number % 3), .01 + .002 * (number % 4), .03, 1 + 9 * (number % 2), .5 + number % 2

        def doubt(value, compensated):
            return np.hypot(np.hypot(step / np.sqrt(12), repeats * value), 0 if compensated else per * thermometer * value)
        there = (shown * (1 + per * (t - 25)) if by_pen else shown)
        tap_25 = tap if by_pen_tap else tap / (1 + per * (t_tap - 25))
        over = max(0.0, there - tap_25 * (1 + per * (t - 25)))

        def strength(k):
            return brentq(lambda g: kappa(ions, g, t) - k, 1e-12, 60, xtol=1e-15, rtol=1e-14) if k > 1e-9 else 0.0
        u = np.hypot(doubt(shown, by_pen), doubt(tap, by_pen_tap))
        if there - tap_25 * (1 + per * (t - 25)) < -2 * u:
            continue
        yield [*ions.values(), shown, t, by_pen, tap, t_tap, by_pen_tap, per, repeats, calibrated, step, thermometer,
               strength(over), strength(over + u) - strength(over), kappa(ions, strength(over), 25) if over > 0 else 0]


def cakes():
    """n, hours and g of each weighing; step's doubt (g), repeats to, median of tau (h), factor; shape of what is
    expected (0 none, 1 lognormal, 2 normal), its place (g) and spread; index of the first weighing of the falling period:
    mean and sd of tau (h), of the end and of A (g); hours until it is within 1 % with chances of .1, .5 and .9; mass 120 h
    after the falling began at 1 in 20, a half and 19 in 20 (g)."""
    cases = [((0, 24, 48, 72), (38.6, 24.9, 17.9, 14.2), .0287, .005, 36, 2, 0, 0, 0, 0),
             ((0, 24, 48), (38.6, 24.9, 17.9), .0287, .003, 36, 1.5, 0, 0, 0, 0),
             ((0, 24, 50, 70, 96), (60, 41, 30.2, 24.9, 20.3), .05, .004, 48, 2, 0, 0, 0, 0),
             ((0, 24, 48, 72), (38.6, 24.9, 17.9, 14.2), .0287, .005, 36, 2, 1, 10.7, 1.1, 0),
             ((0, 24, 48, 72), (38.6, 24.9, 17.9, 14.2), .0287, .005, 36, 2, 2, 10.0, 0.6, 0),
             ((0, 12, 24, 48, 72, 96), (52, 45.2, 38.6, 24.9, 17.9, 14.2), .1, .004, 30, 1.8, 0, 0, 0, 2),
             ((0, 20, 40, 60, 80), (25, 19, 15.5, 13.4, 12.2), .02, .004, 20, 2.5, 2, 10.6, 0.8, 0),
             ((0, 24, 48, 72, 96), (40.0, 27.5657, 20.2851, 16.0222, 13.5261), .01, .0005, 36, 1.05, 0, 0, 0, 0)]  # 4.5 sd slow
    for hours, grams, step, repeats, median, factor, shape, place, spread, first in cases:
        t, m = np.array(hours[first:], float) - hours[first], np.array(grams[first:])
        sd = np.hypot(step, repeats * m)
        highest = m[-1] + 2 * sd[-1]
        z, x = np.linspace(-7, 7, 2401), (np.arange(6000) + .5) / 6000 * highest
        tau = median * factor ** z
        logs, overs, over_sds = (np.empty((z.size, x.size)) for _ in range(3))
        for i, each in enumerate(tau):
            e = np.exp(-t / each)
            information = np.sum((e / sd) ** 2)
            best = ((m[None, :] - x[:, None]) * e / sd**2).sum(1) / information
            misfit = (((m[None, :] - x[:, None] - best[:, None] * e) / sd) ** 2).sum(1)
            logs[i] = -.5 * misfit - .5 * np.log(information) - .5 * z[i] ** 2
            overs[i], over_sds[i] = best, information ** -.5
        if shape:
            logs += (norm.logpdf(np.log(x), np.log(place), np.log(spread)) - np.log(x) if shape == 1 else norm.logpdf(x, place, spread))
        p = np.exp(logs - logs.max())
        p /= p.sum()

        def moments(values):
            mean = (p * values).sum()
            return mean, np.sqrt((p * (values - mean) ** 2).sum())
        mean_over, sd_over = moments(overs)
        sd_over = np.hypot(sd_over, np.sqrt((p * over_sds**2).sum()))

        keep = p > 1e-12  # the rest weighs below 1e-5 of the figures' last digit
        w, end, over, over_sd = p[keep], np.broadcast_to(x, p.shape)[keep], overs[keep], over_sds[keep]
        taus = np.broadcast_to(tau[:, None], p.shape)[keep]

        def dry(hours_on):
            e = np.exp(-hours_on / taus)
            return (w * norm.cdf((.01 * end - over * e) / (over_sd * e))).sum()

        def below(mass, hours_on):
            e = np.exp(-hours_on / taus)
            return (w * norm.cdf((mass - end - over * e) / (over_sd * e))).sum()
        yield [len(hours), *np.column_stack((hours, grams)).ravel(), step, repeats, median, factor, shape, place, spread, first,
               *moments(np.broadcast_to(tau[:, None], p.shape)), *moments(np.broadcast_to(x, p.shape)), mean_over, sd_over,
               *(brentq(lambda at: dry(at) - q, 10, 2000, xtol=1e-9) for q in (.1, .5, .9)),
               *(brentq(lambda mass: below(mass, 120) - q, .2 * m[-1], m[0], xtol=1e-9) for q in (.05, .5, .95))]


def lines():
    yield "// Printed by tests/reference/bath_tables.py (NumPy, SciPy). Do not edit. What stands in a row is said there."
    for make in (solution_densities, made_solutions, filters, filter_outlooks, washes, pens, cakes):
        yield f"const std::vector<std::vector<double>> {make.__name__}{{"
        for row in make():
            yield "    {" + ", ".join(f"{x:.13g}" for x in row) + "},"
        yield "};"


if __name__ == "__main__":
    held_tables.print_or_check(lines(), rtol=1e-9, atol=1e-11)
