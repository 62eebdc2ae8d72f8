#include "lakebound/shelf/typed_fineness.hpp"

#include "lakebound/particle/sieve_series.hpp"
#include "lakebound/shelf/typed_quantity.hpp"

namespace lakebound {

Length size_option(const std::string& option, const std::string& text) {
    const auto fault = [&](const std::string& id, const std::string& message, const std::string& hint) {
        return InputError(command_line_fault(id, option + " \"" + text + "\": " + message, hint));
    };
    try {
        return parse_sieve(text).aperture;
    } catch (const QuantityTextError& error) {
        throw fault(error.id, error.what(), error.hint);
    }
}

Length grain_size_option(const std::string& option, const std::string& text) {
    try {
        (void)read<Length>(text);
    } catch (const QuantityTextError& error) {
        // The reader proposes mm for any length, which makes gravel of a pigment.
        if (error.id == "unit-missing")
            throw InputError(command_line_fault(error.id, option + " \"" + text + "\": " + error.what(),
                                                "write the unit as well, for example '" + text + " um'"));
    }
    return positive_option<Length>(option, text);
}

std::optional<FinenessTarget> find_target(const FinenessTexts& texts, Library& library) {
    std::optional<MassFraction> residue;
    if (texts.residue) {
        const auto share = positive_option<Share>("--residue", *texts.residue);
        if (share.value() >= 1.0)
            throw InputError(command_line_fault("out-of-range",
                                                "--residue \"" + *texts.residue + "\": must be below 100 %",
                                                "name the share that may stay on the screen, as in '1 %'"));
        residue = MassFraction::of(share.value());
    }
    if (texts.family) {
        auto target = library.fineness_target(*texts.family);
        if (residue)
            target.allowed_residue =
                Estimate<MassFraction>::exact(*residue, {Origin::estimate, "as asked", false});
        return target;
    }
    if (texts.target)
        return plain_target(size_option("--target", *texts.target), residue.value_or(library.powder_habits().usual_residue.value()),
                            library.powder_habits());
    if (residue)
        throw InputError(command_line_fault("target-missing", "--residue does not say on which screen",
                                            "add --target \"45 um\", or --family with a family of the shelf"));
    return std::nullopt;
}

} // namespace lakebound
