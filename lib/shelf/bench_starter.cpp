#include "lakebound/shelf/bench_starter.hpp"

#include <algorithm>
#include <filesystem>

#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/shelf/safe_write.hpp"
#include "lakebound/shelf/typed_quantity.hpp"
#include "lakebound/shelf/typed_text.hpp"

namespace lakebound {

std::string bench_starter(const std::string& steps, const AssumedBench& assumed) {
    std::string scales;
    for (std::size_t at = 0; at <= steps.size();) {
        const std::size_t end = std::min(steps.find(',', at), steps.size());
        const auto step = positive_option<Mass>("--new-bench", std::string(trimmed(steps.substr(at, end - at))));
        const std::string text = number_text(in_grams(step)) + " g";
        scales += "  - {name: scale of " + text + ", step: " + text + "}\n";
        at = end + 1;
    }
    return "kind: bench\nname: My bench\nscales:\n" + scales +
           "# What a scale carries at most may be added: {name: ..., step: 0.1 g, capacity: 2000 g}\n"
           "# Syringes: a list of {name: 10 mL syringe, capacity: 10 mL, step: 0.5 mL}\n"
           "# syringes:\n"
           "# Your dropper, 50 drops weighed in water: 1.95 g are 0.039 mL a drop.\n"
           "# drop: 0.039 mL\n"
           "# What stays on slab, muller and knife, as pigment: weigh the paint that you get off.\n"
           "slab_loss: {fixed: " + number_text(in_grams(assumed.slab_loss)) + " g, share: " +
           number_text(100.0 * assumed.slab_loss_share.value()) + " %}\n"
           "# The error of one weighing that you put up with; powder to keep back for tests; the air you work in.\n"
           "weighing_tolerance: " + number_text(100.0 * assumed.weighing_tolerance.value()) + " %\n"
           "reserve: 0 g\n"
           "humidity: " + number_text(100.0 * assumed.humidity.value()) + " %\n"
           "temperature: " + quantity_text(assumed.temperature, "degC") + "\n";
}

std::string begin_bench_file(const std::string& steps, const AssumedBench& assumed) {
    const std::string path = "bench.yaml";
    std::error_code error;
    if (std::filesystem::exists(path, error))
        throw InputError(command_line_fault("write-exists", path + ": there is a bench here already, and it was left alone",
                                            "it is yours to edit; or move it away first"));
    safe_write(path, bench_starter(steps, assumed));
    return path;
}

} // namespace lakebound
