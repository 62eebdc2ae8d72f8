#include "lakebound/estimate/monte_carlo.hpp"

#include <algorithm>
#include <array>
#include <atomic>
#include <bit>
#include <exception>
#include <mutex>
#include <numbers>
#include <optional>

#include <boost/random/sobol.hpp>

#include "lakebound/estimate/probability.hpp"
#include "lakebound/quantity/portable.hpp"

namespace lakebound {
namespace {

constexpr std::size_t block_rows = 256;    ///< rows of ten inputs that fit the first cache
constexpr std::size_t chunk_draws = 16384; ///< draws that share one random stream
constexpr std::size_t designed_parts = 16; ///< independent parts of a stratified or Sobol drawing
constexpr std::size_t most_draws = 100'000'000;

/// How many draws, and in which independent parts each with its own stream.
struct Plan {
    std::size_t draws = 0, part = 0;
    std::size_t parts() const { return (draws + part - 1) / part; }
    std::size_t begin(std::size_t i) const { return i * part; }
    std::size_t end(std::size_t i) const { return std::min(draws, (i + 1) * part); }
};

Plan plan(const MonteCarloOptions& options) {
    if (options.draws < 2 || options.draws > most_draws)
        throw DomainError("number of draws", std::to_string(options.draws), "2 to 100000000");
    if (options.drawing == Drawing::independent) return {options.draws, chunk_draws};
    std::size_t part = std::max<std::size_t>((options.draws + designed_parts - 1) / designed_parts, 2);
    if (options.drawing != Drawing::stratified) part = std::bit_ceil(part);
    return {part * designed_parts, part};
}

bool is_normal(Shape shape) { return shape == Shape::normal || shape == Shape::lognormal; }

/// Fills rows of standard variates (normal z for normal and lognormal, uniform p for the others; all
/// normal when directed), which `to_inputs` then turns into inputs.
class Source {
public:
    Source(std::span<const UncertainInput> inputs, const MonteCarloOptions& options, std::size_t rows,
           const RandomEngine& engine)
        : inputs_(inputs), drawing_(options.drawing), rows_(rows), engine_(engine) {
        if (drawing_ == Drawing::stratified) {
            strata_.resize(inputs.size());
            for (auto& order : strata_) {
                order.resize(rows);
                for (std::size_t i = 0; i < rows; ++i)
                    order[i] = static_cast<std::uint32_t>(i);
                for (std::size_t i = rows - 1; i > 0; --i)
                    std::swap(order[i], order[below(i + 1)]);
            }
        } else if (drawing_ != Drawing::independent) {
            sobol_.emplace(inputs.size());
            shift_.resize(inputs.size());
            for (auto& word : shift_)
                word = engine_();
            points_.resize(inputs.size() * block_rows);
        }
    }

    /// Rows first..first+count of this part, asked for in order. Column j lies at column[j * block_rows].
    void fill(std::size_t first, std::size_t count, std::span<double> columns) {
        if (sobol_) next_points(first, count);
        for (std::size_t j = 0; j < inputs_.size(); ++j) {
            const Shape shape = inputs_[j].distribution.shape;
            if (shape == Shape::exact) continue;
            const auto column = columns.subspan(j * block_rows, count);
            const bool normal = is_normal(shape) || drawing_ == Drawing::directed;
            if (drawing_ == Drawing::independent) {
                if (normal)
                    fill_standard_normal(engine_, column);
                else
                    for (double& p : column)
                        p = uniform(engine_);
                continue;
            }
            for (std::size_t i = 0; i < count; ++i)
                column[i] = designed(j, first, i);
            if (normal)
                for (double& p : column)
                    p = standard_normal_quantile(p);
        }
    }

private:
    std::size_t below(std::size_t n) {
        // Rejection keeps every order equally likely.
        const std::uint64_t bound = n, reject = (0 - bound) % bound;
        for (;;)
            if (const std::uint64_t r = engine_(); r >= reject) return static_cast<std::size_t>(r % bound);
    }
    double designed(std::size_t j, std::size_t first, std::size_t i) {
        if (sobol_) return uniform_from_bits(points_[i * inputs_.size() + j] ^ shift_[j]);
        const double p = (strata_[j][first + i] + uniform(engine_)) / static_cast<double>(rows_);
        return std::min(p, 1.0 - 0x1p-53); // the division may round up to 1
    }
    void next_points(std::size_t first, std::size_t count) {
        for (std::size_t i = 0; i < count; ++i)
            for (std::size_t j = 0; j < inputs_.size(); ++j)
                // Boost leaves out the origin; without it the strata of 2^m points are not filled evenly.
                points_[i * inputs_.size() + j] = first + i == 0 ? 0 : (*sobol_)();
    }

