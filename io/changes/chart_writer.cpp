#include "io/changes/chart_writer.hpp"

#include "analyzer/harmony/chord_symbol.hpp"
#include "io/changes/beat_shares.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <string_view>
#include <utility>

#include <fmt/format.h>

namespace insideline::io {
namespace {

constexpr std::size_t bars_a_line = 4;

/// The meter that a bar of this length has, as a changes file can say it; its own where none fits.
Meter meter_for(const Beats& length, const Meter& meter) {
  constexpr int finest = 32;
  constexpr int most_beats = 32;
  if (length == bar_length(meter)) return meter;
  for (int unit = meter.unit; unit <= finest; unit *= 2) {
    const Beats beats = length * Beats(unit, 4);
    if (beats.denominator() == 1 && beats.numerator() <= most_beats) return {static_cast<int>(beats.numerator()), unit};
  }
  return meter;
}

/// What stands in the file for a chord: its own symbol, where it is one word that is read as this chord.
std::string written_symbol(const std::optional<Chord>& chord) {
  if (!chord) return "N.C.";
  const bool one_word = chord->symbol.find_first_of(" |[]\t\n") == std::string::npos;
  const auto reading = parse_chord_symbol(chord->symbol);
  if (one_word && reading && *reading && same_chord(**reading, *chord)) return chord->symbol;
  return canonical_symbol(*chord);
}

/// The chords of a bar by the counted beat on which they are written, the last one where two fall on one.
std::map<int, std::string> chords_by_beat(const Changes& changes, const FormBar& bar, const Meter& meter, bool& moved) {
  std::map<int, std::string> chords;
  const Beats end = bar.onset + bar.length;
  for (const ChordSpan& span : changes.spans) {
    if (span.onset >= end || span.onset + span.duration <= bar.onset) continue;
    const Beats beats = (std::max(span.onset, bar.onset) - bar.onset) / beat_length(meter);
    const auto nearest = static_cast<int>(std::floor(to_double(beats) + 0.5));
    const int beat = std::min(nearest, meter.beats - 1);
    moved = moved || Beats(beat) != beats;
    chords[beat] = written_symbol(span.chord);
  }
  if (!chords.empty() && chords.begin()->first > 0) {
    auto first = chords.extract(chords.begin());
    first.key() = 0;
    chords.insert(std::move(first));
    moved = true;
  }
  return chords;
}

std::string with_dots(const std::map<int, std::string>& chords, const Meter& meter) {
  std::vector<Beats> lengths;
  for (auto chord = chords.begin(); chord != chords.end(); ++chord) {
    const auto next = std::next(chord);
    lengths.push_back(Beats((next == chords.end() ? meter.beats : next->first) - chord->first) * beat_length(meter));
  }
  const bool shared = shared_beats(meter, static_cast<int>(chords.size())) == std::optional(lengths);
  std::string text;
  int beat = 0;
  for (const auto& [from, symbol] : chords) {
    for (; !shared && beat < from; ++beat)
      if (!text.empty()) text += " .";
    beat = from + 1;
    text += (text.empty() ? "" : " ") + symbol;
  }
  for (; !shared && beat < meter.beats; ++beat) text += " .";
  return text;
}

std::string section_label(const std::string& name) {
  std::string label = name.substr(0, 30);
  std::erase_if(label, [](char c) { return c == ']' || c == '[' || c == '|'; });
  return label;
}

std::string one_line(std::string text) {
  std::ranges::replace_if(
      text, [](char c) { return static_cast<unsigned char>(c) < 0x20U; }, ' ');
  return text;
}

std::string headers(const Changes& changes, const std::optional<double>& tempo_bpm) {
  constexpr double slowest = 20.0;
  constexpr double fastest = 400.0;
  std::string text;
  if (!changes.title.empty()) text += fmt::format("title: {}\n", one_line(changes.title));
  if (changes.key) text += fmt::format("key: {}\n", to_string(*changes.key));
  text += fmt::format("meter: {}\n", to_string(changes.meter.value_or(Meter{})));
  if (changes.pickup && *changes.pickup > Beats(0))
    text += fmt::format("pickup: {}\n", to_string(*changes.pickup / beat_length(changes.meter.value_or(Meter{}))));
  if (tempo_bpm && *tempo_bpm >= slowest && *tempo_bpm <= fastest)
    text += fmt::format("tempo: {}\n", std::lround(*tempo_bpm));
  return text + "\n";
}

/// Writes bar after bar, and begins a line where four are full, a section begins or the meter changes.
class ChartLines {
 public:
  explicit ChartLines(const Changes& changes) : changes_(changes), meter_(changes.meter.value_or(Meter{})) {}

