#include "lakebound/shelf/domain_fault.hpp"

namespace lakebound {

std::string domain_sentence(const DomainError& error) {
    return error.quantity() + " is " + error.value() + "; it must be " + error.valid();
}

Diagnostic domain_fault(std::string_view path, const DomainError& error) {
    return whole_file_fault("out-of-range", path, domain_sentence(error), error.mend());
}

Diagnostic domain_fault(const Excerpt& at, const DomainError& error) {
    return placed_fault("out-of-range", at, domain_sentence(error), error.mend());
}

} // namespace lakebound
