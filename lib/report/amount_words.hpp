#pragma once
// A line of the weigh sheet as amounts of this bench.

#include <string>
#include <vector>

#include "lakebound/paint/bench.hpp"
#include "lakebound/paint/weighing.hpp"

namespace lakebound {

/// Mass to the step of the scale that weighs it, of the stock solution where there is one; "1 drop" of what is
/// counted.
std::string amount_text(const Weighing& weighing, const Bench& bench);
/// "82 g": of the medium that the drops go into.
std::string dropped_into_text(const DropCount& drops);
/// A mass to the step of the coarsest scale that still shows it: for totals and what is left.
std::string total_text(Mass mass, const Bench& bench);
/// "5.5 mL in the 10 mL syringe", "24.0 mL in the 10 mL syringe, 3 fills"; empty without a syringe.
std::string syringe_text(const Weighing& weighing, const Bench& bench);
/// What stands in the table: "Clove oil", or a mixture by what it mostly is: "Ethanol with 0.5 % clove oil".
std::string what_text(const Weighing& weighing);
/// The same inside a sentence; pigments keep their capital.
std::string what_in_sentence(const Weighing& weighing);
/// Remarks on how to weigh it: stock solution, portions, a scale too coarse. May be empty.
std::vector<std::string> weighing_remarks(const Weighing& weighing, const Bench& bench);
/// Where a part stands in the order of work: pigment, working water, additives, medium.
int working_order(SheetPart part) noexcept;
/// The weighings of one part of the slab, but for what is left out.
std::vector<const Weighing*> weighings_of(SheetPart part, const WeighSheet& sheet);

} // namespace lakebound
