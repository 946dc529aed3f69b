#include "reports/assessment/words.hpp"

#include "analyzer/small_letters.hpp"
#include "analyzer/takes/take_verdict.hpp"
#include "reports/assessment/course_words.hpp"
#include "reports/practice_log/words.hpp"
#include "reports/text/display_width.hpp"
#include "reports/text/time_wording.hpp"
#include "reports/text/wording.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace insideline::reports {
namespace {

/// What keeps a take from being ready, apart from its wrong notes.
std::vector<std::string> shortcomings(const TakeVerdict& verdict) {
  std::vector<std::string> items;
  if (!verdict.whole) items.emplace_back("not the whole sheet was played");
  if (!verdict.unbroken) items.emplace_back("it was not played through without a break");
  if (!verdict.as_written) items.emplace_back("too many notes were added");
  if (!verdict.steady) items.emplace_back("the tempo did not hold");
  if (!verdict.even) items.emplace_back("the notes come unevenly");
  return items;
}

std::string verdict_in_words(const AssessmentReport& report, const TakeVerdict& verdict) {
  const std::vector<std::string> missing = shortcomings(verdict);
  if (!missing.empty()) {
    std::string text = fmt::format("Not ready: {}.", listed(missing));
    return text + " " + notes_alone_in_words(verdict.right, report.bound);
  }
  if (verdict.notes != Readiness::ready) return readiness_in_words(verdict.right, report.bound);
  return fmt::format("Ready: surely fewer than one mistake in {} notes, and the whole sheet{}.", report.bound,
                     report.assessment.tempo
                         ? " without a break, in one tempo"
                         : "; as all notes lie exactly on the grid, tempo and evenness are not judged");
}

std::string verdict_sentence(const AssessmentReport& report, const TakeVerdict& verdict) {
  const TakeGroup& all = report.assessment.all;
  std::string text = fmt::format("{} of {} right", all.right.count, counted(all.right.of, "note"));
  if (const std::string mistakes = mistakes_of(all); !mistakes.empty()) text += "; the others: " + mistakes;
  if (report.assessment.added > 0)
    text += fmt::format("; {} added, which {} as well", counted(report.assessment.added, "note"),
                        agreeing(report.assessment.added, "is a mistake", "are mistakes"));
  return text + ". " + verdict_in_words(report, verdict);
}

std::string time_text(const TimeFeel& feel) {
  if (feel.on_beat.notes == 0) return {};
  return fmt::format("Against the beats of the file: {} on a beat, {}.", counted(feel.on_beat.notes, "note"),
                     lateness_in_words(feel.on_beat));
}

std::string trouble_text(const std::vector<TakeGroup>& groups) {
  std::vector<std::string> items;
  for (const TakeGroup& group : groups)
    items.push_back(fmt::format("{}, {} of {} right", group.name, group.right.count, group.right.of));
  return fmt::format("Goes wrong more often than the rest: {}.", fmt::join(items, "; "));
}

/// The bar with most mistakes, else the first place where it broke.
std::string worst_place(const Assessment& assessment) {
  const auto mistakes = [](const TakeGroup& group) { return group.right.of - group.right.count; };
  if (!assessment.bars_to_work_on.empty())
    return std::ranges::max_element(assessment.bars_to_work_on, {}, mistakes)->name;
  if (assessment.interruptions.empty()) return {};
  const Interruption& first = assessment.interruptions.front();
  return "bar " + (first.how == Broken::began_again ? first.bar : first.on_in);
}

std::string next_step(const AssessmentReport& report, const TakeVerdict& verdict) {
  const Assessment& assessment = report.assessment;
  const std::string where = worst_place(assessment);
  const std::string alone = where.empty() ? "" : where + " alone and slowly, then ";
  if (verdict.notes == Readiness::not_ready) return "Next: " + alone + "the sheet again, a good deal slower.";
  if (!verdict.whole) return "Next: " + alone + "the sheet to its end, as slowly as that takes.";
  if (!verdict.unbroken) return "Next: " + alone + "the sheet through without a break, mistakes or not.";
  if (!verdict.as_written) return "Next: the sheet again, with nothing but what is written.";
  if (!verdict.steady)
    return fmt::format("Next: the sheet with a click, at {:.0f}.",
                       std::min(assessment.tempo->start_bpm, assessment.tempo->end_bpm));
  if (!verdict.even) return "Next: the sheet with a click on every eighth, slower.";
  if (verdict.notes == Readiness::unsettled) return "Next: " + alone + "the sheet again at this tempo.";
  return "Next: again on another day; if it is ready then too, a step faster.";
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

std::string notes_alone_in_words(const Share& right, int bound) {
  std::string words = readiness_in_words(right, bound);
  words.front() = small_letter(words.front());
  return "By the notes alone: " + words;
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
  const TakeVerdict verdict = verdict_of(assessment, report.bound, report.bounds);
  std::vector<std::string> sentences = {verdict_sentence(report, verdict)};
  for (const std::string& sentence : course_sentences(report)) sentences.push_back(sentence);
  if (report.from_sound) sentences.push_back(from_sound_in_words(*report.from_sound));
  if (report.time_feel && report.time_feel->on_beat.notes > 0) sentences.push_back(time_text(*report.time_feel));
  if (!assessment.trouble_spots.empty()) sentences.push_back(trouble_text(assessment.trouble_spots));
  sentences.push_back(next_step(report, verdict));
  std::erase(sentences, std::string{});
  return sentences;
}

std::vector<GroupTable> group_tables(const Assessment& assessment) {
  const GroupTable all[] = {{"Time after time", &assessment.by_pass},
                            {"By direction of the arpeggio", &assessment.by_direction},
                            {"By its lowest tone", &assessment.by_inversion},
                            {"By its tones", &assessment.by_cell},
                            {"At the change and after it", &assessment.by_place},
                            {"By kind of chord", &assessment.by_quality}};
  std::vector<GroupTable> shown;
  for (const GroupTable& table : all)
    if (table.groups->size() > 1) shown.push_back(table);
  if (!assessment.bars_to_work_on.empty()) shown.push_back({"Bars that need work", &assessment.bars_to_work_on});
  return shown;
}

}  // namespace insideline::reports
