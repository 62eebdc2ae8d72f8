#pragma once
// A command run in process, with what it printed.

#include <sstream>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

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

/// The same with the shipped shelf named, for the commands about powder.
template <class Command>
Run run_on_shelf(Command command, std::vector<std::string> arguments, const std::string& input = {}) {
    arguments.insert(arguments.end(), {"--shelf", std::string(LAKEBOUND_FORMULATIONS_DIR)});
    return run_command(command, arguments, input);
}

inline std::vector<std::string> and_also(std::vector<std::string> arguments,
                                         const std::vector<std::string>& more) {
    arguments.insert(arguments.end(), more.begin(), more.end());
    return arguments;
}

/// Exit 2, nothing on stdout, and the error holds these.
inline void check_refused(const Run& run, const std::string& id, const std::string& hint = {}) {
    using Catch::Contains;
    INFO(run.err);
    CHECK(run.status == 2);
    CHECK(run.out.empty());
    CHECK_THAT(run.err, Contains("error: ") && Contains("[" + id + "]"));
    if (!hint.empty()) CHECK_THAT(run.err, Contains("hint: ") && Contains(hint));
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
