#!/usr/bin/env python3
"""Prints the Rosin-Rammler fit of the published ten-point example (brezani-2011) by SciPy, and of the worked sieve
test by the straight line of NumPy.

The figures stand in tests/particle/size_fit_test.cpp. Needs NumPy and SciPy; no test runs this.
"""
import numpy as np
from scipy.optimize import curve_fit

size = np.array([0.08, 0.50, 1.25, 2, 4, 6.3, 8, 12.5, 16, 40])
retained = np.array([95.61, 87.71, 82.45, 79.78, 73.28, 66.98, 63.21, 55.40, 49.91, 23.95]) / 100
best, covariance = curve_fit(lambda d, k, n: np.exp(-((d / k) ** n)), size, retained, p0=(30, 0.5), xtol=1e-14, ftol=1e-14)
print("k, n:", best, "relative standard uncertainties:", np.sqrt(np.diag(covariance)) / best)

size = np.array([45, 75, 106, 150, 250]) * 1e-6
passing = np.array([4.0, 8.9, 13.6, 17.2, 19.3]) / 19.7
(n, b), covariance = np.polyfit(np.log(size), np.log(-np.log(1 - passing)), 1, cov=True)
to_log_size = np.array([b / n**2, -1 / n])  # ln size = -b / n
u_size, u_slope = np.sqrt(to_log_size @ covariance @ to_log_size), np.sqrt(covariance[0, 0]) / n
print("straight line, u(ln size), u(ln n), correlation:", u_size, u_slope,
      to_log_size @ covariance @ np.array([1 / n, 0]) / (u_size * u_slope))
