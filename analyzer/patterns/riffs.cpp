#include "analyzer/patterns/riffs.hpp"

#include "analyzer/patterns/moves.hpp"
#include "analyzer/patterns/repeats.hpp"

#include <algorithm>
#include <map>
#include <utility>

namespace insideline {
namespace {

constexpr std::size_t fewest_notes_of_a_riff = 3;
constexpr std::size_t longest_riff = 64;  // notes: four bars of sixteenths
constexpr std::size_t fewest_places = 3;
constexpr std::size_t bars_apart = 4;

/// A figure with its places: indices into HeardLine::notes.
struct RiffCandidate {
  std::size_t notes = 0;
  std::vector<std::size_t> places;

  [[nodiscard]] std::size_t notes_filled() const { return notes * places.size(); }
};

class RiffFinder {
 public:
  RiffFinder(const HeardLine& line, const Solo& solo, std::span<const Sequence> sequences)
      : line_(line), solo_(solo), taken_(line.notes.size(), false), tokens_(line.notes.size(), token_break) {
    take_sequences(sequences);
    std::map<std::pair<int, Beats>, int> known;
    for (std::size_t i = 1; i < line.notes.size(); ++i) {
      if (!goes_on(line, i) || taken_[i] || taken_[i - 1]) continue;
      const auto next = static_cast<int>(known.size());
      tokens_[i] = known.try_emplace({scale_steps_to(line, i), wait_before(line, solo, i)}, next).first->second;
    }
  }

  std::vector<Riff> find() {
    // Two places share at most a note, and none is longer than the four bars from one to the next.
    const Repeats repeats = maximal_repeats(tokens_, fewest_notes_of_a_riff - 1, longest_riff);
    std::vector<std::pair<std::size_t, const MaximalRepeat*>> by_notes_filled;
    for (const MaximalRepeat& repeat : repeats.found)
      if (const auto candidate = candidate_of(repeat); is_riff(candidate))
        by_notes_filled.emplace_back(candidate.notes_filled(), &repeat);
    std::ranges::stable_sort(by_notes_filled, std::ranges::greater{},
                             &std::pair<std::size_t, const MaximalRepeat*>::first);
    std::vector<Riff> riffs;
    for (const auto& [notes, repeat] : by_notes_filled) {
      const RiffCandidate candidate = candidate_of(*repeat);  // what others have taken is gone
      if (is_riff(candidate)) riffs.push_back(taken(candidate));
    }
    std::ranges::stable_sort(riffs, std::ranges::greater{}, [](const Riff& riff) {
      return static_cast<std::size_t>(riff.notes) * riff.places.size();
    });
    return riffs;
  }

 private:
  void take_sequences(std::span<const Sequence> sequences) {
    auto sequence = sequences.begin();
    for (std::size_t i = 0; i < line_.notes.size(); ++i) {
      while (sequence != sequences.end() && sequence->last < line_.notes[i].note) ++sequence;
      taken_[i] = sequence != sequences.end() && sequence->first <= line_.notes[i].note;
    }
  }

  /// The places that are free and near enough to others. A figure that ends on the first note of its next place ends
  /// one note sooner.
  RiffCandidate candidate_of(const MaximalRepeat& repeat) const {
    RiffCandidate candidate{.notes = repeat.length + 1, .places = {}};
    bool shares_a_note = false;
    std::vector<std::size_t> near;
    for (const std::size_t start : repeat.starts) {
      const std::size_t first = start - 1;  // a token is the way to its note
      if (!is_free(first, candidate.notes)) continue;
      if (!near.empty() && first < near.back() + repeat.length) continue;
      if (!near.empty() && line_.notes[first].bar > line_.notes[near.back()].bar + bars_apart) keep(near, candidate);
      shares_a_note = shares_a_note || (!near.empty() && first == near.back() + repeat.length);
      near.push_back(first);
    }
    keep(near, candidate);
    if (shares_a_note) --candidate.notes;
    return candidate;
  }

  static void keep(std::vector<std::size_t>& near, RiffCandidate& candidate) {
    if (near.size() >= fewest_places) candidate.places.insert(candidate.places.end(), near.begin(), near.end());
    near.clear();
  }

  bool is_free(std::size_t first, std::size_t notes) const {
    for (std::size_t i = first; i < first + notes; ++i)
      if (taken_[i]) return false;
    return true;
  }

  bool is_riff(const RiffCandidate& candidate) const {
    constexpr std::size_t usual_notes = 4;
    constexpr std::size_t fewest_even_notes = 6;
    if (candidate.places.size() < fewest_places || candidate.notes < fewest_notes_of_a_riff) return false;
    if (candidate.notes < usual_notes && candidate.places.size() == fewest_places) return false;
    const std::size_t first = candidate.places.front();
    bool one_move = true;
    bool even = true;
    for (std::size_t i = first + 2; i < first + candidate.notes; ++i) {
      one_move = one_move && tokens_[i] == tokens_[first + 1];
      even = even && wait_before(line_, solo_, i) == wait_before(line_, solo_, first + 1);
    }
    if (one_move) return false;
    if (!even || stands_between_breaths(candidate)) return true;
    return candidate.notes >= fewest_even_notes && keeps_its_beat(candidate);
  }

  bool stands_between_breaths(const RiffCandidate& candidate) const {
    return std::ranges::none_of(candidate.places, [&](std::size_t first) {
      return goes_on(line_, first) || goes_on(line_, first + candidate.notes);
    });
  }

  bool keeps_its_beat(const RiffCandidate& candidate) const {
    return std::ranges::all_of(candidate.places,
                               [&](std::size_t first) { return beat_of(first) == beat_of(candidate.places.front()); });
  }

  Riff taken(const RiffCandidate& candidate) {
    Riff riff{.notes = static_cast<int>(candidate.notes), .places = {}};
    for (const std::size_t first : candidate.places) {
      for (std::size_t i = first; i < first + candidate.notes; ++i) taken_[i] = true;
      riff.places.push_back(place_of(first, candidate));
    }
    return riff;
  }

  RiffPlace place_of(std::size_t first, const RiffCandidate& candidate) const {
    const std::size_t model = candidate.places.front();
    const HeardNote& note = line_.notes[first];
    RiffPlace place{.first = note.note,
                    .last = line_.notes[first + candidate.notes - 1].note,
                    .bar = solo_.bars[note.bar].number,
                    .moved = note.midi - line_.notes[model].midi,
                    .same_beat = beat_of(first) == beat_of(model),
                    .fitted = false};
    for (std::size_t i = 1; i < candidate.notes; ++i)
      place.fitted = place.fitted || line_.notes[first + i].midi - line_.notes[model + i].midi != place.moved;
    return place;
  }

  Beats beat_of(std::size_t index) const {
    const HeardNote& note = line_.notes[index];
    return beat_in_bar(solo_.bars[note.bar], solo_.notes[note.note].onset);
  }

  const HeardLine& line_;
  const Solo& solo_;
  std::vector<bool> taken_;
  std::vector<int> tokens_;  ///< to each note from the one before
};

}  // namespace

std::vector<Riff> find_riffs(const HeardLine& line, const Solo& solo, std::span<const Sequence> sequences) {
  return RiffFinder(line, solo, sequences).find();
}

std::vector<bool> riff_notes(std::span<const Riff> riffs, std::size_t notes) {
  std::vector<bool> inside(notes, false);
  for (const Riff& riff : riffs)
    for (const RiffPlace& place : riff.places)
      for (std::size_t note = place.first; note <= place.last; ++note) inside[note] = true;
  return inside;
}

}  // namespace insideline
