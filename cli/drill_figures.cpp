#include "cli/drill_figures.hpp"

#include "cli/cell_option.hpp"

#include <CLI/CLI.hpp>

#include <map>
#include <string>

namespace insideline::cli {
namespace {

constexpr const char* figure_group = "What is practised";

void add_chord_figures(CLI::App& command, DrillSettings& settings) {
  static const std::map<std::string, Inversion> inversions{{"root", Inversion::root_position},
                                                           {"first", Inversion::first},
                                                           {"second", Inversion::second},
                                                           {"third", Inversion::third}};
  const auto arpeggios = [&settings] { settings.kind = DrillKind::arpeggios; };
  auto* common = command.add_flag_callback(
      "--common-tones", [&settings] { settings.kind = DrillKind::common_tones; },
      "The line of nearest tones, but a tone that both chords have is sounded again");
  auto* way = command.add_option_function<std::string>(
      "--arpeggios",
      [&settings, arpeggios](const std::string& word) {
        arpeggios();
        settings.way = word == "up" ? Way::up : Way::down;
      },
      "Every chord as one arpeggio, all in this direction; down starts from above");
  way->check(CLI::IsMember({"up", "down"}))->option_text("up|down");
  auto* inversion = command.add_option_function<std::string>(
      "--inversion",
      [&settings, arpeggios](const std::string& word) {
        arpeggios();
        settings.every_inversion = word == "every";
        if (word != "every") settings.inversion = inversions.at(word);
      },
      "Every arpeggio in this inversion, named by its lowest tone; `every` takes one after the other, each a chorus");
  inversion->check(CLI::IsMember({"root", "first", "second", "third", "every"}))
      ->option_text("root|first|second|third|every");
  auto* from = command.add_option_function<int>(
      "--from",
      [&settings, arpeggios](int number) {
        arpeggios();
        settings.from_tone = number;
      },
      "Every arpeggio from this tone: 3 is each chord's own third");
  from->check(CLI::IsMember({1, 3, 5, 7}))->option_text("1|3|5|7");
  auto* cell = command.add_option_function<std::string>(
      "--cell",
      [&settings](const std::string& text) {
        std::string ignored;
        settings.kind = DrillKind::cells;
        settings.cells = {*parsed_cell(text, ignored)};
      },
      "These tones of every chord, in this order, as in \"7 3 5\" or 3-5-9");
  cell->check(CLI::Validator(not_a_cell, ""))->option_text("TONES");
  for (CLI::Option* option : {common, way, inversion, from, cell}) option->group(figure_group);
}

/// Guide tones, enclosed thirds, straight down into the next chord.
void add_lines_with_an_aim(CLI::App& command, DrillSettings& settings) {
  auto* guides = command.add_option_function<std::string>(
      "--guide-tones",
      [&settings](const std::string& voices) {
        settings.kind = DrillKind::guide_tones;
        settings.voices = voices == "one" ? 1 : 2;
      },
      "Third and seventh of every chord in long tones, led by the least motion: one voice, or two in turn");
  guides->check(CLI::IsMember({"one", "two"}))->option_text("one|two");
  auto* enclosed = command.add_flag_callback(
      "--enclose-thirds", [&settings] { settings.kind = DrillKind::enclosures; },
      "A line that closes in on the third of each next chord from above and below");
  auto* down = command.add_flag_callback(
      "--straight-down", [&settings] { settings.kind = DrillKind::descents; },
      "Every chord straight down from above, into the nearest tone of the next");
  for (CLI::Option* aim : {guides, enclosed, down}) aim->group(figure_group);
}

}  // namespace

void add_figure_options(CLI::App& command, DrillSettings& settings) {
  add_chord_figures(command, settings);
  add_lines_with_an_aim(command, settings);
}

}  // namespace insideline::cli
