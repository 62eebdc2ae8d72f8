#include "lakebound/paint/working.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "support/worked_paints.hpp"

using namespace lakebound;
using namespace worked;

namespace {
const WorkingStep* find(const std::vector<WorkingStep>& steps, const std::string& symbol) {
    const auto it =
        std::find_if(steps.begin(), steps.end(), [&](const WorkingStep& s) { return s.symbol == symbol; });
    return it == steps.end() ? nullptr : &*it;
}

/// Evaluates the substituted text as a pocket calculator would: numbers, + - x /, brackets, ln.
class Calculator {
public:
    explicit Calculator(const std::string& text) : text_(text) {}
    double value() {
        const double x = sum();
        CHECK(at_ == text_.size());
        return x;
    }

private:
    void blanks() {
        while (at_ < text_.size() && text_[at_] == ' ')
            ++at_;
    }
    bool take(const std::string& token) {
        blanks();
        if (text_.compare(at_, token.size(), token) != 0) return false;
        at_ += token.size();
        blanks();
        return true;
    }
    double sum() {
        double x = product();
        for (;;) {
            if (take("+"))
                x += product();
            else if (take("-"))
                x -= product();
            else
                return x;
        }
    }
    double product() {
        double x = factor();
        for (;;) {
            if (take("x"))
                x *= factor();
            else if (take("/"))
                x /= factor();
            else
                return x;
        }
    }
    double factor() {
        if (take("ln(")) {
            const double x = sum();
            CHECK(take(")"));
            return std::log(x);
        }
        if (take("(")) {
            const double x = sum();
            CHECK(take(")"));
            return x;
        }
        std::size_t used = 0;
        const double x = std::stod(text_.substr(at_), &used);
        at_ += used;
        return x;
    }

    const std::string& text_;
    std::size_t at_ = 0;
};

bool rounded_up(const WorkingStep& s) { return s.formula.find("rounded up") != std::string::npos; }
bool whole_ones(const WorkingStep& s) { return s.formula.find("whole ones") != std::string::npos; }
} // namespace

TEST_CASE("every step's numbers give its result on a pocket calculator", "[identity]") {
    for (const Recipe& recipe : {watercolour(), oil_paint(), tempera(), blend()})
        for (const Aim& aim : {Aim(BinderSufficiency::of(1.3)), Aim(ReducedPigmentVolumeConcentration::of(0.8)),
                               Aim(PigmentVolumeConcentration::of(0.3)), Aim(MediumPerPigment::of(2.0))})
            for (const BatchAmount& amount : {BatchAmount(grams(12.3)), BatchAmount(VesselCount{half_pan(), 7})}) {
                BatchRequest r = request(recipe, amount);
                r.aim = aim;
                r.vessel = recipe.family.process == Process::oil ? tube_15() : half_pan();
                for (const WorkingStep& step : working(r, *size_batch(r).batch)) {
                    CHECK_FALSE(step.name.empty());
                    CHECK(std::isfinite(step.result));
                    if (step.substituted.empty()) continue;
                    INFO(step.name << ": " << step.formula << " = " << step.substituted);
                    double x = Calculator(step.substituted).value();
                    if (rounded_up(step)) x = std::ceil(x - 1e-3);
                    if (whole_ones(step)) x = std::floor(x + 1e-3);
                    // Five digits of each number are shown; differences lose one.
                    CHECK(x == Approx(step.result).epsilon(5e-4).margin(1e-9));
                }
            }
}

TEST_CASE("the working of the worked lake", "[reference]") {
    // docs/theory.md: q 0.73957, CPVC 0.41834, v_b 0.26392.
    const BatchRequest r = request(watercolour(), grams(10));
    const auto steps = working(r, *size_batch(r).batch);
    REQUIRE(find(steps, "q"));
    CHECK(find(steps, "q")->result == Approx(0.73957).epsilon(1e-4));
    CHECK(find(steps, "q")->substituted == "68.78 / (100 x 0.93)");
    CHECK(find(steps, "CPVC")->result == Approx(0.41834).epsilon(1e-4));
    CHECK(find(steps, "v_b")->result == Approx(0.26392).epsilon(1e-4));
    CHECK(find(steps, "q_e") == nullptr);
    const BatchRequest t = request(tempera(), grams(10));
    CHECK(find(working(t, *size_batch(t).batch), "q_e") != nullptr);
}

TEST_CASE("The dry binder of a medium is summed over what stays, water left out", "[unit]") {
    const BatchRequest r = request(watercolour(), grams(10));
    const auto steps = working(r, batch_of(r, grams(10)));
    const WorkingStep* v_b = find(steps, "v_b");
    REQUIRE(v_b != nullptr);
    CHECK(std::count(v_b->substituted.begin(), v_b->substituted.end(), '+') == 2);
    CHECK(Calculator(v_b->substituted).value() == Approx(v_b->result).epsilon(1e-3));
    const WorkingStep* rho = find(steps, "rho_m");
    REQUIRE(rho != nullptr);
    CHECK(Calculator(rho->substituted).value() == Approx(rho->result).epsilon(1e-3));
}

