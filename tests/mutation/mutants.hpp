#pragma once
// The switch of the mutants: one build holds them all, and LAKEBOUND_MUTANT=<id> turns one of them on.
// mutate.py writes calls of these into a copy of the sources; the library itself never sees this file.
//
//   a < b        becomes   a < lakebound_mutants::Less<7, 8>{} > b
//   a + b        becomes   a + lakebound_mutants::Sum<9>{} + b       the precedence stays as it was
//   0.5          becomes   lakebound_mutants::number<11>(0.5)
//   true         becomes   lakebound_mutants::truth<12>(true)
//
// A mutant of which the compiler can make no sense (a difference of texts, a quotient of another
// dimension) switches nothing and is never announced as known. What is evaluated while compiling
// stays as it was; mutate.py therefore turns constants into variables and uses `at_run_time`.

#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <string>
#include <type_traits>
#include <utility>

namespace lakebound_mutants {

inline constexpr int capacity = 65536;

/// Which mutants exist in this program, and which of them were met; written at the end of the program
/// to the file that LAKEBOUND_MUTANTS_MET names, one line of `id met` for each that exists.
struct Register {
    std::array<unsigned char, capacity> known{}, met{};
    int active = 0;
    Register() {
        if (const char* id = std::getenv("LAKEBOUND_MUTANT")) active = std::atoi(id);
    }
    ~Register() {
        const char* path = std::getenv("LAKEBOUND_MUTANTS_MET");
        if (path == nullptr) return;
        if (std::FILE* file = std::fopen(path, "w")) {
            for (int id = 0; id < capacity; ++id)
                if (known[static_cast<std::size_t>(id)] != 0)
                    std::fprintf(file, "%d %d\n", id, int(met[static_cast<std::size_t>(id)]));
            std::fclose(file);
        }
    }
};
/// Made at the first call: other static objects may be mutated before this file's own would exist.
inline Register& the_register() {
    static Register one;
    return one;
}

template <int id> struct Announced {
    static inline const bool yes = (the_register().known[id] = 1, true);
};

/// Whether the mutant is turned on; not for constant evaluation.
template <int id> bool on() {
    static_cast<void>(&Announced<id>::yes);
    Register& all = the_register();
    all.met[id] = 1;
    return all.active == id;
}
/// The same where a constant may be evaluated: then it is off.
template <int id> constexpr bool lit() {
    if (std::is_constant_evaluated()) return false;
    return on<id>();
}

// Comparisons: `turned` to the opposite side, `limit` with its limit taken in or left out.
template <class A> struct Held {
    const A& a;
};
#define LAKEBOUND_MUTANT_COMPARISON(Name, first, second, turned_op, limit_op)                                  \
    template <int turned, int limit> struct Name {};                                                            \
    template <int turned, int limit, class A> struct Name##Held : Held<A> {};                                   \
    template <int turned, int limit, class A>                                                                   \
    constexpr Name##Held<turned, limit, A> operator first(const A& a, Name<turned, limit>) {                    \
        return {{a}};                                                                                           \
    }                                                                                                           \
    template <int turned, int limit, class A, class B>                                                          \
    constexpr bool operator second(Name##Held<turned, limit, A> held, const B& b) {                             \
        if constexpr (requires { bool(held.a turned_op b); })                                                   \
            if (lit<turned>()) return held.a turned_op b;                                                       \
        if constexpr (limit != 0 && requires { bool(held.a limit_op b); })                                      \
            if (lit<limit>()) return held.a limit_op b;                                                         \
        return held.a first b;                                                                                  \
    }
LAKEBOUND_MUTANT_COMPARISON(Less, <, >, >, <=)
LAKEBOUND_MUTANT_COMPARISON(Greater, >, <, <, >=)
LAKEBOUND_MUTANT_COMPARISON(LessEqual, <=, >=, >=, <)
LAKEBOUND_MUTANT_COMPARISON(GreaterEqual, >=, <=, <=, >)
LAKEBOUND_MUTANT_COMPARISON(Equal, ==, ==, !=, !=)
LAKEBOUND_MUTANT_COMPARISON(Unequal, !=, !=, ==, ==)
#undef LAKEBOUND_MUTANT_COMPARISON

// Sums and products: turned into the other operation where that is of the same type.
#define LAKEBOUND_MUTANT_ARITHMETIC(Name, op, other)                                                           \
    template <int id> struct Name {};                                                                           \
    template <int id, class A> struct Name##Held : Held<A> {};                                                  \
    template <int id, class A> constexpr Name##Held<id, A> operator op(const A& a, Name<id>) {                  \
        return {{a}};                                                                                           \
    }                                                                                                           \
    template <int id, class A, class B>                                                                         \
    constexpr auto operator op(Name##Held<id, A> held, const B& b)->decltype(held.a op b) {                     \
        if constexpr (requires { held.a other b; })                                                             \
            if constexpr (std::is_same_v<decltype(held.a other b), decltype(held.a op b)>)                      \
                if (lit<id>()) return held.a other b;                                                           \
        return held.a op b;                                                                                     \
    }
LAKEBOUND_MUTANT_ARITHMETIC(Sum, +, -)
LAKEBOUND_MUTANT_ARITHMETIC(Difference, -, +)
LAKEBOUND_MUTANT_ARITHMETIC(Product, *, /)
LAKEBOUND_MUTANT_ARITHMETIC(Quotient, /, *)
#undef LAKEBOUND_MUTANT_ARITHMETIC

/// What a constant becomes: a whole number one more; another a quarter more, and a slack a million times more.
template <class T> constexpr T scaled(T value) {
    if constexpr (std::is_integral_v<T>) return static_cast<T>(value + 1);
    if (value == T(0)) return T(1e-3);
    return value * ((value < T(0) ? -value : value) <= T(1e-6) ? T(1e6) : T(1.25));
}
template <int id, class T> constexpr T number(T value) { return lit<id>() ? scaled(value) : value; }
template <int id> constexpr bool truth(bool value) { return lit<id>() ? !value : value; }
/// What is added to or taken from a total, with its sign turned; texts go through untouched.
template <int id, class T> constexpr decltype(auto) addend(T&& value) {
    if constexpr (std::is_floating_point_v<std::remove_cvref_t<T>> ||
                  (std::is_class_v<std::remove_cvref_t<T>> &&
                   requires {
                       { -value } -> std::same_as<std::remove_cvref_t<T>>;
                   })) {
        using Value = std::remove_cvref_t<T>;
        return lit<id>() ? Value(-value) : Value(value);
    } else
        return std::forward<T>(value);
}

/// The same for what would otherwise be a constant of the program.
namespace at_run_time {
template <int id, class T> T number(T value) { return on<id>() ? scaled(value) : value; }
template <int id> bool truth(bool value) { return on<id>() ? !value : value; }
} // namespace at_run_time

} // namespace lakebound_mutants
