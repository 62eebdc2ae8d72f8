#pragma once
// A command run in process, with what it printed.

#include <sstream>
#include <string>
#include <vector>

#include "batch.hpp"
#include "pvc.hpp"

namespace lakebound::testing {

struct Run {
    int status = 0;
    std::string out, err;
};

/// command: run_batch, run_sieve ...
template <class Command> Run run_command(Command command, const std::vector<std::string>& arguments,
                                         const std::string& input = {}, bool colour = false) {
    std::istringstream in(input);
    std::ostringstream out, err;
    Streams streams{in, out, err, colour};
    Run run;
    run.status = command(arguments, streams);
    run.out = out.str();
    run.err = err.str();
    return run;
}

inline Run batch(const std::vector<std::string>& arguments, const std::string& input = {},
                 bool colour = false) {
    return run_command(run_batch, arguments, input, colour);
}
inline Run pvc(const std::vector<std::string>& arguments, const std::string& input = {}, bool colour = false) {
    return run_command(run_pvc, arguments, input, colour);
}

inline std::string studio(const std::string& file) {
    return std::string(LAKEBOUND_FORMULATIONS_DIR) + "/studios/reedmere/" + file;
}
inline std::string shipped(const std::string& file) {
    return std::string(LAKEBOUND_FORMULATIONS_DIR) + "/" + file;
}

} // namespace lakebound::testing
