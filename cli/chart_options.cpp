#include "cli/chart_options.hpp"

#include "analyzer/chart_part.hpp"
#include "analyzer/chord_spelling.hpp"
#include "analyzer/model/sections.hpp"
#include "cli/command.hpp"
#include "cli/section_option.hpp"
#include "io/read_result.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <map>
#include <utility>
#include <vector>

namespace insideline::cli {
namespace {

std::string chart_file_name(const std::string& file) { return std::filesystem::path(file).filename().string(); }

std::string not_chart_bars(const std::string& text) {
  const auto bars = parsed_section(text);
  if (bars && bars->kind == SectionKind::bars && bars->first >= 1) return {};
  return "'" + text + "' names no bars of a chart; write them as 9-16 or 9";
}

std::string bars_of(const FormSection& section) {
  const std::size_t last = section.first_bar + section.bars;
  return section.bars == 1 ? fmt::format("{}", last) : fmt::format("{}-{}", section.first_bar + 1, last);
}

/// "A (bars 1-8, 9-16 and 25-32) and B (bars 17-24)", for a chart that names sections.
std::string sections_there_are(const std::vector<FormSection>& sections) {
  std::vector<std::pair<std::string, std::string>> named;
  for (const FormSection& section : sections) {
    const auto known = std::ranges::find(named, section.name, &std::pair<std::string, std::string>::first);
    if (known == named.end())
      named.emplace_back(section.name, bars_of(section));
    else
      known->second += ", " + bars_of(section);
  }
  std::string text;
  for (const auto& [name, bars] : named) text += fmt::format("{}{} (bars {})", text.empty() ? "" : ", ", name, bars);
  return text;
}

/// Of several that `asked` may mean the first, so "A" is the first A.
FormSection section_asked(const Changes& changes, const std::string& asked, const std::string& file) {
  const std::vector<FormSection> sections = sections_of(changes);
  if (sections.empty())
    throw io::ReadError(io::place_of(file),
                        "it names no sections, which --section needs; write [A] before a bar line, "
                        "or name the bars, as in --bars 9-16");
  const std::vector<std::size_t> found = sections_named(sections, asked);
  if (!found.empty()) return sections[found.front()];
  throw io::ReadError(io::place_of(file),
                      fmt::format("there is no section '{}'; the chart has {}", asked, sections_there_are(sections)));
}

std::pair<std::size_t, std::size_t> bars_asked(const Changes& changes, const std::string& asked,
                                               const std::string& file) {
  const Section bars = *parsed_section(asked);
  const std::size_t form = changes.bars.size();
  if (static_cast<std::size_t>(bars.last) > form)
    throw io::ReadError(io::place_of(file), fmt::format("--bars {} reaches behind the end; the form has {} bar{}",
                                                        asked, form, form == 1 ? "" : "s"));
  return {static_cast<std::size_t>(bars.first) - 1, static_cast<std::size_t>(bars.last - bars.first) + 1};
}

void take_part(io::ChartReading& chart, const ChartOptions& options, const std::string& file) {
  Changes& changes = chart.changes;
  if (changes.title.empty()) changes.title = std::filesystem::path(file).stem().string();
  if (options.section) {
    const FormSection section = section_asked(changes, *options.section, file);
    changes = part_of(changes, section.first_bar, section.bars);
    changes.title += fmt::format(", section {} (bars {})", section.name, bars_of(section));
  }
  if (options.bars) {
    const auto [first, count] = bars_asked(changes, *options.bars, file);
    changes = part_of(changes, first, count);
    changes.title += fmt::format(", {}", name_of(*parsed_section(*options.bars)));
  }
}

}  // namespace

std::string not_a_tonic(const std::string& text) {
  return parse_note_name(text) ? std::string() : "'" + text + "' is no note; write a tonic such as Ab or F#";
}

Key key_of_chart(const Changes& changes, const std::string& file, const std::string& option) {
  if (changes.key) return *changes.key;
  throw io::ReadError(io::place_of(file),
                      fmt::format("it does not say its key, which {} needs; add a line such as key: Eb", option));
}

Key key_on(const NoteName& tonic, const Key& key, const std::string& file) {
  constexpr int most_signs = 7;
  const int fifths = fifths_of(tonic) - tonic_above_major(key);
  if (std::abs(fifths) <= most_signs) return {fifths, key.minor, key.mode};
  constexpr int keys_there_are = 12;
  const Key other = usual_spelling({fifths % keys_there_are, key.minor, key.mode});
  throw io::ReadError(
      io::place_of(file),
      fmt::format("{} {} needs {} signs, and no key has more than seven; ask for {}, which sounds alike",
                  to_string(tonic), mode_name(key), std::abs(fifths), to_string(tonic_of(other))));
}

io::ChartReading chosen_chart(const ChartOptions& options) {
  io::ChartReading chart = io::read_chart(options.file);
  for (const io::Warning& warning : chart.warnings) print_warning(to_string(warning));
  const std::string file = chart_file_name(options.file);
  take_part(chart, options, file);
  if (options.all_keys && !options.tonic) key_of_chart(chart.changes, file, "--all-keys");
  if (!options.tonic) return chart;
  const Key from = key_of_chart(chart.changes, file, "--key");
  chart.changes = moved_plainly(chart.changes, interval_between(from, key_on(*options.tonic, from, file)));
  return chart;
}

void add_chart_options(CLI::App& command, ChartOptions& options) {
  const std::string group = "What it is played over";
  static const std::map<std::string, KeyOrder> orders{{"fourths", KeyOrder::fourths},
                                                      {"half-steps", KeyOrder::half_steps}};
  command.add_option("--changes", options.file, "The changes to practise over, a .changes file")
      ->required()
      ->option_text("FILE")
      ->group(group);
  command
      .add_option_function<std::string>(
          "--key", [&options](const std::string& name) { options.tonic = parse_note_name(name); },
          "The changes in this key, by its tonic; major stays major and minor minor")
      ->check(CLI::Validator(not_a_tonic, ""))
      ->option_text("TONIC")
      ->group(group);
  command
      .add_option_function<std::string>(
          "--all-keys",
          [&options](const std::string& word) {
            options.all_keys = word.empty() ? KeyOrder::fourths : orders.at(word);
          },
          "One sheet through all twelve keys, from the chart's own or that of --key: round the fourths, or by half "
          "steps")
      ->expected(0, 1)
      ->check(CLI::IsMember({"fourths", "half-steps"}))
      ->option_text("[fourths|half-steps]")
      ->group(group);
  command
      .add_option("--section", options.section,
                  "Only this section of the chart, as in B; `last A` where there are several")
      ->option_text("NAME")
      ->group(group);
  command.add_option("--bars", options.bars, "Only these bars of the form as it is played, as in 9-16")
      ->check(CLI::Validator(not_chart_bars, ""))
      ->option_text("BARS")
      ->group(group);
}

}  // namespace insideline::cli
