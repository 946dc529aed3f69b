#include "cli/drill_aims.hpp"

#include "analyzer/drills/drill_settings.hpp"

#include <CLI/CLI.hpp>

#include <string>
#include <vector>

namespace insideline::cli {

void add_aim_options(CLI::App& command, DrillSettings& settings) {
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
  const std::vector<CLI::Option*> aims{guides, enclosed, down};
  for (CLI::Option* aim : aims) {
    aim->group("What is practised");
    for (const char* figure : {"--common-tones", "--arpeggios", "--inversion", "--from", "--cell"})
      aim->excludes(command.get_option(figure));
    for (CLI::Option* other : aims)
      if (aim != other) aim->excludes(other);
  }
}

void check_aims(const CLI::App& command) {
  if (command.count("--guide-tones") == 0) return;
  if (command.count("--rhythm") > 0)
    throw CLI::ValidationError("--rhythm", "guide tones are long, one a chord in each voice; it goes with other lines");
  if (command.count("--seed") > 0)
    throw CLI::ValidationError("--seed", "guide tones move by the least motion, which leaves no choice");
}

}  // namespace insideline::cli
