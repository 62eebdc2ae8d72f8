#!/usr/bin/env python3
"""Prints the Rosin-Rammler fit of the published ten-point example (brezani-2011) by SciPy.

The figures stand in tests/particle/size_fit_test.cpp. Needs NumPy and SciPy; no test runs this.
"""
import numpy as np
from scipy.optimize import curve_fit

size = np.array([0.08, 0.50, 1.25, 2, 4, 6.3, 8, 12.5, 16, 40])
retained = np.array([95.61, 87.71, 82.45, 79.78, 73.28, 66.98, 63.21, 55.40, 49.91, 23.95]) / 100
best, covariance = curve_fit(lambda d, k, n: np.exp(-((d / k) ** n)), size, retained, p0=(30, 0.5), xtol=1e-14, ftol=1e-14)
print("k, n:", best, "relative standard uncertainties:", np.sqrt(np.diag(covariance)) / best)
