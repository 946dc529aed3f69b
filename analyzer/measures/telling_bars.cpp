#include "analyzer/measures/telling_bars.hpp"

#include "analyzer/chord_spelling.hpp"
#include "analyzer/harmony/chord_symbol.hpp"
#include "analyzer/labels/side_slips.hpp"
#include "analyzer/patterns/calls.hpp"
#include "analyzer/placement_when_struck.hpp"
#include "analyzer/tritone_substitutes.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <functional>
#include <map>
#include <string>

#include <fmt/format.h>

namespace insideline {
namespace {

constexpr std::size_t most_bars = 3;
constexpr std::size_t fewest_repeats = 3;
constexpr std::size_t telling_thirds = 4;

/// The order is the rank: what comes first wins where two reasons weigh the same.
enum class Reason : std::uint8_t {
  guide_tone_resolves,
  descent_from_nowhere,
  other_chord_on_top,
  chord_in_full,
  guide_tone_enclosed,
  tritone_substitute,
  slips_outside,
  riff_returns,
  call_is_answered,
  scale_in_thirds,
  sequence_moves,
  shape_returns,
  pushed_ahead
};

/// Reasons of one kind tell the same story: one of each kind is worth more than three alike.
enum class Kind : std::uint8_t { shape, crossing, outside, repeat, enclosure };
constexpr std::size_t kinds_of_reasons = static_cast<std::size_t>(Kind::enclosure) + 1;

Kind kind_of(Reason reason) {
  switch (reason) {
    case Reason::guide_tone_resolves:
    case Reason::pushed_ahead: return Kind::crossing;
    case Reason::descent_from_nowhere:
    case Reason::other_chord_on_top:
    case Reason::chord_in_full: return Kind::shape;
    case Reason::guide_tone_enclosed: return Kind::enclosure;
    case Reason::tritone_substitute:
    case Reason::slips_outside: return Kind::outside;
    case Reason::riff_returns:
    case Reason::call_is_answered:
    case Reason::scale_in_thirds:
    case Reason::sequence_moves:
    case Reason::shape_returns: return Kind::repeat;
  }
  return Kind::shape;
}

/// What arrives is told in the bar where it arrives, what is played in the bar where it begins.
bool arrives(Reason reason) { return reason == Reason::guide_tone_resolves || reason == Reason::guide_tone_enclosed; }

struct Candidate {
  Reason reason = Reason::chord_in_full;
  int weight = 0;                    ///< the more, the more telling
  TellingBar bar;                    ///< without its words
  std::function<std::string()> why;  ///< only the few that are shown are put into words
};

std::string in_words(const Degree& degree) {
  constexpr std::array<const char*, 14> names = {"",      "root",     "second",  "third",     "fourth",
                                                 "fifth", "sixth",    "seventh", "",          "ninth",
                                                 "",      "eleventh", "",        "thirteenth"};
  std::string name = names.at(static_cast<std::size_t>(degree.number));
  const bool told_by_the_chord = degree.number == 3 || degree.number == 7;
  if (degree.alter == 0 || told_by_the_chord) return name;
  return (degree.alter > 0 ? "sharp " : "flat ") + name;
}

std::string count_in_words(std::size_t count) {
  constexpr std::array<const char*, 11> words = {"no",  "one",   "two",   "three", "four", "five",
                                                 "six", "seven", "eight", "nine",  "ten"};
  return count < words.size() ? words.at(count) : std::to_string(count);
}

/// "third, fifth, seventh and ninth": each once, in the order played.
std::string listed(const std::vector<Degree>& degrees) {
  std::vector<Degree> different;
  for (const Degree& degree : degrees)
    if (std::ranges::find(different, degree) == different.end()) different.push_back(degree);
  std::string text;
  for (std::size_t i = 0; i < different.size(); ++i) {
    if (i > 0) text += i + 1 == different.size() ? " and " : ", ";
    text += in_words(different[i]);
  }
  return text;
}

class Search {
 public:
  Search(const HeardLine& line, std::span<const ScaleInThirds> scales, const Solo& solo, const Analysis& analysis)
      : line_(line), scales_(scales), solo_(solo), analysis_(analysis) {}

  std::vector<Candidate> find() {
    for (const Connection& connection : analysis_.connections) look_at(connection);
    for (const Arpeggio& arpeggio : analysis_.arpeggios) look_at(arpeggio);
    look_for_repeats();
    look_for_scales_in_thirds();
    for (const OutsideEvent& event : analysis_.outside_events) look_at(event);
    for (const TritoneSubstitute& substitute : find_tritone_substitutes(line_, analysis_.harmony)) look_at(substitute);
    for (const Riff& riff : analysis_.patterns.riffs) look_at(riff);
    for (const Sequence& sequence : analysis_.patterns.sequences) look_at(sequence);
    for (const CallAndAnswer& pair : find_calls_and_answers(line_, solo_, analysis_.patterns.riffs)) look_at(pair);
    for (const HeardNote& note : line_.notes) look_at(note);
    return std::move(found_);
  }

