// The program without its commands: what it is called and says of itself.
#pragma once

#include <string>

namespace CLI {
class App;
}

namespace insideline::cli {

/// Gives `program` its name, its help and its `--version`.
void introduce(CLI::App& program, const std::string& version);

}  // namespace insideline::cli
