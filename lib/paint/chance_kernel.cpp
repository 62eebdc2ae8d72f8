#include "lakebound/paint/chance_kernel.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <string>
#include <system_error>
#include <vector>

#include "lakebound/quantity/error.hpp"
#include "lakebound/quantity/portable.hpp"
#include "vector_clones.hpp"
#include "vector_random.hpp"

namespace lakebound {
namespace {

constexpr std::size_t lanes = 8; // of the sums
constexpr std::size_t input_count = 10;
constexpr std::size_t block = 256;   // ten inputs of a block fit the first cache
constexpr std::size_t chunk = 16384; // draws that share their random streams
constexpr std::size_t most_draws = 100'000'000;

/// One input as the loop needs it: location * exp(log_scale z) + scale z, one of the scales being 0.
struct Line {
    double location, scale;
    bool lognormal;
};
using Lines = std::array<Line, input_count>;

Line line_of(const Distribution& d, const char* name) {
    if (!(d.location > 0.0 && std::isfinite(d.location))) throw_out_of_range(name, d.location, "", "above 0");
    if (!(d.scale >= 0.0 && std::isfinite(d.scale)))
        throw_out_of_range((std::string("spread of ") + name).c_str(), d.scale, "", "0 or more");
    switch (d.shape) {
    case Shape::exact:
        return {d.location, 0.0, false};
    case Shape::lognormal:
        if (d.scale > 3.0) throw_out_of_range((std::string("ln-sd of ") + name).c_str(), d.scale, "", "0 to 3");
        return {d.location, d.scale, true};
    case Shape::normal:
        if (d.scale > 0.1 * d.location)
            throw_out_of_range((std::string("spread of ") + name + " over its value").c_str(),
                               d.scale / d.location, "", "0 to 0.1 for a normal input; give it as lognormal");
        return {d.location, d.scale, false};
    case Shape::rectangular:
    case Shape::arc_sine:
        break;
    }
    throw DomainError(name, "rectangular or arc sine", "exact, normal or lognormal",
                      "use the Monte Carlo of the estimate floor");
}

enum : std::size_t { mass, moisture, oil, test_oil, transfer, density, medium, solids, solids_density, index };

Lines lines_of(const PaintInputs& in) {
    return {line_of(in.pigment_mass, "pigment mass"),
            line_of(in.moisture_factor, "moisture factor"),
            line_of(in.oil_absorption, "oil absorption"),
            line_of(in.test_oil_density, "density of the test oil"),
            line_of(in.method_transfer, "method transfer"),
            line_of(in.pigment_density, "pigment density"),
            line_of(in.medium_mass, "medium mass"),
            line_of(in.binder_solids, "binder solids"),
            line_of(in.solids_density, "density of the binder solids"),
            line_of(in.binder_index, "binder index")};
}

enum : std::size_t {
    sum_k,
    sum_k2,
    sum_l,
    sum_l2,
    sum_p,
    sum_p2,
    sum_c,
    sum_c2,
    sum_r,
    sum_r2,
    sum_pc,
    under,
    amber_low,
    green_low,
    green_high,
    amber_high,
    sums
};

/// Sums of one chunk, by lane: added up in one order whatever the vector unit.
struct Sums {
    double s[sums][lanes] = {};
};
/// Values the sums are taken around, so that variances keep their digits.
struct Centre {
    double k, l, p, c, r;
};
struct Limits {
    double amber_low, green_low, green_high, amber_high;
};

struct Block {
    alignas(64) std::uint64_t bits[input_count * block];
    alignas(64) double z[input_count * block];
    alignas(64) double k[block], l[block], p[block], c[block], r[block];
};

LAKEBOUND_INTO_CLONES void to_input(const Line& line, double* __restrict x) {
    if (line.lognormal)
        for (std::size_t i = 0; i < block; ++i)
            x[i] = line.location * detail::vector_exp(line.scale * x[i]);
    else
        for (std::size_t i = 0; i < block; ++i)
            x[i] = line.location + line.scale * x[i];
}

LAKEBOUND_INTO_CLONES void film(const double* __restrict x, double* __restrict k, double* __restrict p,
                                double* __restrict c, double* __restrict r) {
    for (std::size_t i = 0; i < block; ++i) {
        const double m = x[mass * block + i] * x[moisture * block + i];
        const double e = std::min(1.0, x[index * block + i]);
        const double pigment = m / x[density * block + i];
        const double wanted =
            m * x[oil * block + i] * x[transfer * block + i] / (x[test_oil * block + i] * e); // m q/e
        const double binder = x[medium * block + i] * x[solids * block + i] / x[solids_density * block + i];
        const double per_film = 1.0 / (pigment + binder), packed = pigment + wanted;
        k[i] = binder / wanted;
        p[i] = pigment * per_film;
        c[i] = pigment / packed;
        r[i] = packed * per_film;
    }
}

template <std::size_t first, std::size_t second>
LAKEBOUND_INTO_CLONES void add(Sums& sums_of, const double* __restrict x, double centre) {
    for (std::size_t i = 0; i < block; i += lanes)
        for (std::size_t j = 0; j < lanes; ++j) {
            const double d = x[i + j] - centre;
            sums_of.s[first][j] += d;
            sums_of.s[second][j] += d * d;
        }
}

template <std::size_t which, bool below>
LAKEBOUND_INTO_CLONES void count(Sums& sums_of, const double* __restrict k, double limit) {
    for (std::size_t i = 0; i < block; i += lanes)
        for (std::size_t j = 0; j < lanes; ++j)
            sums_of.s[which][j] += (below ? k[i + j] < limit : k[i + j] > limit) ? 1.0 : 0.0;
}

LAKEBOUND_VECTOR_CLONES
void draw_block(detail::LaneStreams& streams, const Lines& lines, Block& b) {
    detail::fill_bits(streams, b.bits, input_count * block);
    detail::bits_to_normals(b.bits, b.z, input_count * block);
    for (std::size_t j = 0; j < input_count; ++j)
        to_input(lines[j], b.z + j * block);
    film(b.z, b.k, b.p, b.c, b.r);
    for (std::size_t i = 0; i < block; ++i)
        b.l[i] = detail::vector_log(b.k[i]);
}

LAKEBOUND_VECTOR_CLONES
void sum_block(const Block& b, const Centre& at, const Limits& w, Sums& s) {
    add<sum_k, sum_k2>(s, b.k, at.k);
    add<sum_l, sum_l2>(s, b.l, at.l);
    add<sum_p, sum_p2>(s, b.p, at.p);
    add<sum_c, sum_c2>(s, b.c, at.c);
    add<sum_r, sum_r2>(s, b.r, at.r);
    for (std::size_t i = 0; i < block; i += lanes)
        for (std::size_t j = 0; j < lanes; ++j)
            s.s[sum_pc][j] += (b.p[i + j] - at.p) * (b.c[i + j] - at.c);
    count<under, true>(s, b.k, 1.0);
    count<amber_low, true>(s, b.k, w.amber_low);
    count<green_low, true>(s, b.k, w.green_low);
    count<green_high, false>(s, b.k, w.green_high);
    count<amber_high, false>(s, b.k, w.amber_high);
}

/// The rest of a block that is not full, one by one.
void sum_rest(const Block& b, std::size_t n, const Centre& at, const Limits& w, Sums& s) {
    for (std::size_t i = 0; i < n; ++i) {
        const std::size_t j = i % lanes;
        const auto moments = [&](std::size_t first, double d) {
            s.s[first][j] += d;
            s.s[first + 1][j] += d * d;
        };
        moments(sum_k, b.k[i] - at.k);
        moments(sum_l, b.l[i] - at.l);
        moments(sum_p, b.p[i] - at.p);
        moments(sum_c, b.c[i] - at.c);
        moments(sum_r, b.r[i] - at.r);
        s.s[sum_pc][j] += (b.p[i] - at.p) * (b.c[i] - at.c);
        s.s[under][j] += b.k[i] < 1.0 ? 1.0 : 0.0;
        s.s[amber_low][j] += b.k[i] < w.amber_low ? 1.0 : 0.0;
        s.s[green_low][j] += b.k[i] < w.green_low ? 1.0 : 0.0;
        s.s[green_high][j] += b.k[i] > w.green_high ? 1.0 : 0.0;
        s.s[amber_high][j] += b.k[i] > w.amber_high ? 1.0 : 0.0;
    }
}

struct Run {
    Lines lines;
    Centre centre{};
    Limits limits{};
    std::size_t draws = 0;
    std::uint64_t seed = 1;