 private:
  const Chord& chord(std::size_t index) const { return analysis_.harmony.chords[index].chord; }
  std::string name(std::size_t note) const { return to_string(solo_.notes[note].pitch.name); }

  void add(Reason reason, int weight, std::size_t first, std::size_t last, std::function<std::string()> why) {
    const Beats& told_at = solo_.notes[arrives(reason) ? last : first].onset;
    const int bar = solo_.bars[bar_index_at(solo_, told_at)].number;
    found_.push_back({.reason = reason,
                      .weight = weight,
                      .bar = {.bar = bar, .first_note = first, .last_note = last, .why = {}},
                      .why = std::move(why)});
  }

  void look_at(const Connection& connection) {
    if (!connection.guide_tone || connection.kind == ConnectionKind::common_tone) return;
    const int weight = 4 + (is_half_step(connection) ? 3 : 0) + (is_on_time(connection) ? 3 : 0);
    add(Reason::guide_tone_resolves, weight, *connection.from_note, *connection.to_note, [this, &connection] {
      return fmt::format("{}, the {} of {}, {} a {} step to {}, the {} of {}{}", name(*connection.from_note),
                         in_words(*connection.from_degree), chord(connection.from_chord).symbol,
                         *connection.semitones < 0 ? "falls" : "rises", is_half_step(connection) ? "half" : "whole",
                         name(*connection.to_note), in_words(*connection.to_degree), chord(connection.to_chord).symbol,
                         is_on_time(connection) ? ", just as the chord arrives" : "");
    });
  }

  static bool is_half_step(const Connection& connection) { return connection.kind == ConnectionKind::half_step; }
  bool is_on_time(const Connection& connection) const {
    return solo_.notes[*connection.to_note].onset == analysis_.harmony.chords[connection.to_chord].onset;
  }

  static bool spells_another(const Arpeggio& arpeggio, const Chord& governor) {
    Chord own = governor;
    own.bass.reset();
    return !arpeggio.spells.empty() && arpeggio.spells != canonical_symbol(own);
  }

  void look_at(const Arpeggio& arpeggio) {
    const std::size_t first = arpeggio.notes.front();
    const std::size_t last = arpeggio.notes.back();
    const int size = static_cast<int>(arpeggio.notes.size());
    const Chord& governor = chord(arpeggio.governor);
    if (arpeggio.straight_descent)
      add(Reason::descent_from_nowhere, std::min(4 + size, 9), first, last,
          [this, &arpeggio] { return straight_down(arpeggio); });
    if (arpeggio.slipped && !arpeggio.spells.empty())
      add(Reason::slips_outside, 8, first, last, [this, &arpeggio] {
        return fmt::format("slips outside: plays {}, a {} step {} {}", arpeggio.spells,
                           std::abs(*arpeggio.slipped) == 1 ? "half" : "whole",
                           *arpeggio.slipped > 0 ? "above" : "below", chord(arpeggio.governor).symbol);
      });
    const bool reaches_up = std::ranges::any_of(arpeggio.degrees, [](const Degree& d) { return d.number > 7; });
    if (reaches_up && size >= 4 && spells_another(arpeggio, governor))
      add(Reason::other_chord_on_top, 8, first, last, [this, &arpeggio] {
        return fmt::format("plays {} over {}: its {}", arpeggio.spells, chord(arpeggio.governor).symbol,
                           listed(arpeggio.degrees));
      });
    const int tones = static_cast<int>(governor.tones.size());
    if (arpeggio.complete && tones > 3) {
      const int spare = size - tones;  // the fewer notes it takes, the clearer
      add(Reason::chord_in_full, std::max(9 - spare, 2), first, last, [this, &arpeggio] { return in_full(arpeggio); });
    }
  }

  /// More of its notes are foreign to the chord below than are tones of it.
  bool is_played_over(const Arpeggio& arpeggio) const {
    const Chord& below = chord(arpeggio.governor);
    const auto tones = std::ranges::count_if(arpeggio.degrees, [&](const Degree& degree) {
      return std::ranges::find(below.tones, degree) != below.tones.end();
    });
    return 2 * tones < std::ssize(arpeggio.degrees) && spells_another(arpeggio, below);
  }

