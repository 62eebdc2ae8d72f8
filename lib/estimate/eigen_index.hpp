#pragma once
// Eigen counts with signed numbers, the library with unsigned ones.

#include <cstddef>

#include <Eigen/Core>

namespace lakebound {

inline Eigen::Index index(std::size_t n) { return static_cast<Eigen::Index>(n); }

} // namespace lakebound
