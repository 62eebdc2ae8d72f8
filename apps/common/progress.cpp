#include "common/progress.hpp"

#include <algorithm>
#include <cmath>
#include <ostream>
#include <utility>

namespace lakebound {

ProgressLine::ProgressLine(Streams& streams, std::string what)
    : streams_(streams), what_(std::move(what)), start_(std::chrono::steady_clock::now()) {}

ProgressLine::~ProgressLine() {
    if (shown_) streams_.err << "\r\x1b[2K" << std::flush;
}

void ProgressLine::operator()(double share) {
    using namespace std::chrono_literals;
    if (!streams_.progress || std::chrono::steady_clock::now() - start_ < 500ms) return;
    shown_ = true;
    streams_.err << "\r\x1b[2K" << what_ << ", " << std::lround(100.0 * std::clamp(share, 0.0, 1.0)) << " %"
                 << std::flush;
}

} // namespace lakebound
