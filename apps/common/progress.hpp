#pragma once
// A line on the terminal that says how far a long computation is. Silent in a pipe, and for the first
// half second.

#include <chrono>
#include <string>

#include "common/streams.hpp"

namespace lakebound {

class ProgressLine {
public:
    /// what: "fitting and planning". Nothing is written unless streams.progress is set.
    ProgressLine(Streams& streams, std::string what);
    /// Wipes the line.
    ~ProgressLine();
    ProgressLine(const ProgressLine&) = delete;
    ProgressLine& operator=(const ProgressLine&) = delete;

    /// The share that is done, 0 to 1.
    void operator()(double share);

private:
    Streams& streams_;
    std::string what_;
    std::chrono::steady_clock::time_point start_;
    bool shown_ = false;
};

} // namespace lakebound
