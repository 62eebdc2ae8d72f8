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

} // namespace lakebound
