#include "cli/chart_options.hpp"

#include "analyzer/chart_part.hpp"
#include "analyzer/chord_spelling.hpp"
#include "cli/command.hpp"
#include "cli/section_option.hpp"
#include "io/read_result.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <algorithm>
#include <cctype>
#include <cstdlib>
#include <filesystem>
#include <map>
#include <string_view>
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

std::string in_lower_case(std::string_view text) {
  std::string lower(text);
  std::ranges::transform(lower, lower.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return lower;
}

std::string bars_of(const io::ChartSection& section) {
  const std::size_t last = section.first + section.bars;
  return section.bars == 1 ? fmt::format("{}", last) : fmt::format("{}-{}", section.first + 1, last);
}

/// "A (bars 1-8, 9-16 and 25-32) and B (bars 17-24)", for a chart that names sections.
std::string sections_there_are(const std::vector<io::ChartSection>& sections) {
  std::vector<std::pair<std::string, std::string>> named;
  for (const io::ChartSection& section : sections) {
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

/// Those that `asked` means, in order; a name in other letters counts where there is no such name as typed.
std::vector<io::ChartSection> sections_named(const std::vector<io::ChartSection>& sections, std::string_view asked) {
  std::vector<io::ChartSection> exact;
  std::vector<io::ChartSection> alike;
  for (const io::ChartSection& section : sections) {
    if (section.name == asked) exact.push_back(section);
    if (in_lower_case(section.name) == in_lower_case(asked)) alike.push_back(section);
  }
  return exact.empty() ? alike : exact;
}

/// "B" is the first of its name, "last A" the last, "second A" and so on those between.
io::ChartSection section_asked(const io::ChartReading& chart, const std::string& asked, const std::string& file) {
  static constexpr std::array places{std::string_view("first "), std::string_view("second "),
                                     std::string_view("third "), std::string_view("fourth ")};
  if (chart.sections.empty())
    throw io::ReadError(io::place_of(file),
                        "it names no sections, which --section needs; write [A] before a bar line, "
                        "or name the bars, as in --bars 9-16");
  std::vector<io::ChartSection> found = sections_named(chart.sections, asked);
  if (!found.empty()) return found.front();
  const std::string lower = in_lower_case(asked);
  if (lower.starts_with("last ")) found = sections_named(chart.sections, std::string_view(asked).substr(5));
  if (!found.empty()) return found.back();
  for (std::size_t place = 0; place < places.size(); ++place) {
    if (!lower.starts_with(places.at(place))) continue;
    found = sections_named(chart.sections, std::string_view(asked).substr(places.at(place).size()));
    if (place < found.size()) return found[place];
  }
  throw io::ReadError(io::place_of(file), fmt::format("there is no section '{}'; the chart has {}", asked,
                                                      sections_there_are(chart.sections)));
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
    const io::ChartSection section = section_asked(chart, *options.section, file);
    changes = part_of(changes, section.first, section.bars);
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
