#pragma once
// Working: the sums behind a batch, step by step with symbols and numbers, as a worked example shows them.
//
// Every result is the figure of the batch itself; the substituted numbers are rounded to five digits
// for the eye and are not computed with. Formulas are plain ASCII in the trade's units (g, mL, g/mL).

#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/paint/batch.hpp"

namespace LAKEBOUND_EXPORT lakebound {

enum class WorkingTopic { demand, aim, medium, sizing, film, volumes, vessels, weighing, family };

struct WorkingStep {
    WorkingTopic topic{};
    std::string name;        ///< "binder demand of Lake M"
    std::string symbol;      ///< "q"
    std::string formula;     ///< "OA / (100 rho_o)"
    std::string substituted; ///< "68.78 / (100 x 0.93)"; empty when the step only states a figure
    double result = 0.0;     ///< in `unit`
    std::string unit;        ///< "mL/g"; empty for a pure ratio
};

/// The working of a batch made for the request, in the order of the sums.
[[nodiscard]] std::vector<WorkingStep> working(const BatchRequest& request, const Batch& batch);

} // namespace lakebound
