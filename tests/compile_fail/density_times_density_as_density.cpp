// A product of densities is no density.
// expect: conversion from .* requested|no viable conversion
#include "lakebound/quantity/units.hpp"

using namespace lakebound;

void use() {
#ifdef LAKEBOUND_BAD
    const MassDensity d = grams_per_cubic_centimetre(1.9) * grams_per_cubic_centimetre(1.3); // BAD
#else
    const Mass d = grams_per_cubic_centimetre(1.9) * millilitres(1.3);
#endif
}
