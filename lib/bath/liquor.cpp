#include "lakebound/bath/liquor.hpp"

#include <algorithm>

#include "lakebound/quantity/error.hpp"

namespace lakebound {

Mass dry_plant(Mass fresh, Share dry_share) {
    if (!(in_grams(fresh) >= 0.0)) throw_out_of_range("mass of fresh plant", in_grams(fresh), "g", "0 or more");
    if (!(dry_share.value() > 0.0)) throw_out_of_range("dry share of a fresh plant", dry_share.value(), "", "above 0");
    return fresh * dry_share.value();
}

std::vector<Pull> plan_pulls(Mass dry, Volume water, unsigned pulls, SpecificVolume held) {
    if (pulls < 1 || pulls > 6) throw_out_of_range("number of pulls", pulls, "", "1 to 6");
    const Volume each = water / static_cast<double>(pulls), stays = dry * held;
    if (!(in_grams(dry) > 0.0)) throw_out_of_range("dry mass of the plant", in_grams(dry), "g", "above 0");
    if (!(each > stays))
        throw DomainError("water of the first pull", "less than the plant holds", "more, so that liquor drains off",
                          "take more water, or fewer pulls");
    std::vector<Pull> plan;
    double left = 1.0;
    for (unsigned i = 0; i < pulls; ++i) {
        // The first pull soaks the plant; the others find it soaked and give back all they bring.
        const bool first = i == 0;
        left *= first ? stays / each : stays / (stays + each);
        plan.push_back({each, first ? each - stays : each, Share::of(left)});
    }
    return plan;
}

namespace {

Volume bulk_of_plant(Mass dry, MassDensity plant) {
    if (!(in_kilograms_per_cubic_metre(plant) > 0.0))
        throw_out_of_range("density of the plant", in_grams_per_cubic_centimetre(plant), "g/cm3", "above 0");
    return dry / plant;
}

} // namespace

Volume pot_for(Volume water, Mass dry, MassDensity plant, Share headspace) {
    return (water + bulk_of_plant(dry, plant)) * (1.0 + headspace.value());
}

Volume water_that_fits(Volume pot, Mass dry, MassDensity plant, Share headspace) {
    return std::max(Volume{}, pot / (1.0 + headspace.value()) - bulk_of_plant(dry, plant));
}

} // namespace lakebound
