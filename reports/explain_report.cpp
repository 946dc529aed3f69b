#include "reports/explain_report.hpp"

#include "analyzer/metre.hpp"
#include "reports/reading_words.hpp"

#include <ostream>
#include <string>

#include <fmt/format.h>

namespace insideline::reports {
namespace {

constexpr double worth_showing = 0.005;  // less likely readings only fill the page

std::string heard_as(const Report& report, const ExplainedReading& reading) {
  std::string text = fmt::format("{}, {}", to_string(reading.role), to_string(reading.figure));
  if (reading.degree && reading.governor)
    text += fmt::format(" ({} of {})", to_string(*reading.degree),
                        report.analysis.harmony.chords[*reading.governor].chord.symbol);
  if (reading.placement != Placement::in_place) text += fmt::format(", {}", to_string(reading.placement));
  return text;
}

void write_heading(std::ostream& out, const Report& report, std::size_t index) {
  const Note& note = report.solo.notes[index];
  const NoteLabel& label = report.analysis.labels[index];
  const Bar& bar = report.solo.bars[bar_index_at(report.solo, note.onset)];
  const std::string chord = label.chord ? report.analysis.harmony.chords[*label.chord].chord.symbol : "no chord";
  out << fmt::format("bar {}, {}: {} over {} (note {})\n", bar.number, place_in_words(bar, note.onset),
                     to_string(note.pitch), chord, index);
  out << fmt::format("  {}\n", label.reason);
}

/// Nothing that was weighed is ever beyond doubt.
std::string share(double probability) {
  constexpr double hardly_any_doubt = 0.995;
  return probability >= hardly_any_doubt ? "> 99" : fmt::format("{:.0f}", 100.0 * probability);
}

void write_reading(std::ostream& out, const Report& report, const ExplainedReading& reading) {
  out << fmt::format("  {:>4} %  {}\n", share(reading.probability), heard_as(report, reading));
  for (const ExplainedRow& row : reading.rows)
    out << fmt::format("       {:+5.1f}  {}: {}\n", row.value, row.name, row.why);
}

void write_note(std::ostream& out, const Report& report, std::size_t index, const Settings& settings) {
  write_heading(out, report, index);
  Settings weighed_with = settings;
  if (report.analysis.labels[index].pinned) {
    out << "  what the program weighs by itself:\n";
    weighed_with.pins.clear();
  }
  const auto readings =
      explain_note(report.solo, report.analysis.harmony, report.analysis.phrases, index, weighed_with);
  if (readings.size() == 1 && readings.front().rows.empty())
    out << "  a pitch of the sounding chord is a chord tone: nothing to weigh\n";
  else
    for (const ExplainedReading& reading : readings)
      if (reading.probability >= worth_showing) write_reading(out, report, reading);
  out << '\n';
}

}  // namespace

void write_explanation(std::ostream& out, const Report& report, std::span<const std::size_t> notes,
                       const Settings& settings) {
  out << "Each reading with its share, and the scores for (+) and against (-) it.\n"
         "The share is the probability of just this role and figure, as fitted to lines labelled by ear.\n"
         "A score of 1 more makes a reading 2.7 times as likely.\n"
         "Sources: OMT is Open Music Theory (Shaffer, Hughes, Moseley and others), MT21C is Music Theory for the "
         "21st-Century\n"
         "Classroom (Hutchinson), IMT is Integrated Musicianship: Theory (Butterfield), CP is common practice, no "
         "source.\n\n";
  if (report.reading.reader != ReadBy::everybody) out << reading_sentences(report) << "\n\n";
  for (const std::size_t index : notes) write_note(out, report, index, settings);
}

}  // namespace insideline::reports
