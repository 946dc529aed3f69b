#include "reports/assessment/words.hpp"

#include "reports/practice_log/words.hpp"
#include "reports/text/display_width.hpp"
#include "reports/text/time_wording.hpp"
#include "reports/text/wording.hpp"

#include <fmt/format.h>

namespace insideline::reports {
namespace {

std::string verdict(const AssessmentReport& report) {
  const TakeGroup& all = report.assessment.all;
  std::string text = fmt::format("{} of {} right", all.right.count, counted(all.right.of, "note"));
  if (const std::string mistakes = mistakes_of(all); !mistakes.empty()) text += "; the others: " + mistakes;
  return text + ". " + readiness_in_words(all.right, report.bound);
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

std::string trouble_text(const std::vector<TakeGroup>& groups) {
  std::vector<std::string> items;
  for (const TakeGroup& group : groups)
    items.push_back(
        fmt::format("{} with {} of {} right ({})", group.name, group.right.count, group.right.of, mistakes_of(group)));
  return "Trouble spots: " + listed(items) + ".";
}

std::string next_step(const AssessmentReport& report) {
  const Assessment& assessment = report.assessment;
  const std::string where = assessment.trouble_spots.empty() ? "" : assessment.trouble_spots.front().name;
  switch (readiness(assessment.all.right, report.bound)) {
    case Readiness::not_ready:
      return where.empty() ? "Next: the sheet again, a good deal slower."
                           : fmt::format("Next: {} alone and slowly, then the sheet again, a good deal slower.", where);
    case Readiness::unsettled:
      return where.empty() ? "Next: the sheet again at this tempo."
                           : fmt::format("Next: {} alone a few times, then the sheet again at this tempo.", where);
    case Readiness::ready: return "Next: again on another day; if it is ready then too, a step faster.";
  }
  return {};
}

std::string unsettled_in_words(int notes, int bound) {
  const auto ready = most_mistakes_when_ready(notes, bound);
  if (!ready)
    return fmt::format("Not settled: {} {} too few to tell.", counted(notes, "note"), agreeing(notes, "is", "are"));
  const auto not_ready = fewest_mistakes_when_not_ready(notes, bound);
  return fmt::format("Not settled: in {} it takes {} to show that it is ready, and {} to show that it is not.",
                     counted(notes, "note"), at_most_mistakes(*ready),
                     fmt::format("{} or more", not_ready.value_or(notes)));
}

}  // namespace

std::string at_most_mistakes(int mistakes) {
  return mistakes == 0 ? "no mistake at all" : fmt::format("{} or fewer", counted(mistakes, "mistake"));
}

std::string readiness_in_words(const Share& right, int bound) {
  switch (readiness(right, bound)) {
    case Readiness::ready: return fmt::format("Ready: surely fewer than one mistake in {} notes.", bound);
    case Readiness::unsettled: return unsettled_in_words(right.of, bound);
    case Readiness::not_ready: return fmt::format("Not ready: surely one mistake in {} notes, or more.", bound);
  }
  return {};
}

std::string tempo_advice(const AssessmentReport& report) {
  if (report.takes.empty()) return {};
  return advice_in_words(report.takes, next_tempo(report.takes, report.bound));
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
  if (!assessment.trouble_spots.empty()) sentences.push_back(trouble_text(assessment.trouble_spots));
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
