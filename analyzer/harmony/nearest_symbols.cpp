#include "analyzer/harmony/nearest_symbols.hpp"

#include "analyzer/harmony/symbol_reading.hpp"
#include "analyzer/harmony/symbol_words.hpp"
#include "analyzer/small_letters.hpp"

#include <algorithm>
#include <array>

namespace insideline {
namespace {

constexpr std::size_t most_offered = 3;
constexpr int one_edit = 4;
constexpr std::size_t longest_compared = 40;  // longer symbols resemble nothing on the list

// What a slip of the pen is likely to have been: the suffixes in daily use.
constexpr std::string_view daily_suffixes[] = {
    "",       "m",      "7",      "maj7",   "m7",      "m7b5",    "dim",    "dim7",    "aug",      "6",
    "m6",     "69",     "m69",    "9",      "maj9",    "m9",      "11",     "m11",     "13",       "maj13",
    "m13",    "sus4",   "sus2",   "7sus4",  "9sus4",   "13sus4",  "7b9",    "7#9",     "7#11",     "7b13",
    "7#5",    "7b5",    "7b9b13", "7#9b13", "7b9#11",  "7#5#9",   "7#5b9",  "7b5b9",   "7alt",     "9#11",
    "9#5",    "9b5",    "13b9",   "13#9",   "13#11",   "maj7#11", "maj7#5", "maj7b5",  "maj9#11",  "mMaj7",
    "mMaj9",  "add9",   "madd9",  "5",      "m7#5",    "m9b5",    "m11b5",  "7b9sus4", "maj7sus4", "7omit3",
    "7omit5", "7add13", "6add9",  "mb6",    "dimMaj7", "add#11",  "maj",    "min",     "min7",     "major7",
    "minor7", "-7",     "+7",     "o7",     "7(b9)",   "7(#9)",   "7(#11)", "7(b13)",  "m(maj7)",  "sus"};

struct Candidate {
  std::string symbol;
  int distance = 0;
};

bool reads(std::string_view symbol) { return read_chord_symbol(symbol).has_value(); }

/// The text with a likely root at its front: a capital for a small letter, B for the German H, "Eb7" for "bE7".
std::string with_likely_root(std::string_view symbol) {
  std::string text = with_capital(symbol);
  if (text.size() > 1 && (symbol.front() == 'b' || symbol.front() == '#') && symbol[1] >= 'A' && symbol[1] <= 'G') {
    text = std::string(symbol);
    std::swap(text[0], text[1]);
  }
  if (text.starts_with('H')) text.front() = 'B';
  return text;
}

/// Repairs of a single slip at the place where reading stopped.
std::vector<std::string> repairs(const std::string& text, std::size_t offset_bytes) {
  const std::size_t place = std::min(offset_bytes, text.size());
  std::vector<std::string> all = {text + ")"};
  if (place < text.size()) all.push_back(text.substr(0, place) + text.substr(place + 1));
  std::size_t readable = text.size();
  while (readable > 1 && !reads(text.substr(0, readable))) --readable;
  all.push_back(text.substr(0, readable));
  std::string without_colon = text;
  std::erase(without_colon, ':');
  all.push_back(without_colon);
  return all;
}

void add_candidate(std::vector<Candidate>& candidates, std::string symbol, int distance) {
  const auto same = [&](const Candidate& other) { return other.symbol == symbol; };
  if (std::ranges::none_of(candidates, same)) candidates.push_back({std::move(symbol), distance});
}

/// Everything on offer, only looked at for whether it reads once it is near enough.
std::vector<Candidate> candidates_for(std::string_view symbol, std::size_t offset_bytes) {
  std::vector<Candidate> candidates;
  const std::string text = with_likely_root(symbol);
  add_candidate(candidates, text, edit_distance(symbol, text));
  for (std::string& repaired : repairs(text, offset_bytes)) {
    const int distance = edit_distance(symbol, repaired);
    add_candidate(candidates, std::move(repaired), distance);
  }
  std::string_view rest = text;
  if (!take_symbol_note(rest)) return candidates;
  const std::string root = text.substr(0, text.size() - rest.size());
  if (text != symbol) add_candidate(candidates, root + "m" + std::string(rest), edit_distance(symbol, text) + 1);
  for (const std::string_view suffix : daily_suffixes)
    add_candidate(candidates, root + std::string(suffix),
                  edit_distance(rest, suffix) + edit_distance(symbol, text) + 1);
  return candidates;
}

}  // namespace

int edit_distance(std::string_view a, std::string_view b) {
  const auto change = [](char from, char to) {
    if (from == to) return 0;
    return small_letter(from) == small_letter(to) ? 1 : one_edit;
  };
  const std::size_t width = b.size() + 1;
  std::vector<int> table((a.size() + 1) * width);
  const auto cell = [&](std::size_t i, std::size_t j) -> int& { return table[i * width + j]; };
  for (std::size_t i = 0; i <= a.size(); ++i) cell(i, 0) = static_cast<int>(i) * one_edit;
  for (std::size_t j = 0; j <= b.size(); ++j) cell(0, j) = static_cast<int>(j) * one_edit;
  for (std::size_t i = 1; i <= a.size(); ++i)
    for (std::size_t j = 1; j <= b.size(); ++j) {
      cell(i, j) = std::min(
          {cell(i - 1, j) + one_edit, cell(i, j - 1) + one_edit, cell(i - 1, j - 1) + change(a[i - 1], b[j - 1])});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) cell(i, j) = std::min(cell(i, j), cell(i - 2, j - 2) + one_edit);
    }
  return table.back();
}

std::vector<std::string> nearest_symbols(std::string_view symbol, std::size_t offset_bytes) {
  if (symbol.empty() || symbol.size() > longest_compared) return {};
  auto candidates = candidates_for(symbol, offset_bytes);
  std::ranges::stable_sort(candidates, {}, &Candidate::distance);
  const int most = std::max(2 * one_edit, static_cast<int>(symbol.size()) * one_edit / 2);
  std::vector<std::string> nearest;
  for (const Candidate& candidate : candidates) {
    if (nearest.size() == most_offered || candidate.distance > most) break;
    if (reads(candidate.symbol)) nearest.push_back(candidate.symbol);
  }
  return nearest;
}

}  // namespace insideline
