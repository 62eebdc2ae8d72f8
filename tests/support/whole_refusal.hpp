#pragma once
// All that a refusal says, or "taken" where there is none.

#include <string>

#include "lakebound/quantity/error.hpp"

namespace lakebound {

template <class Question> std::string whole_refusal(Question&& question) {
    try {
        question();
    } catch (const DomainError& error) {
        return error.what();
    }
    return "taken";
}

} // namespace lakebound
