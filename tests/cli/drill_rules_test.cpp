// Walks over all options of `drill`, alone and in pairs: each has an effect, or is refused with the reason.
#include "cli/drill_rules.hpp"

#include "cli/command.hpp"
#include "tests/support/folders.hpp"

#include <CLI/CLI.hpp>
#include <catch2/catch.hpp>

#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <optional>
#include <set>
#include <sstream>
#include <string>
#include <vector>

using insideline::cli::add_drill_command;
using insideline::cli::drill_rules;
using insideline::cli::DrillRule;
using insideline::cli::RuleKind;

namespace {

using Words = std::vector<std::string>;

const std::string corpus = INSIDELINE_CORPUS;

/// A value of each option that is not what the program does anyway.
const std::map<std::string, Words>& values() {
  static const std::map<std::string, Words> table{
      {"--key", {"A"}},
      {"--all-keys", {}},
      {"--section", {"B"}},
      {"--bars", {"9-12"}},
      {"--common-tones", {}},
      {"--arpeggios", {"down"}},
      {"--inversion", {"first"}},
      {"--from", {"1"}},
      {"--cell", {"3 5"}},
      {"--like", {corpus + "/lantern-street.musicxml"}},
      {"--gaps", {corpus + "/lantern-street.musicxml"}},
      {"--solo-changes", {INSIDELINE_TESTS "/cli/data/quay_steps.changes"}},
      {"--range", {"tenor-sax"}},
      {"--rhythm", {"off-beat"}},
      {"--tones-a-bar", {"3"}},
      {"--choruses", {"2"}},
      {"--seed", {"5"}},
      {"--written", {}},
      {"--degrees", {}},
      {"--tempo", {"93"}},
      {"--paper", {"letter"}},
  };
  return table;
}

Words with_value(const std::string& option) {
  const std::size_t equals = option.find('=');
  if (equals != std::string::npos) return {option};
  Words words{option};
  std::ranges::copy(values().at(option), std::back_inserter(words));
  return words;
}

/// The command line is run with its output on standard output thrown away.
class Silence {
 public:
  Silence() : kept_(dup(STDOUT_FILENO)) {
    const int nothing = open("/dev/null", O_WRONLY | O_CLOEXEC);
    dup2(nothing, STDOUT_FILENO);
    close(nothing);
  }
  ~Silence() {
    dup2(kept_, STDOUT_FILENO);
    close(kept_);
  }
  Silence(const Silence&) = delete;
  Silence& operator=(const Silence&) = delete;

 private:
  int kept_;
};

struct Outcome {
  std::string sheet;    ///< its bytes
  std::string refusal;  ///< why the command line is wrong
};

Outcome run(const Words& options, const std::string& ending) {
  const std::filesystem::path sheet =
      std::filesystem::temp_directory_path() / ("drill_rules_" + std::to_string(getpid()) + ending);
  Words words{"drill", "--changes", corpus + "/lantern-street.changes", "-o", sheet.string()};
  std::ranges::copy(options, std::back_inserter(words));
  std::ranges::reverse(words);
  CLI::App program;
  add_drill_command(program);
  Outcome outcome;
  const Silence silence;
  try {
    program.parse(words);
    std::ifstream file(sheet, std::ios::binary);
    outcome.sheet = std::string(std::istreambuf_iterator<char>(file), {});
  } catch (const CLI::ValidationError& error) {
    outcome.refusal = error.what();
  }
  std::filesystem::remove(sheet);
  return outcome;
}

Words others_of(const DrillRule& rule) {
  std::istringstream words{std::string(rule.others)};
  return {std::istream_iterator<std::string>(words), {}};
}

/// What an option asks for beside itself, as far as the table says it.
Words needed_by(const std::string& option) {
  for (const DrillRule& rule : drill_rules())
    if (rule.option == option && rule.kind == RuleKind::needs_one) return with_value(others_of(rule).front());
  return {};
}

/// The options, each once, with what they need.
Words command_line(const Words& options) {
  Words words;
  std::set<std::string> there(options.begin(), options.end());
  for (const std::string& option : options) {
    const Words needed = needed_by(option);
    if (!needed.empty() && there.insert(needed.front()).second) std::ranges::copy(needed, std::back_inserter(words));
    std::ranges::copy(with_value(option), std::back_inserter(words));
  }
  return words;
}

/// Whether the table refuses the options together, in a file of that kind.
bool refused_by_table(const Words& given, const std::string& ending) {
  return std::ranges::any_of(drill_rules(), [&](const DrillRule& rule) {
    if (rule.kind != RuleKind::not_beside || std::ranges::find(given, rule.option) == given.end()) return false;
    return std::ranges::any_of(others_of(rule), [&](const std::string& other) {
      return other == ending || std::ranges::find(given, other) != given.end();
    });
  });
}

/// .ly shows all that is printed; what is only heard has a table row against it.
std::string ending_for(const Words& options) { return refused_by_table(options, ".ly") ? ".mid" : ".ly"; }

}  // namespace

