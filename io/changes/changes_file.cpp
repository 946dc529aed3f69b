#include "io/changes/changes_file.hpp"

#include "analyzer/shortened.hpp"
#include "analyzer/small_letters.hpp"
#include "io/changes/chart_headers.hpp"
#include "io/changes/chart_reader.hpp"
#include "io/changes/chart_text.hpp"
#include "io/changes/road_map.hpp"
#include "io/changes/typed_habits.hpp"
#include "io/file_bytes.hpp"
#include "io/read_result.hpp"

#include <algorithm>
#include <array>
#include <iterator>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

namespace insideline::io {
namespace {

constexpr std::size_t largest_file_bytes = 1024UL * 1024UL;

/// The headers, and the other lines in `chords`, with the meters that stand between them.
ChartHeaders take_headers(const ChartText& chart, const std::vector<ChartLine>& lines, std::vector<ChartLine>& chords) {
  ChartHeaders headers;
  for (const ChartLine& line : lines) {
    const bool changes_meter = !chords.empty() && is_header(line) && header_word(line) == "meter";
    if (changes_meter || !is_header(line))
      chords.push_back(line);
    else
      read_header(headers, chart, line);
  }
  return headers;
}

/// Lays the written bars out in the order they are played.
void play_out(Changes& changes, const WrittenBars& written, const std::vector<std::size_t>& order) {
  Beats now;
  for (const std::size_t index : order) {
    const Beats onset = now;
    for (const BarChord& chord : written.chords[index]) {
      changes.spans.push_back({.chord = chord.chord, .onset = now, .duration = chord.duration});
      now += chord.duration;
    }
    FormBar bar{.onset = onset, .length = now - onset, .section = written.marks[index].section};
    bar.starts_section = written.marks[index].starts_section;
    if (written.meters[index] != changes.meter.value_or(Meter{})) bar.meter = written.meters[index];
    changes.bars.push_back(std::move(bar));
  }
}

/// What is usually played once comes again in each chorus of a chart without a form.
void tell_what_comes_again(const ChartText& chart, const WrittenBars& written, std::vector<Warning>& warnings) {
  constexpr std::array played_once = {"intro", "introduction", "coda", "outro", "ending"};
  std::string others;
  const BarMarks* once = nullptr;
  for (const BarMarks& bar : written.marks) {
    if (!bar.starts_section) continue;
    if (std::ranges::find(played_once, in_small_letters(bar.section)) == played_once.end())
      others += (others.empty() ? "" : " ") + bar.section;
    else if (once == nullptr)
      once = &bar;
  }
  if (once == nullptr || others.empty()) return;
  warnings.push_back({place_in(chart.file, chart.text, once->offset_bytes),
                      fmt::format("{} comes again in every chorus; a line `form: {}` above the bars leaves it out, and "
                                  "--start-bar says where the form then begins",
                                  once->section, shortened(others))});
}

}  // namespace

ChartReading parse_chart(std::string_view text, std::string_view file_name) {
  if (text.size() > largest_file_bytes)
    throw ReadError(place_of(file_name), "the changes are larger than 1 MiB; a chart is a page of text");
  const ChartText chart = chart_text(text, file_name);
  std::vector<ChartLine> chord_lines;
  std::vector<ChartLine> lines = chart_lines(chart);
  const TextAbove above = take_text_above(lines);
  ChartHeaders headers = take_headers(chart, lines, chord_lines);
  if (chord_lines.empty())
    throw ReadError(place_of(file_name),
                    "there are no bars; write chords between bar lines, like | Dm7 | G7 | Cmaj7 | % |");
  const Meter meter = headers.meter.value_or(Meter{});
  WrittenBars written = read_bars(chart, chord_lines, meter);
  if (written.marks.empty()) throw ReadError(place_of(file_name), "there are bar lines, but no chords between them");
  ChartReading reading;
  Changes& changes = reading.changes;
  changes.title = headers.title.value_or(above.title ? std::string(above.title->text) : "");
  changes.key = headers.key;
  changes.meter = headers.meter;
  if (headers.pickup) changes.pickup = *headers.pickup * beat_length(meter);
  play_out(changes, written, playing_order(chart, written.marks, headers.form));
  reading.tempo_bpm = headers.tempo_bpm;
  reading.warnings = std::move(headers.warnings);
  for (const ChartLine& line : above.others)
    reading.warnings.push_back({place_in(chart.file, chart.text, line.offset_bytes),
                                fmt::format("\"{}\" above the bars is left out", shortened(line.text))});
  if (headers.form.empty()) tell_what_comes_again(chart, written, reading.warnings);
  std::ranges::move(written.warnings, std::back_inserter(reading.warnings));
  return reading;
}

Changes parse_changes(std::string_view text, std::string_view file_name) {
  return parse_chart(text, file_name).changes;
}

ChartReading read_chart(const std::filesystem::path& file) {
  return parse_chart(read_bytes(file, largest_file_bytes), file.filename().string());
}

Changes read_changes(const std::filesystem::path& file) { return read_chart(file).changes; }

}  // namespace insideline::io