    std::span<const UncertainInput> inputs_;
    Drawing drawing_;
    std::size_t rows_;
    RandomEngine engine_;
    std::optional<boost::random::sobol_engine<std::uint64_t, 64>> sobol_;
    std::vector<std::vector<std::uint32_t>> strata_;
    std::vector<std::uint64_t> shift_, points_;
};

/// y <- m exp(s y) over a whole column, in a loop the compiler can put two or more abreast. Ours, so
/// that it is the same on every machine; relative error below 1e-15. |s y| below 700.
void scaled_exponential(double m, double s, std::span<double> column) {
    constexpr double nearest = 0x1.8p52; // adding it leaves the nearest whole number in the low bits
    constexpr double ln2_high = 0x1.62e42fefa38p-1, ln2_low = 0x1.ef35793c7673p-45;
    for (double& y : column) {
        const double x = s * y, shifted = x * std::numbers::log2e + nearest, k = shifted - nearest;
        const double r = (x - k * ln2_high) - k * ln2_low; // within ln2 / 2: Taylor to the 13th power
        double sum = 1.0 / 6227020800.0;
        sum = sum * r + 1.0 / 479001600.0;
        sum = sum * r + 1.0 / 39916800.0;
        sum = sum * r + 1.0 / 3628800.0;
        sum = sum * r + 1.0 / 362880.0;
        sum = sum * r + 1.0 / 40320.0;
        sum = sum * r + 1.0 / 5040.0;
        sum = sum * r + 1.0 / 720.0;
        sum = sum * r + 1.0 / 120.0;
        sum = sum * r + 1.0 / 24.0;
        sum = sum * r + 1.0 / 6.0;
        sum = sum * r + 0.5;
        sum = sum * r * r + r;
        const auto power = detail::bits_as<double>((detail::bits_as<std::uint64_t>(shifted) + 1023) << 52);
        y = m * (power + power * sum);
    }
}
constexpr double widest_lognormal = 60.0; ///< ln-sd with which no draw can leave |s y| < 700

class Drawer {
public:
    Drawer(detail::BlockModel model, std::size_t outputs, std::span<const UncertainInput> inputs,
           const MonteCarloOptions& options)
        : model_(model), outputs_(outputs), inputs_(inputs), options_(options), plan_(plan(options)) {
        check();
        if (options.correlation.size() != 0 && !options.correlation.independent())
            factor_ = options.correlation.factor();
        if (options.drawing == Drawing::directed) find_direction();
        values_.assign(outputs, std::vector<double>(plan_.draws));
        refusals_.resize(plan_.parts());
        streams_.reserve(plan_.parts());
        RandomEngine engine(options.seed);
        for (std::size_t i = 0; i < plan_.parts(); ++i, engine.jump())
            streams_.push_back(engine);
    }

    MonteCarloDraws run() {
        const auto workers = static_cast<unsigned>(
            std::clamp<std::size_t>(options_.threads, 1, std::min<std::size_t>(plan_.parts(), 64)));
        const auto work = [this] {
            try {
                for (std::size_t part; (part = next_++) < plan_.parts();)
                    draw_part(part);
            } catch (...) {
                const std::lock_guard guard(fault_guard_);
                if (!fault_) fault_ = std::current_exception();
                next_ = plan_.parts();
            }
        };
        {
            detail::JoinedThreads others;
            try {
                for (unsigned i = 1; i < workers; ++i)
                    others.start(work);
            } catch (const std::exception&) {
                // No thread, or no memory for one, to be had: those that started, and this one, do all of it.
            }
            work();
        }
        if (fault_) std::rethrow_exception(fault_);
        return collect();
    }

private:
    void check() const {
        if (outputs_ == 0) throw DomainError("number of outputs", "0", "1 or more");
        if (inputs_.empty()) throw DomainError("number of inputs", "0", "1 or more");
        const auto& r = options_.correlation;
        if (r.size() != 0 && r.size() != inputs_.size())
            throw DomainError("size of the correlation matrix", std::to_string(r.size()),
                              std::to_string(inputs_.size()) + ", the number of inputs");
        for (std::size_t i = 0; i < inputs_.size(); ++i) {
            const auto& d = inputs_[i].distribution;
            if (!std::isfinite(d.location) || !(d.scale >= 0.0 && std::isfinite(d.scale)))
                throw DomainError(inputs_[i].name, "not a finite number, or its uncertainty is not",
                                  "finite, uncertainty 0 or more");
            if (r.size() != 0 && r.correlated(i) && d.shape != Shape::normal && d.shape != Shape::lognormal)
                throw DomainError("shape of the correlated input " + inputs_[i].name,
                                  "neither normal nor lognormal", "normal or lognormal");
        }
    }

