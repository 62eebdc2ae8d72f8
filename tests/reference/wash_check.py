#!/usr/bin/env python3
"""Works filters, washes, pens and drying cakes out again, in another way, with NumPy and SciPy.

Filters by polyfit and by integrating dV/dt of two filters at once; the chance of a clean lake by a million draws; the pen
by the correlation written again from its source, inverted by Brent; a drying cake by importance sampling from the prior
of its three unknowns. Needs NumPy and SciPy; ends with 77 where they are missing.
"""
import subprocess
import sys

try:
    import numpy as np
    from scipy.integrate import solve_ivp
    from scipy.optimize import brentq
except ImportError:
    sys.exit(77)

DAY = 86400.0
random = np.random.default_rng(19)
failures = []


def hold(name, ours, theirs, tolerance):
    if not abs(ours - theirs) <= tolerance:
        failures.append(f"{name}: ours {ours:.9g}, here {theirs:.9g}, tolerance {tolerance:.3g}")


def filters():
    for _ in range(30):
        a, b = np.exp(random.normal(21, 1)), np.exp(random.normal(13, 1))
        volumes = np.sort(random.uniform(1e-4, 1e-3, random.integers(2, 7)))
        times = (a * volumes**2 + b * volumes) * np.exp(random.normal(0, .01, volumes.size))
        slope, intercept = np.polyfit(volumes, times / volumes, 1)
        if slope <= 0 or intercept <= 0 or np.any(np.diff(times) <= 0):
            continue
        whole = volumes[-1] * random.uniform(1.2, 3)

        def rates(_, passed):
            return [1 / (2 * slope * v + intercept) for v in passed]

        def done(_, passed):
            return sum(passed) - whole
        done.terminal = True
        alone = slope * whole**2 + intercept * whole
        run = solve_ivp(rates, (0, alone), [volumes[-1], 0], events=done, rtol=1e-10, atol=1e-16)
        line = f"filter {volumes.size} " + " ".join(f"{t:.17g} {v:.17g}" for t, v in zip(times, volumes)) + f" {whole:.17g}"

        def check(ours, want=(slope, intercept, alone, run.t_events[0][0])):
            for name, x, y in zip(("cake", "paper", "alone", "with a second"), ours, want):
                hold("filter, " + name, x, y, 1e-6 * abs(y))
        yield line, check


def washes():
    for _ in range(12):
        strength, u, scale = random.uniform(.05, 3), random.uniform(.005, .1), random.uniform(0, .08)
        bed, filled, lake = .45e-3, 1.5e-3, .0107
        s_bed, s_filled, s_lake, stirred = random.uniform(.02, .1, 4)
        washes_more = int(random.integers(0, 4))
        n = 1_000_000
        read = np.maximum(0, strength + u * random.standard_normal(n)) * np.exp(scale * random.standard_normal(n))
        beds = bed * np.exp(s_bed * random.standard_normal(n))
        kept = beds / (filled * np.exp(s_filled * random.standard_normal(n))) * np.exp(stirred * random.standard_normal(n))
        left = read * kept**washes_more * beds / (lake * np.exp(s_lake * random.standard_normal(n)))
        # More washes never make it less sure: the best of fewer counts; the cases here rise with each wash.
        chance = np.mean(left <= .01)
        line = (f"wash {strength} {u} {scale} {bed} {s_bed} {filled} {s_filled} {lake} {s_lake} {stirred} .01 {washes_more}")
        yield line, lambda ours, want=chance: hold("chance of clean", ours[0], want, .003)


SULPHATE = {"na": ((.009501, 2.317, 66.58), (.02388, 4.509, 135.5), 2.2),
            "k": ((.008819, 2.872, 83.72), (.03799, 9.784, 247.1), 5.3)}
LIMITING = {"na": 50.1, "k": 73.5, "nh4": 73.5, "so4": 80.0, "hco3": 44.5}
GRAMS = {"na": 22.990, "k": 39.098, "nh4": 14.007 + 4 * 1.008, "so4": 32.06 + 4 * 15.999, "hco3": 1.008 + 12.011 + 3 * 15.999}


