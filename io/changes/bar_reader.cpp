#include "io/changes/bar_reader.hpp"

#include "analyzer/harmony/chord_symbol.hpp"
#include "analyzer/shortened.hpp"
#include "io/changes/beat_shares.hpp"
#include "io/changes/typed_habits.hpp"

#include <algorithm>
#include <array>
#include <string>

#include <fmt/format.h>

namespace insideline::io {
namespace {

constexpr std::size_t most_words = 96;
constexpr std::size_t most_chords = 16;
constexpr std::size_t longest_symbol = 200;  // bytes; nobody writes such a chord

/// A chord with the beats that its dots give it, before the bar is shared out.
struct Entry {
  std::optional<Chord> chord;
  int beats = 1;
};

std::string plural(int count, std::string_view thing) {
  return fmt::format("{} {}{}", count, thing, count == 1 ? "" : "s");
}

/// Words of the road map that a chart does not know, and what to write instead.
std::optional<std::string> other_remedy(std::string_view word) {
  constexpr std::array road_words = {"D.C.", "DC", "D.S.", "DS", "Fine", "Coda", "D.C", "D.S", "fine", "coda"};
  if (std::ranges::find(road_words, word) != road_words.end())
    return "jumps are not read; name sections like [A] and put their order in the header form";
  if (word.find_first_not_of("0123456789") == std::string_view::npos)
    return "an ending is written |1. with a full stop, right after its bar line";
  if (word.starts_with('#')) return "a comment needs white space after its #";
  if (word.find(':') == 0) return "a repeat is written |: and :|";
  return std::nullopt;
}

std::string unreadable(std::string_view word, int number, const UnreadableSymbol& problem) {
  std::string nearest;
  for (const std::string& symbol : problem.nearest) nearest += (nearest.empty() ? "" : ", ") + symbol;
  if (!nearest.empty()) nearest = "; nearest: " + nearest;
  return fmt::format("bar {}: chord \"{}\" cannot be read: {}{}", number, word, problem.message, nearest);
}

/// The chord of `word`. Dots at its end count as beats, unless they belong to it as in "N.C.".
Entry read_chord(const ChartText& chart, const Sign& word, int number) {
  if (word.text.size() > longest_symbol)
    refuse(chart, word.offset_bytes, fmt::format("bar {}: this is too long for a chord", number));
  const std::string typed = in_one_word(word.text);
  const auto whole = parse_chord_symbol(typed);
  if (whole) return {*whole, 1};
  const std::size_t symbol_size = typed.find_last_not_of("./") + 1;
  const auto undotted = parse_chord_symbol(typed.substr(0, symbol_size));
  if (symbol_size < typed.size() && undotted) return {*undotted, 1 + static_cast<int>(typed.size() - symbol_size)};
  if (const auto capital = with_capital_root(typed)) {
    const auto chord = parse_chord_symbol(capital->substr(0, symbol_size));
    if (chord) return {*chord, 1 + static_cast<int>(typed.size() - symbol_size)};
  }
  if (const auto remedy = other_remedy(word.text))
    refuse(chart, word.offset_bytes, fmt::format("bar {}: \"{}\": {}", number, word.text, *remedy));
  const std::size_t stopped = std::min(whole.error().offset_bytes, word.text.size());
  refuse(chart, word.offset_bytes + stopped, unreadable(word.text, number, whole.error()));
}

std::vector<Entry> read_entries(const ChartText& chart, const std::vector<Sign>& words, int number,
                                const std::vector<BarChord>& before) {
  std::vector<Entry> entries;
  for (const Sign& word : words) {
    if (is_repeated_bar(word.text) && words.size() > 1)
      refuse(chart, word.offset_bytes,
             fmt::format("bar {}: % repeats a whole bar and stands alone in its own", number));
    if (!is_beats(word.text)) {
      entries.push_back(read_chord(chart, word, number));
      continue;
    }
    const int beats = is_hold(word.text) ? 1 : static_cast<int>(word.text.size());  // a long dash has three bytes
    if (!entries.empty()) {
      entries.back().beats += beats;
    } else if (!before.empty()) {
      entries.push_back({before.back().chord, beats});  // the last chord goes on over the bar line
    } else {
      refuse(chart, word.offset_bytes,
             fmt::format("bar {}: no chord stands before this {}", number, shortened(word.text)));
    }
  }
  return entries;
}

/// Chords held with x or - share the bar as equal parts, where counting each sign as a beat does not fill it: "C -".
std::optional<std::vector<Beats>> shared_with_holds(const Meter& meter, const std::vector<Sign>& words,
                                                    const std::vector<int>& beats) {
  const auto parts = static_cast<int>(words.size());
  const bool holds_alone =
      std::ranges::none_of(words, [](const Sign& word) { return is_beats(word.text) && !is_hold(word.text); });
  int sum = 0;
  for (const int own : beats) sum += own;
  if (!holds_alone || sum != parts || meter.beats % parts != 0) return std::nullopt;
  std::vector<Beats> lengths;
  for (const int own : beats) lengths.push_back(bar_length(meter) * Beats(own, parts));
  return lengths;
}

std::string does_not_fill(int number, const Meter& meter, int beats) {
  return fmt::format("bar {} has {}, but {} has {}; a chord counts one beat and each dot after it one more", number,
                     plural(beats, "beat"), to_string(meter), meter.beats);
}

std::string cannot_share(int number, const Meter& meter, int chords) {
  return fmt::format("bar {}: {} do not share the {} of {} evenly; write {} or fewer, or {}", number,
                     plural(chords, "chord"), plural(meter.beats, "beat"), to_string(meter), meter.beats,
                     2 * meter.beats);
}

}  // namespace

std::vector<BarChord> read_bar(const ChartText& chart, const std::vector<Sign>& words, int number, const Meter& meter,
                               const std::vector<BarChord>& before) {
  const std::size_t place = words.front().offset_bytes;
  if (words.size() > most_words) refuse(chart, place, fmt::format("bar {} has more than {} signs", number, most_words));
  if (is_repeated_bar(words.front().text) && words.size() == 1) {
    if (before.empty())
      refuse(chart, place, fmt::format("bar {}: % repeats the bar before, and there is none", number));
    if (before.size() == 1) return {{before.front().chord, bar_length(meter)}};
    Beats length;
    for (const BarChord& chord : before) length += chord.duration;
    if (length != bar_length(meter))
      refuse(chart, place, fmt::format("bar {}: % repeats a bar of another meter; write its chords", number));
    return before;
  }
  const std::vector<Entry> entries = read_entries(chart, words, number, before);
  if (entries.size() > most_chords)
    refuse(chart, place, fmt::format("bar {} has more than {} chords", number, most_chords));
  const bool beats_given = std::ranges::any_of(words, [](const Sign& word) { return is_beats(word.text); }) ||
                           std::ranges::any_of(entries, [](const Entry& entry) { return entry.beats > 1; });
  std::vector<int> beats;
  int sum = 0;
  for (const Entry& entry : entries) {
    beats.push_back(entry.beats);
    sum += entry.beats;
  }
  auto lengths = beats_given ? given_beats(meter, beats) : shared_beats(meter, static_cast<int>(entries.size()));
  if (!lengths && beats_given) lengths = shared_with_holds(meter, words, beats);
  if (!lengths)
    refuse(chart, place, beats_given ? does_not_fill(number, meter, sum) : cannot_share(number, meter, sum));
  std::vector<BarChord> bar;
  for (std::size_t i = 0; i < entries.size(); ++i) bar.push_back({entries[i].chord, (*lengths)[i]});
  return bar;
}

}  // namespace insideline::io