    bool uncertain(std::size_t j) const { return inputs_[j].distribution.shape != Shape::exact; }

    /// The mirror (Householder) that takes the first uncertain axis onto the gradient of output 0.
    void find_direction() {
        // A tenth of a standard deviation to each side: wide against rounding, narrow against curvature.
        constexpr double reach = 0.1;
        const std::size_t n = inputs_.size();
        std::vector<double> columns(n * block_rows), in(n * block_rows), out(outputs_ * block_rows), d(n);
        std::size_t first = n;
        for (std::size_t j = 0; j < n; ++j) {
            if (!uncertain(j)) continue;
            first = std::min(first, j);
            std::fill(columns.begin(), columns.end(), 0.0);
            for (std::size_t i = 0; i < 2; ++i)
                for (std::size_t k = 0; k < n; ++k)
                    columns[k * block_rows + i] = (i == 0 ? reach : -reach) *
                                                  (factor_.empty() ? (k == j ? 1.0 : 0.0) : factor_[k * n + j]);
            back_to_uniform(columns, 2);
            for (std::size_t k = 0; k < n; ++k)
                to_inputs(k, std::span(columns).subspan(k * block_rows, 2), &in[k]);
            detail::Refusals not_counted;
            model_(std::span(in).first(2 * n), std::span(out).first(2 * outputs_), not_counted);
            const double slope = out[0] - out[outputs_];
            d[j] = std::isfinite(slope) ? slope : 0.0;
        }
        double length = 0.0;
        for (const double x : d)
            length = std::hypot(length, x);
        if (!(length > 0.0 && std::isfinite(length))) return; // flat: plain Sobol points
        for (double& x : d)
            x /= length;
        if (d[first] > 0.0) // the farther of the two mirrors has no cancellation
            for (double& x : d)
                x = -x;
        d[first] -= 1.0;
        double square = 0.0;
        for (const double x : d)
            square += x * x;
        for (double& x : d)
            x *= std::sqrt(2.0 / square);
        mirror_ = std::move(d);
    }

    void turn(std::span<double> columns, std::size_t count) const {
        std::array<double, block_rows> dot{};
        for (std::size_t j = 0; j < mirror_.size(); ++j)
            if (mirror_[j] != 0.0)
                for (std::size_t i = 0; i < count; ++i)
                    dot[i] += mirror_[j] * columns[j * block_rows + i];
        for (std::size_t j = 0; j < mirror_.size(); ++j)
            if (mirror_[j] != 0.0)
                for (std::size_t i = 0; i < count; ++i)
                    columns[j * block_rows + i] -= mirror_[j] * dot[i];
    }

    void back_to_uniform(std::span<double> columns, std::size_t count) const {
        for (std::size_t j = 0; j < inputs_.size(); ++j)
            if (uncertain(j) && !is_normal(inputs_[j].distribution.shape))
                for (double& z : columns.subspan(j * block_rows, count))
                    z = standard_normal_cdf(z);
    }

