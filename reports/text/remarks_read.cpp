// What was read.
#include "reports/hearing_text.hpp"
#include "reports/reading_words.hpp"
#include "reports/text/display_width.hpp"
#include "reports/text/remarks.hpp"
#include "reports/text/wording.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace insideline::reports {
namespace {

std::string meters_of(const Solo& solo) {
  std::vector<Meter> meters;
  for (const Bar& bar : solo.bars)
    if (std::ranges::find(meters, bar.meter) == meters.end()) meters.push_back(bar.meter);
  std::vector<std::string> names;
  for (const Meter& meter : meters) names.push_back(to_string(meter));
  return listed(names);
}

std::string part_of(const Report& report) {
  if (report.solo.part.empty()) return "the only part";
  const std::string name = printable(report.solo.part);
  switch (report.source.part_choice) {
    case PartChoice::asked_for:
    case PartChoice::only_one: return "part " + name;
    case PartChoice::first_line: return "part " + name + " (the first with a single line; --part takes another)";
    case PartChoice::nearest_line:
      return "part " + name + " (none has a single line, this one comes nearest; --part takes another)";
  }
  return {};
}

std::string key_of(const Report& report) {
  const auto key = key_at(report.solo, Beats(0));
  if (report.source.changes_key) return ", key of " + to_string(*report.source.changes_key);
  return key ? ", key of " + to_string(*key) : "";
}

std::string changes_of(const Source& source) {
  if (source.changes_file == "in score") return "the changes are those in the score";
  if (source.changes_file == "in markers") return "the changes are those in the file's markers";
  if (source.changes_file == "in chord track") return "the changes were worked out from the chord track";
  return "the changes are in " + printable(source.changes_file);
}

/// The settings that differ from what is usual.
std::string hearing_of(const Settings& settings) {
  std::string text;
  if (settings.hearing == Hearing::strict) text += " Every note is heard against the chord of its moment.";
  if (settings.feel == Feel::straight) text += " Eighth notes count as even.";
  return text;
}

std::string by_hand_of(const Report& report) {
  if (report.source.hearing_file.empty()) return {};
  const int count = set_by_hand(report.analysis);
  const std::string file = printable(report.source.hearing_file);
  if (count == 0) return fmt::format("{} sets no reading by hand.", file);
  return fmt::format("{} {} set by hand in {}; the others are heard accordingly.", counted(count, "reading"),
                     agreeing(count, "is", "are"), file);
}

std::string kept_in_words(int kept, int bars) {
  if (kept == 0) return "left out as a count-in";
  if (kept == bars) return "counted";
  const int out = bars - kept;
  return out == 1 ? "counted but for the first" : fmt::format("counted but for the first {}", out);
}

/// Where bar 1 was put, and the next best place.
std::string bar_one_of(const BarOneChoice& choice) {
  const bool one = choice.bars == 1;
  return fmt::format("Bar 1: the {} before the line {} {}{}, which makes {} chord tones; {}, {} would be.",
                     one ? "bar" : fmt::format("{} bars", choice.bars), one ? "is" : "are",
                     kept_in_words(choice.chosen.kept, choice.bars),
                     choice.as_long_as_chart ? ", as long as the chart is" : "",
                     share_text(choice.chosen.chord_tones, "note"), kept_in_words(choice.runner_up.kept, choice.bars),
                     share_text(choice.runner_up.chord_tones));
}

}  // namespace

std::string title_of(const Report& report) {
  if (!report.solo.title.empty()) return printable(report.solo.title);
  if (!report.source.changes_title.empty()) return printable(report.source.changes_title);
  return printable(report.source.solo_file);
}

RemarkSection what_was_read(const Report& report) {
  const Summary& summary = report.analysis.summary;
  const auto bars =
      static_cast<int>(std::ranges::count_if(report.solo.bars, [](const Bar& bar) { return bar.number >= 1; }));
  const bool pickup = std::ranges::any_of(report.solo.bars, [](const Bar& bar) { return bar.number < 1; });
  const std::string extent = report.source.section.empty()
                                 ? counted(report.analysis.harmony.choruses, "chorus", "choruses")
                                 : "only " + report.source.section;
  std::string facts =
      fmt::format("{} of {}{}, {}{}, {}", counted(bars, "bar"), meters_of(report.solo), pickup ? " after a pickup" : "",
                  extent, key_of(report), counted(summary.notes, "note"));
  if (summary.no_chord > 0) facts += fmt::format(" ({} without a chord)", summary.no_chord);
  if (summary.grace_notes > 0) facts += fmt::format(" and {}", counted(summary.grace_notes, "grace note"));
  const std::string origin =
      fmt::format("From {}: {}; {}. {}{}", printable(report.source.solo_file), part_of(report),
                  changes_of(report.source), reading_sentences(report), hearing_of(report.settings));
  RemarkSection section{title_of(report), {facts + ".", origin}};
  if (report.from_sound) section.remarks.emplace_back(from_sound_in_words(*report.from_sound));
  if (const std::string by_hand = by_hand_of(report); !by_hand.empty()) section.remarks.emplace_back(by_hand);
  if (report.alignment && report.alignment->bar_one)
    section.remarks.emplace_back(bar_one_of(*report.alignment->bar_one));
  return section;
}

}  // namespace insideline::reports
