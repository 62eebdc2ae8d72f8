#!/usr/bin/env python3
"""Published cases of learning from trials and from groups, by SciPy, against the library.

usage: learning_check.py <program learning_values>. Exit 77 (skipped) without NumPy and SciPy.
Also prints the digits that stand in tests/estimate/logistic_fit_test.cpp and joint_normal_test.cpp. Data: bliss-1935
and racine-1986 from memory, menarche-data and posteriordb read (docs/references.md).
"""
import subprocess
import sys

try:
    import numpy as np
    from scipy import integrate, optimize, special, stats
except ImportError:
    sys.exit(77)

lines = {}
for line in subprocess.run([sys.argv[1]], capture_output=True, text=True, check=True).stdout.splitlines():
    name, *numbers = line.split()
    lines[name] = [float(v) for v in numbers]
failures = []


def agree(what, ours, theirs, margin):
    if not abs(ours - theirs) <= margin:
        failures.append(f"{what}: library {ours:.8g}, SciPy {theirs:.8g}, margin {margin:.2g}")


def logistic_fit(x, n, y):
    """Greatest likelihood; uncertainties from the second derivatives by finite differences; x50 by the delta rule."""
    x, n, y = (np.asarray(v, float) for v in (x, n, y))
    centre = x.mean()

    def minus_log_likelihood(p):
        t = p[0] + p[1] * (x - centre)
        return -(y * special.log_expit(t) + (n - y) * special.log_expit(-t)).sum()

    best = optimize.minimize(minus_log_likelihood, [0.0, 1.0], method="Nelder-Mead",
                             options={"xatol": 1e-11, "fatol": 1e-13, "maxiter": 10000, "maxfev": 10000}).x
    h = 1e-3 * np.abs(best).clip(1e-2)
    hessian = np.empty((2, 2))
    for i in range(2):
        for j in range(2):
            d, e = np.eye(2)[i] * h, np.eye(2)[j] * h
            hessian[i, j] = (minus_log_likelihood(best + d + e) - minus_log_likelihood(best + d - e)
                             - minus_log_likelihood(best - d + e) + minus_log_likelihood(best - d - e)) / (4 * h[i] * h[j])
    covariance = np.linalg.inv(hessian)
    a, b = best
    move = np.array([1.0, -centre])
    to_x50 = np.array([-1 / b, a / b**2])
    return (a - b * centre, np.sqrt(move @ covariance @ move), b, np.sqrt(covariance[1, 1]),
            centre - a / b, np.sqrt(to_x50 @ covariance @ to_x50))


def check_fit(name, x, n, y):
    fit = logistic_fit(x, n, y)
    print(name, " ".join(f"{v:.6g}" for v in fit))
    if name in lines:
        parts = ("intercept", "its uncertainty", "slope", "its uncertainty", "x50", "its uncertainty")
        for what, ours, theirs in zip(parts, lines[name], fit):
            agree(f"{name}, {what}", ours, theirs, 2e-4 * abs(theirs))


check_fit("beetles", [1.6907, 1.7242, 1.7552, 1.7842, 1.8113, 1.8369, 1.8610, 1.8839],
          [59, 60, 62, 56, 63, 59, 62, 60], [6, 13, 18, 28, 52, 53, 61, 60])
dose, dead = np.array([-.86, -.30, -.05, .73]), np.array([0, 1, 3, 5])
check_fit("racine", dose, [5] * 4, dead)
check_fit("menarche",
          [9.21, 10.21, 10.58, 10.83, 11.08, 11.33, 11.58, 11.83, 12.08, 12.33, 12.58, 12.83, 13.08, 13.33, 13.58, 13.83,
           14.08, 14.33, 14.58, 14.83, 15.08, 15.33, 15.58, 15.83, 17.58],
          [376, 200, 93, 120, 90, 88, 105, 111, 100, 93, 100, 108, 99, 106, 105, 117, 98, 97, 120, 102, 122, 111, 94,
           114, 1049],
          [0, 0, 0, 2, 2, 5, 10, 17, 16, 29, 39, 51, 47, 67, 81, 88, 79, 90, 113, 95, 117, 107, 92, 112, 1049])

# Eight schools: given tau everything is normal and mu has precision sum 1/(sd^2 + tau^2) + 1/25.
y, sd = np.array([28, 8, -3, 7, -1, 1, 18, 12.0]), np.array([15, 10, 16, 11, 9, 11, 10, 18.0])


def given(tau):
    v = sd**2 + tau**2
    precision = (1 / v).sum() + 1 / 25
    mu = (y / v).sum() / precision
    density = (stats.halfcauchy.pdf(tau, scale=5) * np.prod(stats.norm.pdf(y, mu, np.sqrt(v)))
               * stats.norm.pdf(mu, 0, 5) / stats.norm.pdf(0, 0, 1 / np.sqrt(precision)))
    theta = mu + tau**2 / v * (y - mu)
    return density, np.concatenate([[tau, mu], theta]), (mu**2 + 1 / precision, tau**2)


def posterior(f):
    return integrate.quad(lambda t: given(t)[0] * f(t), 0, 400, limit=2000, epsabs=0, epsrel=1e-9,
                          points=[1, 5, 20])[0]


mass = posterior(lambda t: 1.0)
schools = [posterior(lambda t, i=i: given(t)[1][i]) / mass for i in range(10)]
print("schools tau mu theta", " ".join(f"{v:.5g}" for v in schools),
      "E mu^2, tau^2", *(f"{posterior(lambda t, i=i: given(t)[2][i]) / mass:.5g}" for i in range(2)))
for i, theirs in enumerate(schools):
    agree(f"eight schools, {i}", lines["schools"][i], theirs, 2e-3)

# The bioassay with priors N(0, 2^2), N(0, 10^2), by 2000 x 2000 midpoints. Expectation propagation is not exact here:
# margins of a twentieth of the sd in means, a tenth in sd, .05 in the evidence (the sd of the slope is 8 % short).
a = -9 + 22 * (np.arange(2000) + .5) / 2000
b = -20 + 80 * (np.arange(2000) + .5) / 2000
A, B = np.meshgrid(a, b, indexing="ij")
log_w = stats.norm.logpdf(A, 0, 2) + stats.norm.logpdf(B, 0, 10)
for x, d in zip(dose, dead):
    log_w += d * special.log_expit(A + B * x) + (5 - d) * special.log_expit(-A - B * x)
w = np.exp(log_w) * 22 / 2000 * 80 / 2000
mass = w.sum()
mean = (w * A).sum() / mass, (w * B).sum() / mass
spread = np.sqrt((w * (A - mean[0]) ** 2).sum() / mass), np.sqrt((w * (B - mean[1]) ** 2).sum() / mass)
exact = (mean[0], spread[0], mean[1], spread[1], np.log(mass))
print("bioassay posterior", " ".join(f"{v:.6g}" for v in exact))
for what, ours, theirs, margin in zip(("mean of a", "sd of a", "mean of b", "sd of b", "evidence"), lines["posterior"],
                                      exact, (.05 * spread[0], .1 * spread[0], .05 * spread[1], .1 * spread[1], .05)):
    agree(f"bioassay posterior, {what}", ours, theirs, margin)

print("\n".join(failures) or "agree")
sys.exit(1 if failures else 0)
