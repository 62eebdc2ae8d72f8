#!/usr/bin/env python3
"""Prints tests/bath/cake_nodes.inc: what weighings of drying cakes tell by the very nodes that drying.hpp sums over.

bath_tables.py holds the posterior against a dense grid, to what 100 nodes of tau and 25 of the end are good to; here the
nodes themselves are laid again by NumPy: the best tau by the same steps, the ends of its range where the evidence is
exp(-14) of that, five standard deviations of the end, each node's A by its normal law. So they agree to the last figures,
and a node more or a range a quarter wider shows. Quantiles and times by Brent's method.
usage: cake_nodes.py > tests/bath/cake_nodes.inc   or   cake_nodes.py --check FILE
Needs NumPy and SciPy; ends with 77 where they are missing.
"""
import sys

try:
    import numpy as np
    from scipy.optimize import brentq
    from scipy.stats import norm
except ImportError:
    sys.exit(77)

sys.dont_write_bytecode = True
import held_tables  # noqa: E402

HOUR, GRAM = 3600.0, 1e-3
TAUS, ENDS, DEEP, WIDE, LEAST = 100, 25, 14.0, 5.0, 1e-9
YEAR = 366 * 24 * HOUR


class Expected:
    """Of the mass at rest: shape 0 none, 1 lognormal (median, factor), 2 normal (mean, standard uncertainty); kg."""

    def __init__(self, shape, place, spread):
        self.shape, self.place, self.spread = shape, place, spread

    def at(self, z):
        return self.place * self.spread**z if self.shape == 1 else self.place + z * self.spread

    def density(self, x):
        if self.shape == 0:
            return 1.0
        if x <= 0:
            return 0.0
        if self.shape == 1:
            return np.exp(-0.5 * (np.log(x / self.place) / np.log(self.spread)) ** 2) / x
        return np.exp(-0.5 * ((x - self.place) / self.spread) ** 2)