def kappa(ions, grams, celsius):
    """uS/cm of these moles of ions, so diluted that they weigh `grams` a litre."""
    moles = {i: x * grams / sum(GRAMS[j] * y for j, y in ions.items()) for i, x in ions.items()}
    ionic = .5 * (moles["na"] + moles["k"] + moles["nh4"] + 4 * moles["so4"] + moles["hco3"])
    m = ionic / 3
    anions = 2 * moles["so4"] + moles["hco3"]
    total = 0
    for cation in ("na", "k", "nh4"):
        limiting, decline, b = SULPHATE["na" if cation == "na" else "k"]
        of_sulphate = np.polyval(limiting, celsius) - np.polyval(decline, celsius) * np.sqrt(m) / (1 + b * np.sqrt(m))
        of_bicarbonate = of_sulphate * (LIMITING[cation] + LIMITING["hco3"]) / (LIMITING[cation] + LIMITING["so4"])
        total += moles[cation] * (2 * moles["so4"] / anions * of_sulphate + moles["hco3"] / anions * of_bicarbonate)
    return 1000 * total


def pens():
    for _ in range(40):
        cations, sulphate = random.uniform(0, 2, 3), random.uniform(.2, 2)
        cations *= (2 * sulphate + (bicarbonate := random.choice([0, random.uniform(0, 3)]))) / cations.sum()
        ions = dict(zip(("na", "k", "nh4", "so4", "hco3"), (*cations, sulphate, bicarbonate)))
        grams, celsius = np.exp(random.uniform(-4, 3)), random.uniform(2, 43)
        want = kappa(ions, grams, celsius)
        back = brentq(lambda g: kappa(ions, g, celsius) - want, 1e-6, 50, xtol=1e-14)
        line = "pen " + " ".join(f"{x:.17g}" for x in (*ions.values(), grams, celsius))

        def check(ours, want=want, back=back):
            hold("conductivity", ours[0], want, 1e-9 * want)
            hold("strength", ours[1], back, 1e-8 * back)
        yield line, check


def weighted_quantile(values, weights, p):
    order = np.argsort(values)
    return values[order][np.searchsorted(np.cumsum(weights[order]), p * weights.sum())]


def cakes():
    cases = [((38.6, 24.9, 17.9), .005, 36), ((38.6, 24.9, 17.9, 14.2), .005, 36), ((30, 22.5, 17.8), .01, 30),
             ((60, 41, 30.2, 23.9, 20.3), .004, 48), ((25, 19, 15.5, 13.6), .008, 20)]
    for grams, repeats, tau_hours in cases:
        t, m, step = DAY * np.arange(len(grams)), np.array(grams) / 1e3, 1e-4
        sd = np.sqrt(step**2 / 12 + (repeats * m)**2)
        n = 1_000_000
        tau = tau_hours * 3600 * np.exp(np.log(2) * random.standard_normal(n))
        end = random.uniform(0, m[-1] + 2 * sd[-1], n)
        # A, given the two, is normal: drawn from there, with the chance of the weighings left as weight.
        e = np.exp(-t[None, :] / tau[:, None])
        information = (e**2 / sd**2).sum(1)
        best = (e * (m - end[:, None]) / sd**2).sum(1) / information
        weights = np.exp(-.5 * (((m - end[:, None] - best[:, None] * e) / sd)**2).sum(1)) / np.sqrt(information)
        over = best + random.standard_normal(n) / np.sqrt(information)
        dry = tau * np.log(np.maximum(over, 1e-12) / (.01 * np.maximum(end, 1e-12)))
        want = [weighted_quantile(end, weights, p) for p in (.05, .5, .95)] + [weighted_quantile(dry, weights, p) for p in (.5, .9)]
        spread = want[2] - want[0]
        line = (f"cake {len(grams)} " + " ".join(f"{a} {b}" for a, b in zip(t, m)) +
                f" {step} {repeats} {tau_hours * 3600} {np.log(2)} .01")

        def check(ours, want=want, spread=spread, grams=grams):
            for name, x, y in zip(("low end", "end", "high end"), ours, want):
                hold(f"cake {grams}, {name} in kg", x, y, .03 * spread)
            for name, x, y in zip(("likely", "sure"), ours[3:], want[3:]):
                hold(f"cake {grams}, {name} in s", x, y, .015 * y)
        yield line, check


def main():
    asked = [*filters(), *washes(), *pens(), *cakes()]
    said = subprocess.run([sys.argv[1]], input="\n".join(line for line, _ in asked) + "\n", capture_output=True, text=True,
                          check=True).stdout.splitlines()
    if len(said) != len(asked):
        sys.exit(f"{len(asked)} asked, {len(said)} answered")
    for (_, check), line in zip(asked, said):
        check([float(x) for x in line.split()])
    print("\n".join(failures))
    print(f"{len(asked)} cases, {len(failures)} figures differ")
    return 1 if failures or len(asked) < 75 else 0


if __name__ == "__main__":
    sys.exit(main())
