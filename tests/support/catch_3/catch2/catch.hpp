#pragma once
// Catch2 3 under the name and with the words of Catch2 2, which the tests are written in. This folder is searched
// only where version 3 is installed (tests/CMakeLists.txt), so nothing else tells the versions apart.

#include <catch2/catch_all.hpp>

using Catch::Approx;

namespace Catch {
using namespace Matchers;
inline auto Contains(const std::string& part, CaseSensitive sensitive = CaseSensitive::Yes) {
    return Matchers::ContainsSubstring(part, sensitive);
}
} // namespace Catch
