#include <string>
#include <vector>

#include "bath.hpp"

int main(int argc, char** argv) {
    const std::vector<std::string> arguments(argv + (argc > 0 ? 1 : 0), argv + argc);
    auto streams = lakebound::standard_streams();
    return lakebound::run_bath(arguments, streams);
}