  std::string straight_down(const Arpeggio& arpeggio) const {
    const auto leg = std::ranges::find_if(arpeggio.legs, comes_straight_down);
    const char* before = leg->first > 1 ? "turns, then " : "";
    const char* then = leg + 1 == arpeggio.legs.end() ? ""
                       : goes_both_ways(arpeggio)     ? ", and goes up again"
                                                      : ", turns and comes down again";
    const std::string& below = chord(arpeggio.governor).symbol;
    if (is_played_over(arpeggio))
      return fmt::format("{}comes straight down through {}, played over {}{}", before, arpeggio.spells, below, then);
    return fmt::format("{}comes straight down through {} from the {}{}", before, below,
                       in_words(top_of(arpeggio, *leg)), then);
  }

  /// Where it turns down by step, the note of the turn is a neighbour of the top: D E D Bb G comes down from D.
  const Degree& top_of(const Arpeggio& arpeggio, const Leg& leg) const {
    constexpr int whole_step = 2;
    const auto midi = [&](std::size_t at) { return midi_number(solo_.notes[arpeggio.notes[at]].pitch); };
    const bool turns_by_step = leg.first > 0 && midi(leg.first) - midi(leg.first + 1) <= whole_step;
    return arpeggio.degrees[turns_by_step ? leg.first + 1 : leg.first];
  }

  std::string in_full(const Arpeggio& arpeggio) const {
    const char* way = arpeggio.direction == Direction::ascending    ? ", going up"
                      : arpeggio.direction == Direction::descending ? ", going down"
                                                                    : "";
    return fmt::format("spells {} in full with {} notes{}, from the {}", chord(arpeggio.governor).symbol,
                       count_in_words(arpeggio.notes.size()), way, in_words(arpeggio.degrees.front()));
  }

  /// The same degrees in the same order, in three places or more.
  void look_for_repeats() {
    std::map<std::vector<Degree>, std::vector<std::size_t>> shapes;
    for (std::size_t i = 0; i < analysis_.arpeggios.size(); ++i) shapes[analysis_.arpeggios[i].degrees].push_back(i);
    for (const auto& [degrees, where] : shapes) {
      if (where.size() < fewest_repeats) continue;
      std::string cell;
      for (const Degree& degree : degrees) cell += (cell.empty() ? "" : "-") + to_string(degree);
      const Arpeggio& first = analysis_.arpeggios[where.front()];
      const int size = static_cast<int>(degrees.size() * where.size());
      add(Reason::shape_returns, std::min(size / 3 + 2, 8), first.notes.front(), first.notes.back(),
          [words = fmt::format("the shape {} comes here first of {} times", cell, count_in_words(where.size()))] {
            return words;
          });
    }
  }

  void look_for_scales_in_thirds() {
    for (const ScaleInThirds& scale : scales_) {
      const std::size_t thirds = (scale.last + 1 - scale.first) / 2;
      if (thirds < telling_thirds) continue;
      add(Reason::scale_in_thirds, std::min(static_cast<int>(thirds) + 3, 8), line_.notes[scale.first].note,
          line_.notes[scale.last].note, [this, &scale, thirds] { return in_thirds(scale, thirds); });
    }
  }

  std::string in_thirds(const ScaleInThirds& scale, std::size_t thirds) const {
    const char* way = scale.rises ? "up" : "down";
    if (!scale.of_no_scale)
      return fmt::format("a scale in thirds goes {} here: {} of them", way, count_in_words(thirds));
    constexpr int minor_third = 3;
    const int third = std::abs(line_.notes[scale.first + 1].midi - line_.notes[scale.first].midi);
    return fmt::format("{} thirds go {} in half steps here: {} of them", third == minor_third ? "minor" : "major", way,
                       count_in_words(thirds));
  }

  /// Its root as the line has it: B7 where it plays B D# F#, though Cb7 is a tritone above F7.
  std::string symbol_of(const TritoneSubstitute& substitute) const {
    const Chord named = chord_aside(chord(substitute.chord), 6);
    for (std::size_t note = substitute.first; note <= substitute.last; ++note) {
      const NoteName& written = solo_.notes[note].pitch.name;
      if (pitch_class(written) != pitch_class(named.root)) continue;
      for (const Accidentals accidentals : {Accidentals::flats, Accidentals::sharps})
        if (const Chord other = spelled_with(named, accidentals); other.root == written) return other.symbol;
    }
    return named.symbol;
  }

  void look_at(const TritoneSubstitute& substitute) {
    add(Reason::tritone_substitute, 9, substitute.first, substitute.last, [this, substitute] {
      return fmt::format("plays {}, the tritone substitute of {}", symbol_of(substitute),
                         chord(substitute.chord).symbol);
    });
  }

