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

/// Standard output goes into a file instead.
class Captured {
 public:
  explicit Captured(const std::filesystem::path& file) : kept_(dup(STDOUT_FILENO)) {
    constexpr mode_t own = 0600;
    const int into = open(file.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, own);
    dup2(into, STDOUT_FILENO);
    close(into);
  }
  ~Captured() {
    dup2(kept_, STDOUT_FILENO);
    close(kept_);
  }
  Captured(const Captured&) = delete;
  Captured& operator=(const Captured&) = delete;

 private:
  int kept_;
};

std::filesystem::path own_file(const std::string& ending) {
  return std::filesystem::temp_directory_path() / ("drill_rules_" + std::to_string(getpid()) + ending);
}

std::string bytes_of(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

/// What is usual in the demo pieces, for --against; made once and thrown away at the end.
class Database {
 public:
  Database() : file_(own_file(".db")) {
    CLI::App program;
    insideline::cli::add_survey_command(program);
    const Captured silence(own_file(".survey"));
    program.parse(Words{file_.string(), "--db", corpus, "survey"});
  }
  ~Database() {
    std::error_code ignored;
    for (const char* ending : {".db", ".db-wal", ".db-shm", ".survey"})
      std::filesystem::remove(own_file(ending), ignored);
  }
  Database(const Database&) = delete;
  Database& operator=(const Database&) = delete;

  [[nodiscard]] std::string file() const { return file_.string(); }

 private:
  std::filesystem::path file_;
};

std::string database() {
  static const Database made;
  return made.file();
}

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
      {"--gaps", {corpus + "/tide-table.musicxml"}},
      {"--solo-changes", {INSIDELINE_TESTS "/cli/data/quay_steps.changes"}},
      {"--range", {"tenor-sax"}},
      {"--rhythm", {"off-beat"}},
      {"--tones-a-bar", {"5"}},
      {"--choruses", {"2"}},
      {"--seed", {"5"}},
      {"--written", {}},
      {"--degrees", {}},
      {"--tempo", {"93"}},
      {"--paper", {"letter"}},
      {"--for", {"tenor-sax"}},
      {"--guide-tones", {"two"}},
      {"--enclose-thirds", {}},
      {"--straight-down", {}},
      {"--against", {database()}},
      {"--ladder", {"together"}},
      {"--count-in", {"two"}},
      {"--click", {}},
      {"--chords", {"comped"}},
      {"--swing", {"2"}},
      {"--wav", {"never_written.wav"}},
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

/// All but --wav, whose sound FluidSynth makes: cli.practice_sound.
Words walked_options() {
  Words options;
  for (const auto& [option, value] : values())
    if (option != "--wav") options.push_back(option);
  return options;
}

struct Outcome {
  std::string sheet;    ///< its bytes
  std::string plan;     ///< what is printed beside it
  std::string refusal;  ///< why the command line is wrong
};

Outcome run(const Words& options, const std::string& ending) {
  const std::filesystem::path sheet = own_file(ending);
  const std::filesystem::path plan = own_file(".plan");
  Words words{"drill", "--changes", corpus + "/lantern-street.changes", "-o", sheet.string()};
  std::ranges::copy(options, std::back_inserter(words));
  std::ranges::reverse(words);
  CLI::App program;
  add_drill_command(program);
  Outcome outcome;
  {
    const Captured captured(plan);
    try {
      program.parse(words);
    } catch (const CLI::ValidationError& error) {
      outcome.refusal = error.what();
    }
  }
  outcome.sheet = bytes_of(sheet);
  outcome.plan = bytes_of(plan);
  std::filesystem::remove(sheet);
  std::filesystem::remove(plan);
  return outcome;
}

/// What an option changes: the sheet; what is usual is told in the plan.
std::string effect_on(const Outcome& outcome, const std::string& option) {
  return option == "--against" ? outcome.sheet + outcome.plan : outcome.sheet;
}

Words others_of(const DrillRule& rule) {
  std::istringstream words{std::string(rule.others)};
  return {std::istream_iterator<std::string>(words), {}};
}

/// What an option asks for beside itself, as far as the table says it; the kind of file is chosen below.
Words needed_by(const std::string& option) {
  for (const DrillRule& rule : drill_rules())
    if (rule.option == option && rule.kind == RuleKind::needs_one && !rule.others.starts_with('.'))
      return with_value(others_of(rule).front());
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
    if (std::ranges::find(given, rule.option) == given.end()) return false;
    const bool has_other = std::ranges::any_of(others_of(rule), [&](const std::string& other) {
      return other == ending || std::ranges::find(given, other) != given.end();
    });
    return has_other == (rule.kind == RuleKind::not_beside);
  });
}

/// A kind of file that none of the options, each for itself, is refused in; .ly first, which shows all that is printed.
std::string ending_for(const Words& options) {
  for (const std::string ending : {".ly", ".mid", ".musicxml"})
    if (std::ranges::none_of(
            options, [&](const std::string& option) { return refused_by_table(command_line({option}), ending); }))
      return ending;
  return ".ly";
}

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
    CHECK(walked.contains(std::string(rule.option.substr(0, rule.option.find('=')))));
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
      const std::string ending = is_ending ? other : ending_for({std::string(rule.option), other});
      const Outcome outcome = run(words, ending);
      CHECK(outcome.refusal.starts_with(std::string(rule.option) + ": "));
      CHECK(outcome.refusal.find(rule.reason) != std::string::npos);
      CHECK(outcome.sheet.empty());
      if (rule.unless.empty()) continue;
      std::ranges::copy(with_value(std::string(rule.unless)), std::back_inserter(words));
      const Outcome allowed = run(words, ending);
      CHECK(allowed.refusal.empty());
      CHECK_FALSE(allowed.sheet.empty());
    }
  }
}

TEST_CASE("alone, every option of drill changes every kind of sheet that does not refuse it") {
  for (const std::string ending : {".musicxml", ".mid", ".ly"})
    for (const std::string& option : walked_options()) {
      if (refused_by_table(command_line({option}), ending)) continue;
      INFO(option << " with " << ending);
      const Outcome with = run(command_line({option}), ending);
      CHECK(with.refusal.empty());
      CHECK_FALSE(with.sheet.empty());
      const bool changes_it = effect_on(with, option) != effect_on(run(needed_by(option), ending), option);
      CHECK(changes_it);
    }
}

TEST_CASE("of two options of drill each changes what the other gives, or the two are refused together") {
  std::map<Words, Outcome> known;
  const auto alone_in = [&](const std::string& option, const std::string& ending) {
    const Words words{option, ending};
    if (!known.contains(words)) known[words] = run(command_line({option}), ending);
    return known[words];
  };
  const Words options = walked_options();
  for (auto one = options.begin(); one != options.end(); ++one)
    for (auto other = std::next(one); other != options.end(); ++other) {
      const Words pair{*one, *other};
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
        const std::string& second = alone == pair[0] ? pair[1] : pair[0];
        if (!needed.empty() && needed.front() == second) continue;
        const bool changes_it = effect_on(outcome, second) != effect_on(alone_in(alone, ending), second);
        INFO(second << " changes what " << alone << " gives");
        CHECK(changes_it);
      }
    }
}
