#include "reports/html/player_names.hpp"

#include "analyzer/drills/instruments.hpp"
#include "analyzer/model/solo.hpp"
#include "analyzer/reading_pitch.hpp"
#include "reports/text/display_width.hpp"

#include <algorithm>

namespace insideline::reports {
namespace {

constexpr int steps_in_octave = 7;

/// An interval as octaves and an ascending rest of less than one.
struct OctavesAndRest {
  int octaves = 0;
  Interval rest;
};

OctavesAndRest without_octaves(const Interval& by) {
  int octaves = by.semitones / semitones_in_octave;
  if (by.semitones % semitones_in_octave < 0) --octaves;
  return {.octaves = octaves,
          .rest = {by.steps - octaves * steps_in_octave, by.semitones - octaves * semitones_in_octave}};
}

std::optional<Key> key_of(const Report& report) {
  if (report.source.changes_key) return report.source.changes_key;
  return report.solo.bars.empty() ? std::nullopt : key_at(report.solo, report.solo.bars.front().onset);
}

MovedNames moved_names(const Report& report, const Interval& by) {
  const std::optional<Key> key = key_of(report);
  const Interval readable = readable_interval(by, key, report.analysis.harmony);
  const ReadLine line = read_in({.above_sounding = readable, .respelling = Respelling::usual, .key = key}, report.solo,
                                report.analysis.harmony, report.analysis.labels);
  MovedNames names{.by = readable, .chords = {}, .notes = {}};
  for (const SoundingChord& sounding : line.harmony.chords) names.chords.push_back(printable(sounding.chord.symbol));
  for (const Note& note : line.solo.notes) names.notes.push_back(to_string(note.pitch));
  return names;
}

/// The reader of what is `by` above the pitch of the page, its names being made where nobody needed them before.
PageReader reader_of(const Report& report, PlayerNames& names, std::string name, const Interval& by) {
  const OctavesAndRest parts = without_octaves(by);
  PageReader reader{.name = std::move(name), .moved = std::nullopt, .octaves = parts.octaves};
  if (parts.rest == Interval{}) return reader;
  const auto found =
      std::ranges::find(names.moved, parts.rest.semitones, [](const MovedNames& moved) { return moved.by.semitones; });
  reader.moved = static_cast<std::size_t>(found - names.moved.begin());
  if (found == names.moved.end()) names.moved.push_back(moved_names(report, parts.rest));
  return reader;
}

std::string page_reader(const Reading& reading) {
  if (reading.above_sounding == Interval{}) return "concert pitch";
  if (reading.instrument) return std::string(reading.instrument->part);
  return "as it is written";
}

}  // namespace

PlayerNames player_names(const Report& report) {
  const Interval& page = report.reading.above_sounding;
  PlayerNames names;
  names.readers.push_back({.name = page_reader(report.reading), .moved = std::nullopt, .octaves = 0});
  if (!(page == Interval{})) names.readers.push_back(reader_of(report, names, "concert pitch", -page));
  for (const Instrument& instrument : instruments()) {
    const Interval& sounding = instrument.sounding_minus_written;
    const bool is_of_the_page = report.reading.instrument && report.reading.instrument->name == instrument.name;
    if (sounding == Interval{} || is_of_the_page) continue;
    names.readers.push_back(reader_of(report, names, std::string(instrument.part),
                                      {-sounding.steps - page.steps, -sounding.semitones - page.semitones}));
  }
  return names;
}

}  // namespace insideline::reports