class Nodes:
    """Columns: tau (s), end (kg), A (kg), its standard deviation, weight."""

    def __init__(self, t, m, sd, median, factor, expected):
        self.t, self.m, self.w = t - t[0], m, sd**-2
        self.median, self.factor, self.expected = median, factor, expected
        self.highest = m[-1] + 2 * sd[-1]
        grid = [-5 + 0.05 * i for i in range(201)]
        best_at = max(grid, key=self.evidence)
        best, step = self.evidence(best_at), 0.05
        while step > 1e-5:
            for z in (best_at - step, best_at + step):
                if self.evidence(z) > best:
                    best, best_at = self.evidence(z), z
            step /= 2
        low, high = (best_at + way * self.reach(best_at, best, way) for way in (-1, 1))
        rows = []
        for z in low + (np.arange(TAUS) + 0.5) * (high - low) / TAUS:
            rows.append(self.ends(z, -best - 0.5 * z * z))
        self.rows = np.concatenate(rows)
        if len(self.rows):
            self.rows[:, 4] /= self.rows[:, 4].sum()
            self.rows = self.rows[self.rows[:, 4] >= LEAST]

    def line(self, tau):
        """Least squares of m on 1 and exp(-t/tau): end and its sd, A there and its sd at a given end, A per end, and
        the logarithm of the evidence but for the end's own."""
        e = np.exp(-self.t / tau)
        normal = np.array([[self.w.sum(), (self.w * e).sum()], [(self.w * e).sum(), (self.w * e * e).sum()]])
        end, over = np.linalg.solve(normal, [(self.w * self.m).sum(), (self.w * e * self.m).sum()])
        end_sd = np.sqrt(np.linalg.inv(normal)[0, 0])
        misfit = (self.w * (self.m - end - over * e) ** 2).sum()
        return end, end_sd, over, normal[1, 1] ** -0.5, normal[0, 1] / normal[1, 1], -0.5 * misfit - 0.5 * np.log(normal[1, 1])

    def ends(self, z, log_extra, with_evidence=True):
        tau = self.median * self.factor**z
        at, at_sd, over, over_sd, per_end, log_evidence = self.line(tau)
        low, high = max(0.0, at - WIDE * at_sd), min(self.highest, at + WIDE * at_sd)
        if self.expected.shape:
            low, high = max(low, self.expected.at(-WIDE)), min(high, self.expected.at(WIDE))
        if not high > low:
            return np.empty((0, 5))
        step = (high - low) / ENDS
        end = low + (np.arange(ENDS) + 0.5) * step
        log = log_extra + (log_evidence if with_evidence else 0.0)
        weight = np.exp(log - 0.5 * ((end - at) / at_sd) ** 2) * step * np.array([self.expected.density(x) for x in end])
        rows = np.column_stack((np.full(ENDS, tau), end, over - (end - at) * per_end, np.full(ENDS, over_sd), weight))
        return rows[weight > 0]

    def evidence(self, z):
        mass = self.ends(z, 0.0, with_evidence=False)[:, 4].sum()
        return self.line(self.median * self.factor**z)[5] - 0.5 * z * z + np.log(mass) if mass > 0 else -1e300

    def reach(self, best_at, best, way):
        step = 1e-4
        while step < 6 and self.evidence(best_at + way * step) > best - DEEP:
            step *= 1.25
        return min(step, 6.0)

    def sum_of(self, values):
        return (self.rows[:, 4] * values).sum()

    def below(self, mass, time):
        tau, end, over, over_sd, _ = self.rows.T
        e = np.exp(-time / tau)
        return self.sum_of(norm.cdf((mass - end - over * e) / (over_sd * e)))

    def dry(self, time, within):
        tau, end, over, over_sd, _ = self.rows.T
        e = np.exp(-time / tau)
        return min(1.0, self.sum_of(norm.cdf((within * end - over * e) / (over_sd * e))))

    def mass(self, time, p):
        return brentq(lambda x: self.below(x, time) - p, 0, 10 * self.m[0], xtol=1e-16, rtol=1e-14)

    def end(self, p):
        rows = self.rows[np.argsort(self.rows[:, 1], kind="stable")]
        return rows[np.searchsorted(np.cumsum(rows[:, 4]), p), 1]

    def when(self, within, p):
        """Seconds; -1: not in a year, 0: now."""
        if self.dry(YEAR, within) < p:
            return -1.0
        return 0.0 if self.dry(0.0, within) >= p else brentq(lambda x: self.dry(x, within) - p, 0, YEAR, xtol=1e-4, rtol=1e-14)

    def middle_tau(self):
        return self.rows[np.searchsorted(np.cumsum(self.rows[:, 4]), 0.5), 0]


