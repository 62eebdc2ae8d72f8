#pragma once
// The streams of a command, so that tests can run it in process.

#include <iosfwd>

namespace lakebound {

struct Streams {
    std::istream& in;
    std::ostream& out;
    std::ostream& err;
    bool colour = false; ///< out is a terminal that shows colour, and NO_COLOR is not set
    bool progress = false; ///< err is a terminal, on which a line may come and go
};

/// Those of the process.
Streams standard_streams();

} // namespace lakebound
