// Size fits of curves read from standard input, for powder_check.py: "model n d1 P1 d2 P2 ..." a line, sizes in um.

#include <iostream>
#include <sstream>
#include <string>

#include "lakebound/particle/size_fit.hpp"

int main() {
    using namespace lakebound;
    std::cout.precision(17);
    for (std::string line; std::getline(std::cin, line);) {
        std::istringstream in(line);
        int model = 0, count = 0;
        in >> model >> count;
        PassingCurve curve;
        for (int i = 0; i < count; ++i) {
            double um = 0, passing = 0;
            in >> um >> passing;
            curve.points.push_back({micrometres(um), MassFraction::of(passing)});
        }
        const auto fit = fit_size(curve, static_cast<SizeModel>(model));
        std::cout << in_micrometres(fit.size) << ' ' << fit.slope << ' ' << fit.passing_deviation << '\n';
    }
}