#: Hours and grams; sd of a reading (g), repeats to; median of tau (h), factor; expected; first weighing of the fall.
DAILY = tuple(range(0, 24 * 12, 24))
CASES = [
    (DAILY[:4], (38.6, 24.9, 17.9, 14.2), .0287, .005, 36, 2, (0, 1, 1), 0),
    (DAILY[:3], (38.6, 24.9, 17.9), .0287, .003, 36, 1.5, (0, 1, 1), 0),
    ((0, 24, 50, 70, 96), (60, 41, 30.2, 24.9, 20.3), .05, .004, 48, 2, (0, 1, 1), 0),
    (DAILY[:4], (38.6, 24.9, 17.9, 14.2), .0287, .005, 36, 2, (1, 10.7, 1.1), 0),
    (DAILY[:4], (38.6, 24.9, 17.9, 14.2), .0287, .005, 36, 2, (2, 10.0, .6), 0),
    ((0, 12, 24, 48, 72, 96), (52, 45.2, 38.6, 24.9, 17.9, 14.2), .1, .004, 30, 1.8, (0, 1, 1), 2),
    ((0, 20, 40, 60, 80), (25, 19, 15.5, 13.4, 12.2), .02, .004, 20, 2.5, (2, 10.6, .8), 0),
    (DAILY[:5], (40.0, 27.5657, 20.2851, 16.0222, 13.5261), .01, .0005, 36, 1.05, (0, 1, 1), 0),  # 4.5 sd slow
    (DAILY[:3], (38.6, 27.9, 19.9), .3, .01, 36, 2, (0, 1, 1), 0),  # hardly slower: the end may be nothing
    (DAILY[:3], (12.0, 11.0, 10.9), .2, .01, 36, 2, (0, 1, 1), 0),  # all but at rest: the end may be the last
    (DAILY[:3], (38.6, 24.9, 17.9), .2, .01, 36, 3, (1, 12.0, 1.4), 0),  # a wide expectation: the readings are narrower
    (DAILY[:3], (38.6, 24.9, 17.9), .2, .01, 36, 3, (2, 4.0, 3.0), 0),  # one that reaches below nothing
]
#: As above without the first; with share called dry, share within which two agree, hours that they lie apart.
OUTLOOKS = [
    (DAILY[:4], (38.6, 24.9, 17.9, 14.2), .0287, .005, 36, 2, (0, 1, 1), .01, .005, 20),
    (DAILY[:4], (38.6, 24.9, 17.9, 14.2), .0287, .005, 36, 2, (1, 10.7, 1.15), .01, .005, 20),
    (DAILY[:4], (38.6, 24.9, 17.9, 14.2), .0287, .005, 36, 2, (1, 20.7, 1.1), .01, .005, 20),  # too light for its bath
    (DAILY[:4], (38.6, 24.9, 17.9, 14.2), .0287, .005, 36, 2, (2, 5.0, .6), .02, .005, 20),  # too heavy for its bath
    (DAILY[:11], (38.6, 24.9, 17.9, 14.3, 12.5, 11.5, 11.1, 10.8, 10.7, 10.65, 10.62), .0287, .002, 36, 2, (0, 1, 1), .01, .005, 20),
    (DAILY[:5], (38.6, 24.9, 17.9, 17.9, 17.9), .0287, .002, 36, 2, (0, 1, 1), .01, .005, 20),  # a crust
    (DAILY[:3], (20.0, 17.92, 17.9), .0287, .002, 36, 2, (1, 10.7, 1.15), .01, .005, 20),
    (DAILY[:3], (20.0, 17.92, 17.9), .0287, .002, 36, 2, (1, 17.0, 1.15), .01, .005, 20),
    (DAILY[:7], (38.6, 24.9, 17.9, 14.3, 12.5, 11.5, 11.1), .0287, .002, 36, 2, (2, 10.6, 1.0), .05, .005, 20),
]


def reading_sd(mass, sd, repeats):
    return np.hypot(sd, repeats * mass)


def nodes_of(hours, grams, sd, repeats, median, factor, expected):
    m = np.array(grams, float) * GRAM
    shape, place, spread = expected
    return Nodes(np.array(hours, float) * HOUR, m, reading_sd(m, sd * GRAM, repeats), median * HOUR, factor,
                 Expected(shape, place * GRAM, spread * (GRAM if shape == 2 else 1)))


def flat(hours, grams):
    return np.column_stack((hours, grams)).ravel()