TEST_CASE("a bone dry density is shown as weighed, and what additives bind is taken off the medium", "[reference]") {
    BatchRequest r = request(watercolour(), grams(10));
    Pigment& p = r.recipe.pigments[0].pigment;
    CHECK(find(working(r, *size_batch(r).batch), "rho_p") == nullptr);
    p.moisture = exactly(MassFraction::of(0.05));
    CHECK(find(working(r, *size_batch(r).batch), "rho_p") == nullptr); // weighed as it is
    p.density_state = MoistureState::bone_dry;
    const auto steps = working(r, *size_batch(r).batch);
    REQUIRE(find(steps, "rho_p"));
    // By hand: 1/(.95/1.88 + .05/1.000) = 1.80077.
    CHECK(find(steps, "rho_p")->result == Approx(1.80077).epsilon(1e-5));
    CHECK(find(steps, "m_m")->formula == "V_b / v_b");
    CHECK(find(working(r, *size_batch(r).batch), "V_b") != nullptr);
    const BatchRequest waxed = request(oil_paint(), grams(10));
    const auto with_wax = working(waxed, *size_batch(waxed).batch);
    CHECK(find(with_wax, "m_m")->formula == "(V_b - V_additives) / v_b");
    CHECK(Calculator(find(with_wax, "m_m")->substituted).value() == Approx(in_grams(size_batch(waxed).batch->medium)).epsilon(5e-4));
}

TEST_CASE("steps stand where they have something to say", "[unit]") {
    const auto of = [](Recipe recipe, BatchAmount amount, double k) {
        BatchRequest r = request(std::move(recipe), std::move(amount));
        r.aim = BinderSufficiency::of(k);
        return working(r, *size_batch(r).batch);
    };
    const auto has = [](const std::vector<WorkingStep>& steps, const char* symbol) { return find(steps, symbol) != nullptr; };
    // Each pigment of a blend has its own q, numbered from 1; one pigment has no number.
    const auto two = of(blend(), grams(10), 1.4), one = of(watercolour(), grams(10), 1.4);
    REQUIRE(has(two, "q1"));
    REQUIRE(has(two, "q2"));
    CHECK(find(two, "q2")->result == Approx(0.18 / 0.93).epsilon(1e-9)); // the chalk
    CHECK_FALSE(has(one, "q1"));
    // Air only in a film of too little binder: 1 - CPVC/PVC, by hand at k .8 of a CPVC of .41834: PVC .4734.
    const auto lean = of(watercolour(), grams(10), 0.8);
    REQUIRE(has(lean, "p"));
    CHECK(find(lean, "p")->result == Approx(1.0 - 0.41834 / 0.47340).margin(2e-4));
    CHECK_FALSE(has(one, "p"));
    // Water of the room only where gum and glycerol hold it.
    CHECK(has(one, "V_w"));
    CHECK(find(one, "V_cake")->formula == "V_p + V_b + V_w");
    const auto oil = of(oil_paint(), grams(10), 1.35);
    CHECK_FALSE(has(oil, "V_w"));
    CHECK(find(oil, "V_cake")->formula == "V_p + V_b");
    CHECK(std::count(find(oil, "V_cake")->substituted.begin(), find(oil, "V_cake")->substituted.end(), '+') == 1);
    // What the slab keeps, unless it keeps all.
    CHECK(find(one, "m_loss")->result == Approx(0.6 + 0.03 * 10).epsilon(1e-9));
    CHECK_FALSE(has(of(watercolour(), grams(0.5), 1.4), "m_loss"));
    // Vessels asked for are counted in the working of the mass to weigh.
    const auto pans = of(watercolour(), VesselCount{half_pan(), 7}, 1.4);
    REQUIRE(has(pans, "m_p"));
    CHECK_THAT(find(pans, "m_p")->name, Catch::Contains("for 7 x half-pan"));
    // An index of 1 has no q of its own; one below 1 has, and k rests on it.
    CHECK_THAT(find(one, "CPVC")->formula, Catch::Contains("1 + q rho_p"));
    CHECK_THAT(find(of(tempera(), grams(10), 1.1), "CPVC")->formula, Catch::Contains("1 + q_e rho_p"));
}

TEST_CASE("a demand that a record taught is shown with its step", "[reference]") {
    auto r = request(oil_paint(), grams(10));
    for (const double step : {0.9, 1.1}) {
        r.recipe.pigments[0].step_from_oil = step;
        const auto steps = working(r, *size_batch(r).batch);
        const auto* q = find(steps, "q");
        REQUIRE(q);
        CHECK(q->formula == "OA / (100 rho_o) x s");
        // By hand: 68.78/93 mL to a gram, times the step.
        CHECK(q->result == Approx(68.78 / 93 * step).epsilon(1e-3));
        CHECK(Calculator(q->substituted).value() == Approx(q->result).epsilon(1e-3));
    }
    r.recipe.pigments[0].step_from_oil = 1.0;
    const auto plain = working(r, *size_batch(r).batch);
    CHECK(find(plain, "q")->formula == "OA / (100 rho_o)");
}

TEST_CASE("after a shortfall the pigment is that of the vessels that can be filled", "[unit]") {
    auto r = request(watercolour(), VesselCount{half_pan(), 90});
    r.jar = JarOnHand{0, grams(24)};
    const auto answer = size_batch(r);
    REQUIRE(answer.shortfall);
    REQUIRE(answer.batch->filling->vessels < 90);
    const auto steps = working(r, *answer.batch);
    const auto* m = find(steps, "m_p");
    REQUIRE(m);
    CHECK(m->name.find("for " + std::to_string(answer.batch->filling->vessels) + " x ") != std::string::npos);
    r.jar = JarOnHand{0, grams(1.4)}; // not one pan: simply all there is
    const auto least = size_batch(r);
    REQUIRE(least.batch);
    const auto of_least = working(r, *least.batch);
    CHECK(find(of_least, "m_p")->formula == "the amount");
}
