#include "analyzer/measures/same_bars.hpp"

#include <algorithm>
#include <cassert>
#include <numeric>
#include <tuple>

namespace insideline {
namespace {

constexpr std::size_t most_to_talk_about = 3;

/// A note with its moment in the bar.
struct StruckNote {
  std::size_t note = 0;
  Beats moment;
};

/// Grace notes stand at the onset of their note and are left out.
std::vector<StruckNote> struck_in(const Solo& solo, std::size_t bar) {
  const Bar& here = solo.bars[bar];
  std::vector<StruckNote> struck;
  const auto from = std::ranges::lower_bound(solo.notes, here.onset, {}, &Note::onset);
  for (auto note = from; note != solo.notes.end() && note->onset < here.onset + here.length; ++note)
    if (!note->grace) struck.push_back({static_cast<std::size_t>(note - solo.notes.begin()), note->onset - here.onset});
  return struck;
}

Beats apart(const Beats& a, const Beats& b) { return a < b ? b - a : a - b; }

/// True where the note after `before` is nearer to `moment`.
bool next_is_nearer(const std::vector<StruckNote>& line, std::size_t before, const Beats& moment) {
  return before + 1 < line.size() && apart(line[before + 1].moment, moment) < apart(line[before].moment, moment);
}

NoteDifference difference_between(const LaidLine& first, std::size_t a, const LaidLine& other, std::size_t b) {
  const bool pitch = midi_number(first.solo->notes[a].pitch) == midi_number(other.solo->notes[b].pitch);
  const bool role = first.labels[a].role == other.labels[b].role;
  if (pitch) return role ? NoteDifference::none : NoteDifference::role;
  return role ? NoteDifference::pitch : NoteDifference::pitch_and_role;
}

std::vector<NoteBeside> all_alone(const std::vector<StruckNote>& line) {
  std::vector<NoteBeside> notes;
  for (const StruckNote& struck : line) notes.push_back({.note = struck.note, .difference = NoteDifference::alone});
  return notes;
}

double mean_weight(const SameBar& bar) {
  double sum = 0.0;
  for (const NoteBeside& note : bar.first) sum += weight_of(note.difference);
  for (const NoteBeside& note : bar.other) sum += weight_of(note.difference);
  const std::size_t notes = bar.first.size() + bar.other.size();
  return notes == 0 ? 0.0 : sum / static_cast<double>(notes);
}

SameBar laid_together(const LaidLine& first, std::size_t first_bar, const LaidLine& other, std::size_t other_bar) {
  const Beats together(1, 6);
  const std::vector<StruckNote> a = struck_in(*first.solo, first_bar);
  const std::vector<StruckNote> b = struck_in(*other.solo, other_bar);
  SameBar bar{.first_bar = first_bar, .other_bar = other_bar, .first = all_alone(a), .other = all_alone(b)};
  for (std::size_t i = 0, j = 0; i < a.size() && j < b.size();) {
    const bool as_one = apart(a[i].moment, b[j].moment) <= together && !next_is_nearer(a, i, b[j].moment) &&
                        !next_is_nearer(b, j, a[i].moment);
    if (as_one) {
      const NoteDifference difference = difference_between(first, a[i].note, other, b[j].note);
      bar.first[i++].difference = difference;
      bar.other[j++].difference = difference;
    } else if (a[i].moment < b[j].moment) {
      ++i;
    } else {
      ++j;
    }
  }
  bar.difference = mean_weight(bar);
  return bar;
}

/// More of it: further up the list.
auto rank_of(const SameBar& bar) {
  return std::tuple(bar.difference, std::min(bar.first.size(), bar.other.size()), bar.first.size() + bar.other.size());
}

}  // namespace

std::vector<PlacedBar> bars_by_number(const Solo& solo) {
  std::vector<PlacedBar> bars;
  for (std::size_t bar = 0; bar < solo.bars.size(); ++bar) bars.push_back({bar, Beats(solo.bars[bar].number)});
  return bars;
}

std::vector<PlacedBar> bars_by_form(const Solo& solo, const Harmony& harmony, std::span<const std::size_t> bars) {
  assert(harmony.chorus_length > Beats{} && "without a form there is no place in it");
  std::vector<PlacedBar> placed;
  for (const std::size_t bar : bars) {
    const Beats from_first = solo.bars[bar].onset - harmony.first_chorus;
    const std::int64_t round = solo.bars[bar].number < 1 ? 0 : whole_units(from_first, harmony.chorus_length);
    placed.push_back({bar, from_first - Beats(round) * harmony.chorus_length});
  }
  std::ranges::stable_sort(placed, {}, &PlacedBar::place);
  return placed;
}

double weight_of(NoteDifference difference) {
  switch (difference) {
    case NoteDifference::none: return 0.0;
    case NoteDifference::pitch:
    case NoteDifference::role: return 0.5;
    case NoteDifference::pitch_and_role:
    case NoteDifference::alone: return 1.0;
  }
  return 0.0;
}

SameBars same_bars(const LaidLine& first, const LaidLine& other) {
  SameBars result;
  auto there = other.bars.begin();
  for (const PlacedBar& here : first.bars) {
    there = std::find_if(there, other.bars.end(), [&](const PlacedBar& bar) { return bar.place >= here.place; });
    if (there == other.bars.end()) break;
    if (there->place == here.place) result.bars.push_back(laid_together(first, here.bar, other, there->bar));
  }
  result.by_difference.resize(result.bars.size());
  std::iota(result.by_difference.begin(), result.by_difference.end(), std::size_t{0});
  std::ranges::stable_sort(result.by_difference, std::ranges::greater{},
                           [&](std::size_t index) { return rank_of(result.bars[index]); });
  for (const std::size_t index : result.by_difference) {
    const SameBar& bar = result.bars[index];
    if (result.to_talk_about.size() < most_to_talk_about && bar.difference > 0.0 && !bar.first.empty() &&
        !bar.other.empty())
      result.to_talk_about.push_back(index);
  }
  return result;
}

}  // namespace insideline