    void draw_part(std::size_t part) {
        const std::size_t n = inputs_.size(), begin = plan_.begin(part), rows = plan_.end(part) - begin;
        Source source(inputs_, options_, rows, streams_[part]);
        std::vector<double> columns(n * block_rows), in(n * block_rows), out(outputs_ * block_rows);
        for (std::size_t first = 0; first < rows; first += block_rows) {
            const std::size_t count = std::min(block_rows, rows - first);
            source.fill(first, count, columns);
            if (!mirror_.empty()) turn(columns, count);
            if (!factor_.empty()) correlate(columns, count);
            if (options_.drawing == Drawing::directed) back_to_uniform(columns, count);
            for (std::size_t j = 0; j < n; ++j)
                to_inputs(j, std::span(columns).subspan(j * block_rows, count), &in[j]);
            model_(std::span(in).first(n * count), std::span(out).first(outputs_ * count), refusals_[part]);
            for (std::size_t k = 0; k < outputs_; ++k)
                for (std::size_t i = 0; i < count; ++i)
                    values_[k][begin + first + i] = out[i * outputs_ + k];
        }
    }

    void to_inputs(std::size_t j, std::span<double> column, double* in) const {
        const std::size_t count = column.size();
        const std::size_t n = inputs_.size();
        const Distribution d = inputs_[j].distribution;
        switch (d.shape) {
        case Shape::exact:
            for (std::size_t i = 0; i < count; ++i)
                in[i * n] = d.location;
            break;
        case Shape::normal:
            for (std::size_t i = 0; i < count; ++i)
                in[i * n] = d.location + d.scale * column[i];
            break;
        case Shape::lognormal:
            if (d.scale <= widest_lognormal)
                scaled_exponential(d.location, d.scale, column);
            else
                for (double& z : column)
                    z = d.location * std::exp(d.scale * z);
            for (std::size_t i = 0; i < count; ++i)
                in[i * n] = column[i];
            break;
        case Shape::rectangular:
            for (std::size_t i = 0; i < count; ++i)
                in[i * n] = d.location + d.scale * (2.0 * column[i] - 1.0);
            break;
        case Shape::arc_sine:
            for (std::size_t i = 0; i < count; ++i)
                in[i * n] = d.location + d.scale * std::sin(std::numbers::pi * (column[i] - 0.5));
            break;
        }
    }

    void correlate(std::span<double> columns, std::size_t count) const {
        const std::size_t n = inputs_.size();
        std::vector<double> z(n);
        for (std::size_t i = 0; i < count; ++i) {
            for (std::size_t j = 0; j < n; ++j)
                z[j] = columns[j * block_rows + i];
            for (std::size_t j = 0; j < n; ++j) {
                if (!options_.correlation.correlated(j)) continue; // may be a uniform p
                double sum = 0.0;
                for (std::size_t k = 0; k < n; ++k)
                    sum += factor_[j * n + k] != 0.0 ? factor_[j * n + k] * z[k] : 0.0;
                columns[j * block_rows + i] = sum;
            }
        }
    }

    MonteCarloDraws collect() {
        MonteCarloDraws result;
        result.drawing = options_.drawing;
        for (const auto& r : refusals_) {
            if (result.refused == 0) result.first_refusal = r.first;
            result.refused += r.count;
        }
        const double share = static_cast<double>(result.refused) / static_cast<double>(plan_.draws);
        if (share > options_.greatest_refused_share || plan_.draws - result.refused < 2)
            throw DomainError("draws that the model refuses",
                              std::to_string(result.refused) + " of " + std::to_string(plan_.draws),
                              "at most the share allowed", "the first: " + result.first_refusal);
        for (std::size_t part = 0, kept = 0; part < plan_.parts(); ++part) {
            kept += plan_.end(part) - plan_.begin(part) - refusals_[part].count;
            result.parts.push_back(kept);
        }
        if (result.refused > 0)
            for (auto& column : values_)
                column.erase(
                    std::remove_if(column.begin(), column.end(), [](double y) { return std::isnan(y); }),
                    column.end());
        result.outputs = std::move(values_);
        return result;
    }

    detail::BlockModel model_;
    std::size_t outputs_;
    std::span<const UncertainInput> inputs_;
    const MonteCarloOptions& options_;
    Plan plan_;
    std::vector<double> factor_, mirror_;
    std::vector<std::vector<double>> values_;
    std::vector<detail::Refusals> refusals_;
    std::vector<RandomEngine> streams_;
    std::atomic<std::size_t> next_{0};
    std::mutex fault_guard_;
    std::exception_ptr fault_;
};

} // namespace

MonteCarloDraws detail::draw_blocks(BlockModel model, std::size_t outputs,
                                    std::span<const UncertainInput> inputs, const MonteCarloOptions& options) {
    return Drawer(model, outputs, inputs, options).run();
}

} // namespace lakebound
