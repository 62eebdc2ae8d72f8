#pragma once
// A paint as it is typed, put together step by step; each step asks for the one thing it misses.

#include <optional>
#include <string>
#include <vector>

#include "lakebound/material/jar.hpp"
#include "lakebound/material/moisture.hpp"
#include "lakebound/shelf/jar_record.hpp"
#include "lakebound/shelf/weigh_sheet_file.hpp"
#include "lakebound/shelf/typed_paint.hpp"
#include "lakebound/shelf/typed_text.hpp"

namespace lakebound {

struct TypedPigment {
    Pigment pigment;
    TypedAmount amount;
    bool oil_absorption_known = false, density_known = false;
    bool of_shelf = false; ///< its figures belong to a moisture that the shelf or the jar knows
};

class TypedPaint {
public:
    TypedPaint(const PaintTexts& texts, Library& library);

    PvcQuestion by_recipe(const std::string& recipe, const StandardInput& standard_input);
    PvcQuestion by_weigh_sheet(WeighedPaint paint);
    PvcQuestion typed();
    /// What the record of the jar says, once it was taken up.
    const std::optional<JarOutlook>& outlook() const noexcept { return outlook_; }

private:
    // Pigments.
    /// What the library expects of this pigment before its own reading; empty for one without a kind.
    std::optional<Estimate<OilAbsorption>> expected_oil_absorption(const TypedPigment& typed);
    /// Lays what was typed of a pigment over what is known of it.
    void overlay(TypedPigment& typed, bool only_pigment);
    void set_moisture(TypedPigment& typed, const std::string& text, MeasuredAsItLies own);
    TypedPigment typed_pigment(const Labelled& given, bool only_pigment);
    /// Shares of the pigment mass from shares typed by mass or by volume.
    std::vector<double> shares_of(const std::vector<TypedPigment>& pigments, bool density_known) const;
    /// Masses of pigments typed by mass or by tapped volume.
    std::vector<Mass> masses_of(const std::vector<TypedPigment>& pigments, PvcQuestion& question);
    void set_pigments(PvcQuestion& question);
    /// A label that fits no pigment is a slip of the keys, not a figure to be ignored.
    void check_labels(const Recipe& recipe) const;
    /// --total, or 10 g, which is then only a size to reckon with.
    Mass total(bool& assumed) const;
    // Binder.
    struct TypedBinder {
        Medium medium;
        std::optional<Mass> mass; ///< when it is said
        double spooned = 0.0;     ///< standard deviation of its logarithm where a spoon measured it
    };
    /// The medium of one --binder.
    TypedBinder typed_binder(const std::string& text);
    void set_binder(PvcQuestion& question);
    void set_family(Recipe& recipe);
    Mass used_mass(const PvcQuestion& question) const;
    /// Density of a part of pigment by volume: of tapped powder or of a paste, when known.
    std::optional<MassDensity> part_density(const PvcQuestion& question) const;
    /// Medium per pigment of "1 binder : 2 pigment by volume"; throws InputError parts-order, parts-basis,
    /// parts-form.
    MediumPerPigment medium_of_parts(PvcQuestion& question);
    // All of it.
    void measure_blend(PvcQuestion& question);
    PvcQuestion finish(PvcQuestion question);

    /// Lets the record of the jar judge, unless an oil absorption was typed or a blend was rubbed out.
    void take_up_record(PvcQuestion& question);
    /// The index of the jar's pigment in the recipe. Throws InputError jar-not-used.
    std::size_t jar_part(const Recipe& recipe) const;

    PaintTexts texts_; ///< "jar: 12 um" written out as the jar's pigment
    Library& library_;
    Bench bench_;
    bool bench_assumed_ = false;
    std::optional<Jar> jar_;
    std::optional<RecordedJar> recorded_; ///< the same with its studio, where that has a record
    std::vector<std::string> assumed_;
    std::optional<JarOutlook> outlook_;
    std::string parts_read_; ///< "1 part of binder to 2 parts of pigment, by volume"
};

} // namespace lakebound
