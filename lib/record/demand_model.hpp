#pragma once
// The quantities of the model as sums of independent normal sources, and the values of what is not normal.

#include <cstddef>
#include <map>
#include <optional>
#include <tuple>
#include <vector>

#include "lakebound/estimate/joint_normal.hpp"
#include "lakebound/estimate/threshold_site.hpp"
#include "lakebound/record/demand_priors.hpp"
#include "lakebound/record/demand_record.hpp"

namespace lakebound {

inline constexpr std::size_t no_quantity = static_cast<std::size_t>(-1);

enum class DemandSource {
    plant,
    jar,
    change,
    hand,
    repeat,
    step,
    medium,
    jar_step,
    lot,
    own_lot,
    chalk_bias,
    rich_step,
    medium_reading,
};
/// Edges of one jar painted as one family: z and z + g, c and c + g.
enum class PaintEdge { flip, flip_rich, critical, critical_rich };

/// y = ln(OA / OA_ref) of a reading.
double log_reading(const DemandRecord& record, const RubOutReading& reading);

/// Where one paint is made: of which jar, after how many changes, as which family, with which lot.
struct PaintPlace {
    std::size_t jar = 0, changes = 0, family = 0;
    std::optional<std::size_t> lot;
};

/// Builds sums; every source that is named in one gets a number, in the order of first mention.
class DemandModel {
public:
    DemandModel(const DemandWorld& world, const DemandRecord& record) : world_(world), record_(record) {}

    /// number: of the reading; one beyond those of the record is a next reading.
    NormalSum rub_out(std::size_t jar, std::size_t changes, std::size_t number);
    NormalSum edge(PaintEdge which, const PaintPlace& place);
    NormalSum medium_reading(std::size_t kind);
    /// d, the powder as oil sees it.
    NormalSum powder(std::size_t jar, std::size_t changes);

    /// Variance of every source so far, at one spread between jars, the step from oil `step_factor` times as wide.
    std::vector<double> variances(double jar_spread, double step_factor, double repeat_spread) const;

private:
    NormalSum demand(std::size_t jar, std::size_t changes);
    void add(NormalSum& sum, DemandSource what, std::size_t a = 0, std::size_t b = 0);
    double variance(DemandSource what, std::size_t a, double jar_spread, double step_factor,
                    double repeat_spread) const;

    const DemandWorld& world_;
    const DemandRecord& record_;
    std::map<std::tuple<DemandSource, std::size_t, std::size_t>, std::size_t> sources_;
};

/// The edges that trials see, with their trials, and those that are asked for, with theirs or without.
struct DemandEdges {
    std::vector<NormalSum> sums;
    std::vector<LogisticTrials> trials;
    std::vector<bool> own; ///< of the jar and kind asked for
    std::size_t flip = no_quantity, rich = no_quantity, critical = no_quantity; ///< asked for
};
DemandEdges demand_edges(DemandModel& model, const DemandWorld& world, const DemandRecord& record,
                         const DemandQuestion& question);

/// A value of the spread between jars, and a kind of maker, each with the logarithm of its share beforehand.
struct JarSpread {
    double spread = 0.0, log_share = 0.0;
};
std::vector<JarSpread> jar_spreads(const DemandPriors& priors);
struct MakerKind {
    bool odd = false;
    double step_factor = 1.0, log_share = 0.0;
};
std::vector<MakerKind> maker_kinds(const DemandPriors& priors);

/// exp of each, scaled to add up to 1.
std::vector<double> shares_of(const std::vector<double>& logarithms);

} // namespace lakebound
