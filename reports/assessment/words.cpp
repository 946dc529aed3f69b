#include "reports/assessment/words.hpp"

#include "analyzer/measures/proportion.hpp"
#include "reports/text/display_width.hpp"
#include "reports/text/time_wording.hpp"
#include "reports/text/wording.hpp"

#include <fmt/format.h>

namespace insideline::reports {
namespace {

std::string whole_percent(double share) { return fmt::format("{:.0f} %", 100.0 * share); }

std::string verdict(const AssessmentReport& report) {
  const TakeGroup& all = report.assessment.all;
  std::string text = fmt::format("{} right. ", share_text(all.right, "note"));
  if (const auto range = wilson_interval(all.right); range && all.right.of < 100)
    text += fmt::format("So few notes leave room: anything from {} to {} fits. ", whole_percent(range->low),
                        whole_percent(range->high));
  text += rung_in_words(rung_of(all.right, report.ladder), report.ladder);
  if (const std::string mistakes = mistakes_of(all); !mistakes.empty())
    text += fmt::format(" Of the others: {}.", mistakes);
  return text;
}

std::string extras(const Assessment& assessment) {
  std::vector<std::string> items;
  if (assessment.added > 0) items.push_back(counted(assessment.added, "note") + " added");
  if (assessment.restarts == 1) items.emplace_back("once broken off and begun again");
  if (assessment.restarts > 1) items.push_back(fmt::format("{} times broken off and begun again", assessment.restarts));
  if (assessment.passes > 1) items.push_back(fmt::format("played through {} times", assessment.passes));
  return items.empty() ? "" : "Besides: " + listed(items) + ".";
}

std::string evenness_text(const Evenness& evenness) {
  constexpr double even_percent = 5.0;
  constexpr double uneven_percent = 12.0;
  const std::string_view word = evenness.spread_percent < even_percent     ? "Even"
                                : evenness.spread_percent < uneven_percent ? "Fairly even"
                                                                           : "Uneven";
  return fmt::format(
      "{}: at {:.0f} quarter notes a minute the right notes stray {:.0f} ms from their places ({:.0f} % of a "
      "beat).",
      word, evenness.tempo_bpm, evenness.spread_ms, evenness.spread_percent);
}

std::string time_text(const TimeFeel& feel) {
  std::string text;
  if (feel.swing) text += swing_in_words(*feel.swing) + " ";
  if (feel.on_beat.notes > 0)
    text += fmt::format("{} on a beat: {}.", counted(feel.on_beat.notes, "note"), lateness_in_words(feel.on_beat));
  return text;
}

std::string breakdown_text(const std::vector<TakeGroup>& groups) {
  std::vector<std::string> items;
  for (const TakeGroup& group : groups)
    items.push_back(
        fmt::format("{}: {} of {} ({})", group.name, group.right.count, group.right.of, mistakes_of(group)));
  return "It breaks down here: " + listed(items) + ".";
}

std::string next_step(const AssessmentReport& report) {
  const Assessment& assessment = report.assessment;
  const std::string where = assessment.breakdowns.empty() ? "" : assessment.breakdowns.front().name;
  switch (rung_of(assessment.all.right, report.ladder)) {
    case Rung::not_yet:
      return where.empty() ? "Next: slower, until nine of ten are right."
                           : fmt::format("Next: {} alone and slowly, then the sheet again at half the tempo.", where);
    case Rung::coming:
      return where.empty() ? "Next: the same tempo again, and a step slower where it stumbles."
                           : fmt::format("Next: {} alone a few times, then the sheet again at this tempo.", where);
    case Rung::ready: return "Next: once more at this tempo; if it holds, one step faster.";
    case Rung::secure: return "Next: a step faster, or the same in another key or rhythm.";
  }
  return {};
}

}  // namespace

std::string rung_in_words(Rung rung, const Ladder& ladder) {
  switch (rung) {
    case Rung::not_yet:
      return fmt::format("The fingers do not have it yet (below {}).", whole_percent(ladder.not_ready));
    case Rung::coming:
      return fmt::format("It is coming, but not ready ({} to {}).", whole_percent(ladder.not_ready),
                         whole_percent(ladder.ready));
    case Rung::ready: return fmt::format("It is ready ({} and more).", whole_percent(ladder.ready));
    case Rung::secure: return fmt::format("It is secure ({} and more).", whole_percent(ladder.secure));
  }
  return {};
}

std::string tempo_advice(const AssessmentReport& report) {
  if (report.takes.empty()) return {};
  switch (next_tempo(report.takes, report.ladder)) {
    case NextTempo::slower: return "The log says: a step slower.";
    case NextTempo::same: return "The log says: stay at this tempo until it is ready on two different days.";
    case NextTempo::faster: return "The log says: ready on two different days, so a step faster.";
  }
  return {};
}

std::string mistakes_of(const TakeGroup& group) {
  std::vector<std::string> items;
  if (group.wrong > 0) items.push_back(fmt::format("{} wrong", group.wrong));
  if (group.octave_slips > 0) items.push_back(fmt::format("{} an octave off", group.octave_slips));
  if (group.missing > 0) items.push_back(fmt::format("{} missing", group.missing));
  return listed(items);
}

std::vector<std::string> assessment_sentences(const AssessmentReport& report) {
  const Assessment& assessment = report.assessment;
  std::vector<std::string> sentences = {verdict(report)};
  if (const std::string more = extras(assessment); !more.empty()) sentences.push_back(more);
  if (assessment.evenness) sentences.push_back(evenness_text(*assessment.evenness));
  if (report.time_feel) sentences.push_back(time_text(*report.time_feel));
  if (!assessment.breakdowns.empty()) sentences.push_back(breakdown_text(assessment.breakdowns));
  sentences.push_back(next_step(report));
  return sentences;
}

std::vector<GroupTable> group_tables(const Assessment& assessment) {
  const GroupTable all[] = {{"Time after time", &assessment.by_pass},
                            {"By direction of the arpeggio", &assessment.by_direction},
                            {"By its lowest tone", &assessment.by_inversion},
                            {"By its tones", &assessment.by_cell},
                            {"At the change and after it", &assessment.by_place},
                            {"By kind of chord", &assessment.by_quality},
                            {"By chord", &assessment.by_chord},
                            {"By bar", &assessment.by_bar}};
  std::vector<GroupTable> shown;
  for (const GroupTable& table : all)
    if (table.groups->size() > 1) shown.push_back(table);
  return shown;
}

}  // namespace insideline::reports
