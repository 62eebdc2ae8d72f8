#pragma once
// The streams of a command, so that tests can run it in process.

#include <cstddef>
#include <iosfwd>

#include "lakebound/page/text_writer.hpp"

namespace lakebound {

struct Streams {
    std::istream& in;
    std::ostream& out;
    std::ostream& err;
    bool colour = false; ///< out is a terminal that shows colour, and NO_COLOR is not set
    bool progress = false; ///< err is a terminal, on which a line may come and go
    std::size_t width = page::text_width; ///< columns of a terminal at out
    bool ascii = false;                   ///< the locale is one without UTF-8
    std::size_t error_width = 0;          ///< columns of a terminal at err; 0: none, and lines are left whole
};

/// Those of the process.
Streams standard_streams();

} // namespace lakebound