TEST_CASE("the walk over the options of drill leaves none out") {
  CLI::App program;
  add_drill_command(program);
  std::set<std::string> there_are;
  for (const CLI::Option* option : program.get_subcommand("drill")->get_options())
    for (const std::string& name : option->get_lnames()) there_are.insert("--" + name);
  for (const char* always : {"--help", "--changes", "--output"}) there_are.erase(always);
  std::set<std::string> walked;
  for (const auto& [option, value] : values()) walked.insert(option);
  CHECK(walked == there_are);
  for (const DrillRule& rule : drill_rules()) {
    CHECK(walked.contains(std::string(rule.option)));
    CHECK_FALSE(rule.reason.empty());
    for (const std::string& other : others_of(rule))
      CHECK((other.starts_with('.') || walked.contains(other.substr(0, other.find('=')))));
  }
}

TEST_CASE("every row of the table refuses what it names, and says why") {
  for (const DrillRule& rule : drill_rules()) {
    if (rule.kind == RuleKind::needs_one) {
      CHECK(run(with_value(std::string(rule.option)), ".musicxml").refusal.find(rule.reason) != std::string::npos);
      continue;
    }
    for (const std::string& other : others_of(rule)) {
      INFO(rule.option << " beside " << other);
      const bool is_ending = other.starts_with('.');
      Words words = command_line({std::string(rule.option)});
      if (!is_ending) std::ranges::copy(with_value(other), std::back_inserter(words));
      const Outcome outcome = run(words, is_ending ? other : ".ly");
      CHECK(outcome.refusal.starts_with(std::string(rule.option) + ": "));
      CHECK(outcome.refusal.find(rule.reason) != std::string::npos);
      CHECK(outcome.sheet.empty());
    }
  }
}

TEST_CASE("alone, every option of drill changes every kind of sheet that does not refuse it") {
  for (const std::string ending : {".musicxml", ".mid", ".ly"})
    for (const auto& [option, value] : values()) {
      if (refused_by_table({option}, ending)) continue;
      INFO(option << " with " << ending);
      const Outcome with = run(command_line({option}), ending);
      CHECK(with.refusal.empty());
      CHECK_FALSE(with.sheet.empty());
      const bool changes_it = with.sheet != run(needed_by(option), ending).sheet;
      CHECK(changes_it);
    }
}

TEST_CASE("of two options of drill each changes what the other gives, or the two are refused together") {
  std::map<Words, std::string> sheets;
  const auto sheet_of = [&](const Words& words, const std::string& ending) {
    Words key = words;
    key.push_back(ending);
    const auto known = sheets.find(key);
    if (known != sheets.end()) return known->second;
    return sheets[key] = run(words, ending).sheet;
  };
  for (auto one = values().begin(); one != values().end(); ++one)
    for (auto other = std::next(one); other != values().end(); ++other) {
      const Words pair{one->first, other->first};
      INFO(pair[0] << " and " << pair[1]);
      const std::string ending = ending_for(pair);
      const Words together = command_line(pair);
      const Outcome outcome = run(together, ending);
      if (refused_by_table(together, ending)) {
        CHECK_FALSE(outcome.refusal.empty());
        continue;
      }
      CHECK(outcome.refusal.empty());
      CHECK_FALSE(outcome.sheet.empty());
      for (const std::string& alone : pair) {
        const Words needed = needed_by(alone);
        const std::string& other = alone == pair[0] ? pair[1] : pair[0];
        if (!needed.empty() && needed.front() == other) continue;
        const bool changes_it = outcome.sheet != sheet_of(command_line({alone}), ending);
        INFO(other << " changes what " << alone << " gives");
        CHECK(changes_it);
      }
    }
}
