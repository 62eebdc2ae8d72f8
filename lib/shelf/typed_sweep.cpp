#include "lakebound/shelf/typed_sweep.hpp"

#include "lakebound/shelf/typed_text.hpp"

namespace lakebound {

namespace {

/// A bound of the sweep in the words of what is swept.
double sweep_bound(SweepOver over, const std::string& option, const std::string& text) {
    switch (over) {
    case SweepOver::medium:
        return quantity_option<MediumPerPigment>(option, text).value();
    case SweepOver::extender:
        return quantity_option<MassFraction>(option, text).value();
    case SweepOver::size_ratio:
        try {
            return read_number(text);
        } catch (const QuantityTextError& error) {
            throw typed_fault(error.id, option + " \"" + text + "\": " + error.what(),
                              "a size ratio is a plain number: " + option + " 5");
        }
    }
    return 0.0;
}

std::size_t sweep_points(const std::string& text) {
    const bool whole = !text.empty() && text.find_first_not_of("0123456789") == std::string::npos;
    if (!whole)
        throw typed_fault("points-form", "--points \"" + text + "\": expected a whole number", "write --points 50");
    // More digits than any answer has: refused with the others that are too many.
    return text.size() > 9 ? std::size_t{1'000'000'000} : static_cast<std::size_t>(std::stoul(text));
}

} // namespace

SweepWish sweep_wish(const SweepTexts& texts, const PvcSubject& subject) {
    const auto over = value_of_word<SweepOver>(texts.over.value());
    if (!over)
        throw typed_fault("sweep-over", "--sweep \"" + *texts.over + "\": nothing is swept by that name",
                          "write --sweep medium, --sweep extender or --sweep size-ratio");
    auto wish = usual_range(*over, subject);
    if (texts.from) wish.from = sweep_bound(*over, "--from", *texts.from);
    if (texts.to) wish.to = sweep_bound(*over, "--to", *texts.to);
    if (texts.points) wish.points = sweep_points(*texts.points);
    return wish;
}

} // namespace lakebound
