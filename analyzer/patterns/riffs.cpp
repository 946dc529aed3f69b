#include "analyzer/patterns/riffs.hpp"

#include "analyzer/patterns/repeats.hpp"

#include <algorithm>
#include <tuple>

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
  RiffFinder(const HeardLine& line, const LineMoves& moves, const Solo& solo, std::span<const Sequence> sequences)
      : line_(line), moves_(moves), solo_(solo), taken_(line.notes.size(), false), tokens_(moves.shapes) {
    static_assert(no_move == token_break);
    take_sequences(sequences);
    for (std::size_t i = 1; i < line.notes.size(); ++i)
      if (taken_[i] || taken_[i - 1]) tokens_[i] = token_break;
  }

  std::vector<Riff> find() {
    // Two places share at most a note, and none is longer than the four bars from one to the next.
    const std::vector<std::size_t> bars = bars_of_tokens();
    const Repeats repeats = maximal_repeats(tokens_, {.shortest = fewest_notes_of_a_riff - 1,
                                                      .longest = longest_riff,
                                                      .fewest_places = fewest_places,
                                                      .bars = bars,
                                                      .bars_apart = bars_apart});
    struct Filling {
      std::size_t notes;
      std::size_t length;
      std::span<const std::size_t> starts;
    };
    std::vector<Filling> by_notes_filled;
    RiffCandidate candidate;
    for (const MaximalRepeat& repeat : repeats.found) {
      look_at(repeat.length, repeats.starts_of(repeat), candidate);
      if (is_riff(candidate))
        by_notes_filled.push_back({candidate.notes_filled(), repeat.length, repeats.starts_of(repeat)});
    }
    std::ranges::sort(by_notes_filled, [](const Filling& a, const Filling& b) {
      return std::tuple(b.notes, a.length, a.starts.front()) < std::tuple(a.notes, b.length, b.starts.front());
    });
    std::vector<Riff> riffs;
    for (const Filling& filling : by_notes_filled) {
      look_at(filling.length, filling.starts, candidate);  // what others have taken is gone
      if (is_riff(candidate)) riffs.push_back(taken(candidate));
    }
    std::ranges::stable_sort(riffs, std::ranges::greater{}, [](const Riff& riff) {
      return static_cast<std::size_t>(riff.notes) * riff.places.size();
    });
    return riffs;
  }

 private:
  /// A token is the way to its note: a figure stands where the note before it does.
  std::vector<std::size_t> bars_of_tokens() const {
    std::vector<std::size_t> bars(tokens_.size());
    for (std::size_t i = 1; i < bars.size(); ++i) bars[i] = line_.notes[i - 1].bar;
    return bars;
  }

  void take_sequences(std::span<const Sequence> sequences) {
    auto sequence = sequences.begin();
    for (std::size_t i = 0; i < line_.notes.size(); ++i) {
      while (sequence != sequences.end() && sequence->last < line_.notes[i].note) ++sequence;
      taken_[i] = sequence != sequences.end() && sequence->first <= line_.notes[i].note;
    }
  }

  /// The places that are free and near enough to others. A figure that ends on the first note of its next place ends
  /// one note sooner.
  void look_at(std::size_t length, std::span<const std::size_t> starts, RiffCandidate& candidate) const {
    std::vector<std::size_t>& places = candidate.places;
    places.clear();
    candidate.notes = length + 1;
    bool shares_a_note = false;
    std::size_t near = 0;  // the places from here on are near each other
    for (const std::size_t start : starts) {
      const std::size_t first = start - 1;  // a token is the way to its note
      if (!is_free(first, candidate.notes)) continue;
      if (places.size() > near) {
        if (first < places.back() + length) continue;
        if (line_.notes[first].bar > line_.notes[places.back()].bar + bars_apart) near = settled(places, near);
      }
      shares_a_note = shares_a_note || (places.size() > near && first == places.back() + length);
      places.push_back(first);
    }
    settled(places, near);
    if (shares_a_note) --candidate.notes;
  }

  /// Takes the places from `near` on away again where they are too few; where the next ones begin.
  static std::size_t settled(std::vector<std::size_t>& places, std::size_t near) {
    if (places.size() < near + fewest_places) places.resize(near);
    return places.size();
  }

  bool is_free(std::size_t first, std::size_t notes) const {
    if (!riff_taken_) return true;  // notes of sequences are in no repeat
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
      even = even && moves_.waits[i] == moves_.waits[first + 1];
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
    riff_taken_ = true;
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
  const LineMoves& moves_;
  const Solo& solo_;
  std::vector<bool> taken_;
  bool riff_taken_ = false;
  std::vector<int> tokens_;  ///< to each note from the one before
};

}  // namespace

std::vector<Riff> find_riffs(const HeardLine& line, const LineMoves& moves, const Solo& solo,
                             std::span<const Sequence> sequences) {
  return RiffFinder(line, moves, solo, sequences).find();
}

std::vector<bool> riff_notes(std::span<const Riff> riffs, std::size_t notes) {
  std::vector<bool> inside(notes, false);
  for (const Riff& riff : riffs)
    for (const RiffPlace& place : riff.places)
      for (std::size_t note = place.first; note <= place.last; ++note) inside[note] = true;
  return inside;
}

}  // namespace insideline