  void look_at(const Riff& riff) {
    constexpr int most = 9;
    const int times = static_cast<int>(riff.places.size());
    const RiffPlace& here = riff.places.front();
    add(Reason::riff_returns, std::min(times + 4, most), here.first, here.last, [&riff] {
      const bool fitted = std::ranges::any_of(riff.places, &RiffPlace::fitted);
      return fmt::format("a riff of {} notes comes here first of {} times{}",
                         count_in_words(static_cast<std::size_t>(riff.notes)), count_in_words(riff.places.size()),
                         fitted ? ", fitted to the chords" : "");
    });
  }

  void look_at(const Sequence& sequence) {
    if (sequence.thirds) return;  // told as a scale in thirds
    add(Reason::sequence_moves, std::min(sequence.times + 3, 8), sequence.first, sequence.last, [&sequence] {
      return fmt::format("a shape of {} notes goes {} in sequence here, {} times",
                         count_in_words(static_cast<std::size_t>(sequence.notes)), sequence.up ? "up" : "down",
                         count_in_words(static_cast<std::size_t>(sequence.times)));
    });
  }

  void look_at(const CallAndAnswer& pair) {
    add(Reason::call_is_answered, 7, pair.first, pair.last, [this, pair] {
      return fmt::format("a call of {} notes, which bar {} answers in the same rhythm", count_in_words(pair.notes),
                         solo_.bars[bar_index_at(solo_, solo_.notes[pair.answer].onset)].number);
    });
  }

  void look_at(const OutsideEvent& event) {
    add(Reason::slips_outside, 9, event.first, event.last, [this, &event] {
      return fmt::format("slips outside: {} to {} play {}, {} {}", name(event.first), name(event.last), event.plays,
                         way_aside(event.semitones), chord(event.chord).symbol);
    });
  }

  void look_at(const HeardNote& note) {
    const NoteLabel& label = analysis_.labels[note.note];
    if (label.figure == Figure::enclosure && label.resolves_to) {
      look_at_enclosure(note.note, *label.resolves_to);
    } else if (placement_when_struck(label) == Placement::anticipation && label.role == Role::chord_tone &&
               label.degree) {
      const bool guide = label.figure == Figure::third || label.figure == Figure::seventh;
      add(Reason::pushed_ahead, guide ? 6 : 3, note.note, note.note, [this, &note] {
        const NoteLabel& early = analysis_.labels[note.note];
        return fmt::format("{} is already the {} of {}, played ahead of the chord", name(note.note),
                           in_words(*early.degree), chord(*early.governor).symbol);
      });
    }
  }

  void look_at_enclosure(std::size_t note, std::size_t target) {
    const bool first_of_it = note == 0 || analysis_.labels[note - 1].resolves_to != target;
    const NoteLabel& goal = analysis_.labels[target];
    if (!first_of_it || target < note + 2 || !goal.governor || !goal.degree) return;
    const Chord& governor = chord(*goal.governor);
    if (goal.degree != third_of(governor) && goal.degree != seventh_of(governor)) return;
    add(Reason::guide_tone_enclosed, 7, note, target, [this, note, target] {
      const NoteLabel& enclosed = analysis_.labels[target];
      return fmt::format("{} and {} close in on {}, the {} of {}", name(note), name(target - 1), name(target),
                         in_words(*enclosed.degree), chord(*enclosed.governor).symbol);
    });
  }

  const HeardLine& line_;
  std::span<const ScaleInThirds> scales_;
  const Solo& solo_;
  const Analysis& analysis_;
  std::vector<Candidate> found_;
};

}  // namespace

std::vector<TellingBar> find_telling_bars(const HeardLine& line, std::span<const ScaleInThirds> scales,
                                          const Solo& solo, const Analysis& analysis) {
  Search search(line, scales, solo, analysis);
  std::vector<Candidate> found = search.find();
  std::ranges::stable_sort(found, [](const Candidate& a, const Candidate& b) {
    if (a.weight != b.weight) return a.weight > b.weight;
    if (a.reason != b.reason) return a.reason < b.reason;
    return a.bar.bar < b.bar.bar;
  });
  std::vector<TellingBar> bars;
  std::array<bool, kinds_of_reasons> used{};
  for (const bool new_kinds_only : {true, false}) {
    for (const Candidate& candidate : found) {
      if (bars.size() == most_bars) return bars;
      auto& kind_used = used.at(static_cast<std::size_t>(kind_of(candidate.reason)));
      const bool same_bar = std::ranges::find(bars, candidate.bar.bar, &TellingBar::bar) != bars.end();
      if (same_bar || (new_kinds_only && kind_used)) continue;
      kind_used = true;
      bars.push_back(candidate.bar);
      bars.back().why = candidate.why();
    }
  }
  return bars;
}

}  // namespace insideline