    std::size_t chunks() const { return (draws + chunk - 1) / chunk; }
    void draw_chunk(std::size_t which, Block& b, Sums& s) const {
        // Chunks of one seed, and seeds of one chunk, lie far apart after splitmix64.
        detail::LaneStreams streams(seed * 0xd1342543de82ef95u + which * 0x2545f4914f6cdd1du);
        const std::size_t end = std::min(chunk, draws - which * chunk);
        for (std::size_t first = 0; first < end; first += block) {
            draw_block(streams, lines, b);
            if (end - first >= block)
                sum_block(b, centre, limits, s);
            else
                sum_rest(b, end - first, centre, limits, s);
        }
    }
};

Centre centre_of(const Lines& lines) {
    double x[input_count * block];
    double k[block], p[block], c[block], r[block];
    for (std::size_t j = 0; j < input_count; ++j)
        std::fill_n(x + j * block, block, lines[j].location);
    film(x, k, p, c, r);
    return {k[0], std::log(k[0]), p[0], c[0], r[0]};
}

DrawnMoments moments(double sum, double sum2, double centre, double n) {
    const double shift = sum / n;
    return {centre + shift, std::sqrt(std::max(0.0, (sum2 - n * shift * shift) / (n - 1.0)))};
}

} // namespace

double PaintDraws::standard_error(double share) const noexcept {
    return draws > 0 ? std::sqrt(std::max(0.0, share * (1.0 - share)) / static_cast<double>(draws)) : 0.0;
}

PaintDraws draw_paint(const PaintInputs& inputs, const SufficiencyWindow& window, std::size_t draws,
                      std::uint64_t seed, unsigned threads) {
    if (draws < 2 || draws > most_draws)
        throw DomainError("number of draws", std::to_string(draws), "2 to 100000000");
    if (threads > 64) throw DomainError("number of threads", std::to_string(threads), "0 to 64");
    Run run{lines_of(inputs), {}, {}, draws, seed};
    run.centre = centre_of(run.lines);
    run.limits = {window.amber_low.value(), window.green_low.value(), window.green_high.value(),
                  window.amber_high.value()};
    std::vector<Sums> parts(run.chunks());
    std::atomic<std::size_t> next{0};
    const auto work = [&] {
        Block b; // 50 kB of stack: a helper must not throw, not even for memory
        for (std::size_t i = next++; i < parts.size(); i = next++)
            run.draw_chunk(i, b, parts[i]);
    };
    {
        detail::JoinedThreads helpers;
        for (unsigned i = 1; i < threads && i < parts.size(); ++i) {
            try {
                helpers.start(work);
            } catch (const std::system_error&) {
                break; // the system has no thread to spare: this one does it all
            }
        }
        work();
    }
    double t[sums] = {};
    for (const Sums& part : parts)
        for (std::size_t i = 0; i < sums; ++i)
            for (const double lane : part.s[i])
                t[i] += lane;

    PaintDraws d;
    d.draws = draws;
    const auto n = static_cast<double>(draws);
    const Centre& at = run.centre;
    d.k = moments(t[sum_k], t[sum_k2], at.k, n);
    d.ln_k = moments(t[sum_l], t[sum_l2], at.l, n);
    d.pvc = moments(t[sum_p], t[sum_p2], at.p, n);
    d.cpvc = moments(t[sum_c], t[sum_c2], at.c, n);
    d.reduced_pvc = moments(t[sum_r], t[sum_r2], at.r, n);
    const double spreads = d.pvc.standard_deviation * d.cpvc.standard_deviation;
    if (spreads > 0.0) d.pvc_cpvc_correlation = (t[sum_pc] - t[sum_p] * t[sum_c] / n) / (n - 1.0) / spreads;
    d.underbound = t[under] / n;
    d.below_amber = t[amber_low] / n;
    d.below_green = t[green_low] / n;
    d.above_green = t[green_high] / n;
    d.above_amber = t[amber_high] / n;
    return d;
}

} // namespace lakebound
