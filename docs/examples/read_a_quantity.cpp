// From text to a quantity and back, with faults that say where they are and how to mend them.
// By hand: 1 lb is 453.59237 g (NIST SP 811, appendix B.8); 68 +- 7 g/100g is 0.68 +- 0.07.
// Prints:
//   1 lb is 453.6 g
//   oil absorption 0.68, one standard uncertainty 0.07
//   back to text: 12.5 g
//   12,5 g [number-comma] a decimal has a point, not a comma, got '12,5': write '12.5 g'
//   2.7 g/cm2 [unit-dimension] density must be mass per volume, got '2.7 g/cm2': write '2.7 g/cm3'
//   mass fraction is 1.2; valid: 0 to 1
#include <cstdio>
#include <lakebound/quantity/text.hpp>
using namespace lakebound;

int main() {
    const Mass jar = read<Mass>("1 lb");
    std::printf("1 lb is %.1f g\n", in_grams(jar));

    const Reading rub_out = read_quantity("68 +- 7 g/100g", Dimension::oil_absorption);
    std::printf("oil absorption %.2f, one standard uncertainty %.2f\n", rub_out.value, rub_out.spread);

    std::printf("back to text: %s\n", quantity_text(grams(12.5), "g").c_str());

    for (const char* typed : {"12,5 g", "2.7 g/cm2"}) {
        try {
            const auto density = read<MassDensity>(typed);
            std::printf("never reached: %f\n", density.value());
        } catch (const QuantityTextError& fault) { // a typed text: says which bytes are wrong, and what would do
            std::printf("%s [%s] %s: %s\n", typed, fault.id.c_str(), fault.what(), fault.hint.c_str());
        }
    }
    try {
        const auto binder = MassFraction::of(1.2);
        std::printf("never reached: %f\n", binder.value());
    } catch (const DomainError& fault) { // a value outside the range in which a type or a formula holds
        std::printf("%s\n", fault.what());
    }
}