def cake_nodes():
    """n, hours and g of each; sd of the step (g), repeats to, median of tau (h), factor; shape, place and spread of what is
    expected; first weighing of the fall: nodes, 1e9 times what their weights lack of 1; mean and sd of tau (h), of the end
    and of A (g), mean of A's own sd (g); end at 1 in 20, a half and 19 in 20 (g); mass 120 h on at 1 in 20 and 19 in 20; chance to be within 3 % after 60 and 150 h; hours until within 1 % at .1, .5, .9."""
    for hours, grams, sd, repeats, median, factor, expected, first in CASES:
        n = nodes_of(hours[first:], grams[first:], sd, repeats, median, factor, expected)
        tau, end, over, over_sd, _ = n.rows.T
        row = [len(hours), *flat(hours, grams), sd, repeats, median, factor, *expected, first, len(n.rows), 1e9 * (1 - n.rows[:, 4].sum())]
        for values, own, unit in ((tau, 0, HOUR), (end, 0, GRAM), (over, over_sd, GRAM)):
            mean = n.sum_of(values)
            row += [mean / unit, np.sqrt(n.sum_of((values - mean) ** 2 + own**2)) / unit]
        row += [n.sum_of(over_sd) / GRAM, *(n.end(p) / GRAM for p in (.05, .5, .95))]
        row += [n.mass(120 * HOUR, p) / GRAM for p in (.05, .95)]
        row += [n.dry(h * HOUR, .03) for h in (60, 150)]
        yield row + [n.when(.01, p) / HOUR for p in (.1, .5, .9)]


def cake_outlooks():
    """n, hours and g of each; sd of the step (g), repeats to, median of tau (h), factor; shape, place and spread of what is
    expected; share called dry, share within which two agree, hours that they lie apart: state in the order of DryingState,
    unexpected; end, low and high (g), median of tau (h), chance to be dry now, hours from the first weighing at chances of
    .1, .5 and .9 (-1: none)."""
    for hours, grams, sd, repeats, median, factor, expected, dry, agree, apart in OUTLOOKS:
        shape, place, spread = expected
        believed = Expected(shape, place * GRAM, spread * (GRAM if shape == 2 else 1))
        n = nodes_of(hours, grams, sd, repeats, median, factor, (0, 1, 1))
        unexpected = False
        if shape:
            low, high = (believed.at(norm.ppf(p)) for p in (.001, .999))
            unexpected = n.end(.999) < low or n.end(.001) > high
        since = None
        for i in range(len(grams) - 2, -1, -1):
            if abs(grams[i] - grams[-1]) > agree * grams[-1]:
                break
            if hours[-1] - hours[i] >= apart:
                since = i
        if shape and since is None and not unexpected:
            n = nodes_of(hours, grams, sd, repeats, median, factor, expected)
        u, state = reading_sd(grams[-1], sd, repeats), 0
        if since is not None:
            above = shape > 0 and grams[-1] * GRAM > believed.at(norm.ppf(.975))
            if since >= 2 and not above:
                before = nodes_of(hours[:since + 1], grams[:since + 1], sd, repeats, median, factor, expected)
                above = (grams[-1] - 2 * u) * GRAM > before.mass(hours[-1] * HOUR, .975)
            state = 2 if above else 1
        ends = [grams[-1], grams[-1] - 1.645 * u, grams[-1] + 1.645 * u] if state == 1 else [n.end(p) / GRAM for p in (.5, .05, .95)]
        times = [-1.0 if state == 2 or n.when(dry, p) < 0 else n.when(dry, p) / HOUR for p in (.1, .5, .9)]
        yield [len(hours), *flat(hours, grams), sd, repeats, median, factor, *expected, dry, agree, apart, state, float(unexpected), *ends,
               n.middle_tau() / HOUR, n.dry(hours[-1] * HOUR, dry), *times]


def lines():
    yield "// Printed by tests/reference/cake_nodes.py (NumPy, SciPy). Do not edit. What stands in a row is said there."
    for make in (cake_nodes, cake_outlooks):
        yield f"const std::vector<std::vector<double>> {make.__name__}{{"
        for row in make():
            yield "    {" + ", ".join(f"{x:.13g}" for x in row) + "},"
        yield "};"


if __name__ == "__main__":
    np.seterr(all="ignore")  # a year on nothing is left of a quick cake, and 1 / 0 is more than enough
    held_tables.print_or_check(lines(), rtol=1e-8, atol=1e-8)
