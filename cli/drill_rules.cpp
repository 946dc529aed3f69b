#include "cli/drill_rules.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <algorithm>
#include <array>
#include <cstdint>
#include <filesystem>

namespace insideline::cli {
namespace {

constexpr std::string_view one_thing = "a sheet sets one thing to practise, and that is set already";
constexpr std::string_view whole_bars =
    "only a line has so many tones a bar; a figure has the tones that it is made of";

constexpr std::string_view follows = "what is practised follows from the solo";
constexpr std::string_view no_page = "a MIDI file shows no page; it goes with .musicxml, .pdf or .ly";
constexpr std::string_view nothing_played = "nothing is played; it goes with -o SHEET.mid or --wav";

constexpr std::array rule_table{
    DrillRule{"--common-tones", RuleKind::not_beside,
              "--arpeggios --inversion --from --cell --guide-tones --enclose-thirds --straight-down --like --gaps",
              one_thing},
    DrillRule{"--cell", RuleKind::not_beside,
              "--arpeggios --inversion --from --guide-tones --enclose-thirds --straight-down --like --gaps", one_thing},
    DrillRule{"--guide-tones", RuleKind::not_beside,
              "--arpeggios --inversion --from --enclose-thirds --straight-down --like --gaps", one_thing},
    DrillRule{"--enclose-thirds", RuleKind::not_beside, "--arpeggios --inversion --from --straight-down --like --gaps",
              one_thing},
    DrillRule{"--straight-down", RuleKind::not_beside, "--arpeggios --inversion --from --like --gaps", one_thing},
    DrillRule{"--like", RuleKind::not_beside, "--arpeggios --inversion --from --gaps", follows},
    DrillRule{"--gaps", RuleKind::not_beside, "--arpeggios --inversion --from", follows},
    DrillRule{"--from", RuleKind::not_beside, "--inversion",
              "the inversion says which tone an arpeggio begins on; give one of the two"},
    DrillRule{"--rhythm", RuleKind::not_beside, "--guide-tones",
              "guide tones are long, one a chord in each voice; it goes with other lines"},
    DrillRule{"--seed", RuleKind::not_beside, "--guide-tones",
              "guide tones move by the least motion, which leaves no choice"},
    DrillRule{"--tones-a-bar", RuleKind::not_beside,
              "--arpeggios --inversion --from --cell --guide-tones --enclose-thirds --straight-down --like --gaps",
              whole_bars},
    DrillRule{"--tones-a-bar", RuleKind::not_beside,
              "--rhythm=quarters --rhythm=eighths --rhythm=triplets --rhythm=three-over-four",
              "so few tones are spread over the bar; of the rhythms only off-beat moves them"},
    DrillRule{"--solo-changes", RuleKind::needs_one, "--like --gaps",
              "no solo is heard; it goes with --like or --gaps"},
    DrillRule{"--against", RuleKind::needs_one, "--gaps", "nothing is compared; it goes with --gaps"},
    DrillRule{"--section", RuleKind::not_beside, "--bars", "both say which part of the chart; give one of the two"},
    DrillRule{"--for", RuleKind::not_beside, "--range --written",
              "it says the range of an instrument, and that the sheet is as its player reads it"},
    DrillRule{"--written", RuleKind::needs_one, "--range",
              "the instrument is not known; name it, as in --for tenor-sax, which says both"},
    DrillRule{"--written", RuleKind::not_beside, ".mid", no_page},
    DrillRule{"--degrees", RuleKind::not_beside, ".mid", no_page},
    DrillRule{"--paper", RuleKind::not_beside, ".mid .musicxml",
              "only .pdf and .ly are pages; the paper of a score is chosen where it is printed"},
    DrillRule{"--ladder=apart", RuleKind::needs_one, ".mid",
              "a file for each tempo is a MIDI file; -o names them, as in -o sheet.mid"},
    DrillRule{"--wav", RuleKind::not_beside, "--ladder=apart",
              "it is one file; it goes with --ladder together, or without --ladder"},
    DrillRule{"--ladder", RuleKind::needs_one, ".mid --wav", nothing_played},
    DrillRule{"--count-in", RuleKind::needs_one, ".mid --wav", nothing_played},
    DrillRule{"--click", RuleKind::needs_one, ".mid --wav", nothing_played},
    DrillRule{"--chords", RuleKind::needs_one, ".mid --wav", nothing_played},
    DrillRule{"--swing", RuleKind::needs_one, ".mid --wav", nothing_played},
    DrillRule{"--swing", RuleKind::not_beside, "--rhythm=triplets",
              "triplets divide the beat evenly in three; it goes with eighths"},
    DrillRule{"--swing", RuleKind::not_beside, "--guide-tones",
              "guide tones are long, nothing swings; it goes with eighths or --chords comped", "--chords=comped"},
    DrillRule{"--swing", RuleKind::not_beside, "--rhythm=quarters",
              "nothing stands off the beat; it goes with eighths or --chords comped", "--chords=comped"},
};

bool is_given(const CLI::App& command, std::string_view other, const std::string& ending) {
  if (other.starts_with('.')) return other == ending;
  const std::size_t equals = std::min(other.find('='), other.size());
  const CLI::Option* option = command.get_option_no_throw(std::string(other.substr(0, equals)));
  if (option == nullptr || option->count() == 0) return false;
  return equals == other.size() || option->results().back() == other.substr(equals + 1);
}

/// The first of `others` that the command line has; empty where it has none.
std::string_view first_given(const CLI::App& command, std::string_view others, const std::string& ending) {
  while (!others.empty()) {
    const std::size_t end = std::min(others.find(' '), others.size());
    const std::string_view other = others.substr(0, end);
    if (is_given(command, other, ending)) return other;
    others.remove_prefix(std::min(end + 1, others.size()));
  }
  return {};
}

}  // namespace

std::span<const DrillRule> drill_rules() { return rule_table; }

void check_drill_rules(const CLI::App& command, const std::string& destination) {
  const std::string ending = std::filesystem::path(destination).extension().string();
  for (const DrillRule& rule : rule_table) {
    if (!is_given(command, rule.option, ending)) continue;
    if (!rule.unless.empty() && is_given(command, rule.unless, ending)) continue;
    const std::string_view other = first_given(command, rule.others, ending);
    const bool broken = rule.kind == RuleKind::needs_one ? other.empty() : !other.empty();
    if (!broken) continue;
    const bool names_other = rule.kind == RuleKind::not_beside && other.starts_with('-');
    throw CLI::ValidationError(std::string(rule.option), names_other
                                                             ? fmt::format("not beside {}: {}", other, rule.reason)
                                                             : std::string(rule.reason));
  }
}

}  // namespace insideline::cli
