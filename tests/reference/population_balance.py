#!/usr/bin/env python3
"""Prints grinding cases solved by SciPy's matrix exponential, for tests/particle/breakage_test.cpp.

`population_balance.py > ../particle/population_balance_cases.inc` writes them anew;
`population_balance.py --check FILE` fails when the file does not hold what SciPy says.
Needs NumPy and SciPy of the archive; exit status 77 without them.
"""
import re
import sys

try:
    import numpy as np
    from scipy.linalg import expm
except ImportError:
    sys.exit(77)


def generator(sizes, a, alpha, phi, gamma, beta):
    x = np.array(sizes, float)
    n = len(x)
    s = a * (x / x[0]) ** alpha
    s[-1] = 0.0
    A = np.diag(-s)
    cumulative = lambda r: phi * r**gamma + (1 - phi) * r**beta
    for j in range(n - 1):
        for i in range(j + 1, n):
            upper = cumulative(x[i] / x[j + 1])
            lower = cumulative(x[i + 1] / x[j + 1]) if i + 1 < n else 0.0
            A[i, j] = s[j] * (upper - lower)
    return A


cases = [
    # sizes um, a per min, alpha, phi, gamma, beta, minutes
    ([250, 150, 106, 75, 45, 25], 0.10, 0.8, 1.0, 0.9, 5.8, 15),
    ([250, 150, 106, 75, 45, 25], 0.10, 0.8, 1.0, 0.9, 5.8, 30),
    ([250, 150, 106, 75, 45, 25], 0.10, 0.8, 1.0, 0.9, 5.8, 60),
    ([500, 250, 125, 63], 0.2, 0.0, 1.0, 1.0, 5.8, 10),  # equal rates: Reid's solution divides by zero
    ([500, 250, 125, 63], 0.2, 1e-9, 0.5, 1.25, 5.8, 10),  # nearly equal
    ([1000 * 2 ** (-k / 2) for k in range(12)], 0.5, 0.8, 0.55, 1.25, 5.8, 20),
    ([1000 * 2 ** (-k / 2) for k in range(12)], 0.5, 3.0, 0.55, 1.25, 5.8, 500),  # stiff
    ([1000 * 2 ** (-k / 2) for k in range(12)], 5.0, 4.5, 1.0, 0.7, 5.8, 20000),  # very stiff
    ([1000, 10], 1e-6, 1.0, 1.0, 1.0, 5.8, 1e-3),  # next to nothing happens
]
lines = ["// Printed by tests/reference/population_balance.py (SciPy expm). Do not edit."]
for sizes, a, alpha, phi, gamma, beta, t in cases:
    n = len(sizes)
    feed = np.array([n - i for i in range(n)], float)
    feed /= feed.sum()
    w = expm(generator(sizes, a, alpha, phi, gamma, beta) * t) @ feed
    row = ", ".join(repr(float(v)) for v in sizes)
    out = ", ".join(repr(float(v)) for v in w)
    lines.append(f"{{{{{row}}}, {a}, {alpha}, {phi}, {gamma}, {beta}, {t}, {{{out}}}}},")

if sys.argv[1:2] == ["--check"]:
    def numbers(text):
        return np.array([float(x) for x in re.findall(r"-?[0-9.]+(?:e[-+]?[0-9]+)?", text)])

    with open(sys.argv[2], encoding="utf-8") as file:
        held = [line for line in file if line.startswith("{{")]
    if len(held) != len(cases):
        sys.exit(f"{len(held)} cases in the file, {len(cases)} expected")
    for number, (mine, theirs) in enumerate(zip(held, lines[1:]), 1):
        # Other versions of SciPy and of its linear algebra may differ in the last digits.
        if not np.allclose(numbers(mine), numbers(theirs), rtol=1e-9, atol=1e-11):
            sys.exit(f"case {number} is not what SciPy says")
else:
    print("\n".join(lines))
