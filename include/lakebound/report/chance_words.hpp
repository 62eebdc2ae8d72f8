#pragma once
// How sure the answer is, where the doubt lies, and what to measure next, in words.

#include <string>

#include "lakebound/report/batch_subject.hpp"

namespace lakebound {

/// "oil absorption", "binder solids": what an input of the chance is.
const char* chance_input_words(ChanceInput input) noexcept;
/// "oil_absorption", ...: the same as JSON has it.
const char* chance_input_key(ChanceInput input) noexcept;

/// Chance of k below the holding limit of the family.
Probability chance_of_failing_low(const BatchSubject& subject);

/// The head of the verdict as weighed; what should hold does so "not surely" when the chance of
/// failing low is 10 % or more.
std::string verdict_head(const BatchSubject& subject);

/// "Chance that it is underbound: about 1 chance in 20 (5 %)."
std::string failing_low_text(const BatchSubject& subject);
/// "The oil absorption of Weld lake makes 62 % of the doubt in k."
std::string largest_doubt_text(const BatchSubject& subject);
/// What to measure next, or that nothing needs to be.
std::string next_measurement_text(const BatchSubject& subject);

} // namespace lakebound