  void add(const FormBar& bar) {
    const Meter meter = meter_of(changes_, bar);
    const bool new_section = bar.section != section_ && !section_label(bar.section).empty();
    if (in_line_ == bars_a_line || new_section || meter != meter_) end_line();
    if (meter != meter_) text_ += fmt::format("meter: {}\n", to_string(meter));
    if (new_section) text_ += fmt::format("[{}] ", section_label(bar.section));
    bool moved = false;
    const std::string chords = with_dots(chords_by_beat(changes_, bar, meter, moved), meter);
    ++number_;
    if (moved) result_.moved.push_back(number_);
    const bool again = in_line_ > 0 && chords == chords_before_ && chords.find(' ') == std::string::npos;
    text_ += in_line_ == 0 ? "| " : " | ";
    text_ += again ? "%" : chords;
    chords_before_ = chords;
    section_ = bar.section;
    meter_ = meter;
    ++in_line_;
  }

  WrittenChart finish() && {
    end_line();
    result_.text = std::move(text_);
    return std::move(result_);
  }

 private:
  void end_line() {
    if (in_line_ > 0) text_ += " |\n";
    in_line_ = 0;
  }

  const Changes& changes_;
  Meter meter_;
  WrittenChart result_;
  std::string text_;
  std::string section_;
  std::string chords_before_;
  std::size_t in_line_ = 0;
  int number_ = 0;
};

}  // namespace

Changes chart_of_solo(const Solo& solo, const Changes& changes) {
  Changes chart;
  chart.title = changes.title.empty() ? solo.title : changes.title;
  chart.key = changes.key ? changes.key : key_at(solo, Beats(0));
  for (const Bar& bar : solo.bars) {
    if (bar.number < 1) {
      chart.pickup = chart.pickup.value_or(Beats(0)) + bar.length;
      continue;
    }
    const Meter meter = meter_for(bar.length, bar.meter);
    if (!chart.meter) chart.meter = meter;
    const auto own = std::ranges::find(changes.bars, bar.onset, &FormBar::onset);
    chart.bars.push_back({bar.onset, bar.length, own == changes.bars.end() ? "" : own->section});
    if (meter != *chart.meter) chart.bars.back().meter = meter;
  }
  const Beats end = form_length(chart);
  Beats now;
  for (ChordSpan span : changes.spans) {
    const Beats stop = std::min(span.onset + span.duration, end);
    if (stop <= now) continue;
    span.onset = std::max(span.onset, now);
    if (span.onset > now) chart.spans.push_back({std::nullopt, now, span.onset - now});
    span.duration = stop - span.onset;
    now = stop;
    chart.spans.push_back(std::move(span));
  }
  if (now < end) chart.spans.push_back({std::nullopt, now, end - now});
  return chart;
}

WrittenChart write_chart(const Changes& changes, const std::optional<double>& tempo_bpm) {
  ChartLines lines(changes);
  for (const FormBar& bar : changes.bars) lines.add(bar);
  WrittenChart chart = std::move(lines).finish();
  chart.text.insert(0, headers(changes, tempo_bpm));
  return chart;
}

}  // namespace insideline::io
