#include "tests/support/melody.hpp"

#include "analyzer/alignment.hpp"
#include "analyzer/harmony/chord_symbol.hpp"

#include <sstream>
#include <stdexcept>
#include <string>

namespace insideline::tests {
namespace {

Beats read_beats(const std::string& text) {
  const auto time = parse_beats(text);
  if (!time) throw std::invalid_argument("not a length in quarters: " + text);
  return *time;
}

void check_bar_line(const Beats& now, const Meter& meter) {
  if (remainder_within(now, bar_length(meter)) != Beats{})
    throw std::invalid_argument("a bar line inside a bar, at " + to_string(now));
}

void add_bars(Solo& solo, const Meter& meter, const Beats& first, const Beats& end) {
  if (first < Beats{}) solo.bars.push_back({.number = 0, .onset = first, .length = -first, .meter = meter});
  const Beats length = bar_length(meter);
  for (int number = 1; number == 1 || Beats(number - 1) * length < end; ++number)
    solo.bars.push_back({.number = number, .onset = Beats(number - 1) * length, .length = length, .meter = meter});
}

}  // namespace

Solo solo_from(std::string_view melody, const Meter& meter, const Beats& start_beat) {
  Solo solo;
  const Beats first = start_beat < Beats{} ? start_beat : (start_beat - 1) * beat_length(meter);
  Beats now = first;
  std::istringstream words{std::string(melody)};
  for (std::string word; words >> word;) {
    if (word == "|") {
      check_bar_line(now, meter);
      continue;
    }
    const auto colon = word.find(':');
    if (colon == std::string::npos) throw std::invalid_argument("a note needs its length: " + word);
    std::string name = word.substr(0, colon);
    const Beats length = read_beats(word.substr(colon + 1));
    const bool tied = name.ends_with('~');
    if (tied) {
      if (solo.notes.empty()) throw std::invalid_argument("no note to tie to: " + word);
      solo.notes.back().duration += length;
    } else if (name != "r") {
      const auto pitch = parse_pitch(name);
      if (!pitch) throw std::invalid_argument("not a pitch: " + word);
      Note note;
      note.onset = now;
      note.duration = length;
      note.pitch = *pitch;
      note.written = *pitch;
      note.grace = length == Beats{};
      note.place.element = solo.notes.size();
      solo.notes.push_back(note);
    }
    now += length;
  }
  add_bars(solo, meter, first, now);
  return solo;
}

Harmony harmony_from(std::string_view chords, const Solo& solo, const std::optional<Beats>& from) {
  const Beats first = from.value_or(solo.notes.front().onset);
  Changes changes;
  changes.extent = Extent::once;
  std::istringstream words{std::string(chords)};
  for (std::string word; words >> word;) {
    const auto at = word.rfind('@');
    if (at == std::string::npos) throw std::invalid_argument("a chord needs its onset: " + word);
    const auto reading = parse_chord_symbol(std::string_view(word).substr(0, at));
    if (!reading) throw std::invalid_argument(word + ": " + reading.error().message);
    changes.spans.push_back({.chord = *reading, .onset = first + read_beats(word.substr(at + 1)), .duration = 0});
  }
  for (std::size_t i = 0; i < changes.spans.size(); ++i) {
    const Beats end = i + 1 < changes.spans.size() ? changes.spans[i + 1].onset : end_of(solo);
    changes.spans[i].duration = end - changes.spans[i].onset;
  }
  return lay_out(changes, solo);
}

}  // namespace insideline::tests
