#include "lakebound/bath/formula.hpp"

#include <optional>
#include <string>

#include "lakebound/quantity/error.hpp"
#include "lakebound/quantity/text.hpp"

namespace lakebound {
namespace {

constexpr std::array<std::string_view, element_count> symbols{"H", "C", "N", "O", "Na", "Al", "S", "Cl", "K", "Ca"};

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// Reads one formula from left to right.
class FormulaReader {
public:
    explicit FormulaReader(std::string_view formula) : text_(formula) {}

    Atoms whole() {
        Atoms all = part();
        while (at_ < text_.size()) { // part() stops at a point only
            ++at_;
            const double times = count_before();
            all += times * part();
        }
        return all;
    }

private:
    [[noreturn]] void refuse() const {
        throw DomainError("formula", "\"" + std::string(text_) + "\"",
                          "elements of a bath with their counts, such as KAl(SO4)2.12H2O");
    }
    bool at_point() const { return at_ < text_.size() && text_[at_] == '.'; }

    Atoms part() {
        if (at_ >= text_.size() || at_point()) refuse();
        Atoms all;
        while (at_ < text_.size() && !at_point()) {
            if (text_[at_] == '(') {
                ++at_;
                Atoms inside;
                while (at_ < text_.size() && text_[at_] != ')') inside += element();
                if (at_ >= text_.size()) refuse();
                ++at_;
                all += whole_count() * inside;
            } else {
                all += element();
            }
        }
        return all;
    }
    Atoms element() {
        std::optional<std::size_t> found;
        std::size_t length = 0;
        for (std::size_t i = 0; i < element_count; ++i)
            if (text_.substr(at_, symbols[i].size()) == symbols[i] && symbols[i].size() > length) {
                found = i;
                length = symbols[i].size();
            }
        if (!found) refuse();
        at_ += length;
        Atoms one;
        one.count[*found] = whole_count();
        return one;
    }
    double whole_count() {
        const std::size_t from = at_;
        while (at_ < text_.size() && is_digit(text_[at_])) ++at_;
        return number(from, 1.0);
    }
    /// The count before a water, which may be broken; a point within it is one before a digit after a digit.
    double count_before() {
        const std::size_t from = at_;
        while (at_ < text_.size() && (is_digit(text_[at_]) || (at_point() && at_ > from))) ++at_;
        return number(from, 1.0);
    }
    double number(std::size_t from, double otherwise) const {
        if (at_ == from) return otherwise;
        if (at_ - from > 6) refuse();
        try {
            const double count = read_number(text_.substr(from, at_ - from));
            if (!(count > 0.0)) refuse();
            return count;
        } catch (const QuantityTextError&) {
            refuse();
        }
    }

    std::string_view text_;
    std::size_t at_ = 0;
};

} // namespace

Atoms atoms_of(std::string_view formula) { return FormulaReader(formula).whole(); }

MolarMass molar_mass(const Atoms& atoms) noexcept {
    MolarMass sum{};
    for (std::size_t i = 0; i < element_count; ++i)
        sum += atoms.count[i] * atomic_weight(static_cast<Element>(i));
    return sum;
}

} // namespace lakebound
