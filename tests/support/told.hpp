#pragma once
// What a refusal tells: "quantity: value", or "taken" where there is none.

#include <string>

#include "lakebound/quantity/error.hpp"

namespace lakebound {

template <class Question> std::string told(Question&& question) {
    try {
        question();
    } catch (const DomainError& error) {
        return error.quantity() + ": " + error.value();
    }
    return "taken";
}

/// The same with the range that holds and what mends it: "quantity: value | range | mend".
template <class Question> std::string told_in_full(Question&& question) {
    try {
        question();
    } catch (const DomainError& error) {
        return error.quantity() + ": " + error.value() + " | " + error.valid() + " | " + error.mend();
    }
    return "taken";
}

} // namespace lakebound
