#include "reports/printed/closing_summary.hpp"

#include "reports/text/wording.hpp"

#include <fmt/format.h>

#include <array>
#include <string_view>
#include <utility>

namespace insideline::reports {
namespace {

void add_notes(const Summary& summary, std::vector<std::string>& paragraphs) {
  if (!ratio(summary.chord_tone_share)) return;
  std::string text = fmt::format("{} {} {} as chord tones", share_text(summary.chord_tone_share, "note"),
                                 agreeing(summary.chord_tone_share.count, "is", "are"), "heard");
  if (ratio(summary.chord_tone_share_on_beat) && ratio(summary.chord_tone_share_off_beat))
    text += fmt::format(": {} on the beat, {} off it", percent(*ratio(summary.chord_tone_share_on_beat)),
                        percent(*ratio(summary.chord_tone_share_off_beat)));
  text += fmt::format(". The others are {}, {} and {}.", counted(summary.tensions, "tension"),
                      counted(summary.non_chord_tones, "non-chord tone"),
                      counted(summary.outside, "note outside", "notes outside"));
  if (ratio(summary.thirds_given) && ratio(summary.sevenths_given))
    text += fmt::format(" Chords that get their third: {}; their seventh: {}.", share_text(summary.thirds_given),
                        share_text(summary.sevenths_given));
  paragraphs.push_back(text);
}

void add_arpeggios(const Summary& summary, std::vector<std::string>& paragraphs) {
  if (summary.arpeggios == 0) return;
  std::vector<std::string> ways;
  for (const auto& [count, way] :
       {std::pair<int, std::string_view>{summary.arpeggios_ascending, "up"}, {summary.arpeggios_descending, "down"}})
    if (count > 0) ways.push_back(fmt::format("{} {}", count, way));
  std::string text =
      fmt::format("{} {} to {}{}.", share_text(summary.arpeggio_share, "note"),
                  agreeing(summary.arpeggio_share.count, "belongs", "belong"), counted(summary.arpeggios, "arpeggio"),
                  ways.empty() ? "" : ", leg by leg " + listed(ways));
  if (summary.straight_descents > 0)
    text += fmt::format(" {} of the legs down {} straight down.", summary.straight_descents,
                        agreeing(summary.straight_descents, "comes", "come"));
  paragraphs.push_back(text);
}

void add_connections(const Summary& summary, std::vector<std::string>& paragraphs) {
  if (summary.connections == 0) return;
  constexpr std::array<std::pair<ConnectionKind, std::string_view>, 5> kinds{{
      {ConnectionKind::common_tone, "on a common tone"},
      {ConnectionKind::half_step, "by half step"},
      {ConnectionKind::whole_step, "by whole step"},
      {ConnectionKind::third, "by a third"},
      {ConnectionKind::leap, "by leap"},
  }};
  std::vector<std::string> ways;
  for (const auto& [kind, way] : kinds) {
    const auto count = summary.connections_by_kind.find(kind);
    if (count != summary.connections_by_kind.end() && count->second > 0)
      ways.push_back(fmt::format("{} {}", count->second, way));
  }
  std::string text = fmt::format("The chord changes {}.", counted(summary.connections, "time"));
  if (!ways.empty()) text += fmt::format(" Connections: {}.", listed(ways));
  if (ratio(summary.nearest_taken_share))
    text += fmt::format(" The line takes the nearest tone of the next chord, or a common one, at {}.",
                        share_text(summary.nearest_taken_share, "connection"));
  const int kept = summary.guide_tones_kept;
  const Share led{summary.guide_tone_resolutions.count - kept, summary.guide_tone_resolutions.of};
  if (led.count > 0) text += fmt::format(" Third and seventh lead to each other at {}.", share_text(led));
  if (kept > 0)
    text += fmt::format(" At {} one note stays and is both.", share_text({kept, summary.guide_tone_resolutions.of}));
  paragraphs.push_back(text);
}

void add_chance(const Summary& summary, std::vector<std::string>& paragraphs) {
  if (!summary.chance.mean) return;
  paragraphs.push_back(
      fmt::format("Is that these changes, or luck? Each note against the chord of its moment, {} of the line fits; "
                  "shifted by whole "
                  "bars, the same changes would fit {} on average.",
                  percent(summary.chance.actual), percent(*summary.chance.mean)));
}

}  // namespace

std::vector<std::string> closing_summary(const Summary& summary) {
  std::vector<std::string> paragraphs;
  add_notes(summary, paragraphs);
  add_arpeggios(summary, paragraphs);
  add_connections(summary, paragraphs);
  add_chance(summary, paragraphs);
  return paragraphs;
}

}  // namespace insideline::reports
