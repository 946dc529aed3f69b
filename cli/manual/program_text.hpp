// What the program says of itself, as plain values: its commands with their options, as the command line knows them.
// Manual pages and completions are made from this, so there is no second list of options.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace insideline::cli {

/// What a shell can offer in the place of a value.
enum class Offer : std::uint8_t { nothing, words, files, folders };

struct OptionText {
  std::vector<std::string> names;  ///< "-o", "--output"; empty for what is given without a name
  std::string value;               ///< what stands for it in the help: "FILE"; empty for a flag
  std::string description;
  std::string group;
  bool required = false;
  bool repeated = false;  ///< may be given several times
  Offer offer = Offer::nothing;
  std::vector<std::string> words;  ///< where those are all there is to choose from
};

struct CommandText {
  std::string name;
  std::string description;
  std::vector<OptionText> given;    ///< without a name, in order
  std::vector<OptionText> options;  ///< those of one group stand together
  std::string footer;               ///< examples, as the help shows them
};

struct ProgramText {
  CommandText itself;
  std::vector<CommandText> commands;
};

ProgramText text_of(const CLI::App& program);

}  // namespace insideline::cli
