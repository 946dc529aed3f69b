#include "analyzer/arpeggios.hpp"

#include "analyzer/arpeggio_legs.hpp"
#include "analyzer/arpeggio_runs.hpp"
#include "analyzer/best_runs.hpp"
#include "analyzer/harmony/chord_from_notes.hpp"
#include "analyzer/harmony/chord_symbol.hpp"
#include "analyzer/played_stacks.hpp"

#include <algorithm>
#include <bit>
#include <cstdlib>
#include <map>
#include <string>

namespace insideline {
namespace {

constexpr int nearest_slip = 1;
constexpr int widest_slip = 2;  // further away it is heard as another chord on top
constexpr int fewest_foreign = 2;

enum Place { root_place, third_place, fifth_place, seventh_place, ninth_place, eleventh_place, thirteenth_place };

Place place_of(const Degree& degree) {
  switch (degree.number) {
    case 1: return root_place;
    case 2:
    case 3:
    case 4: return third_place;
    case 5: return fifth_place;
    case 6:
    case 7: return seventh_place;
    case 9: return ninth_place;
    case 11: return eleventh_place;
    default: return thirteenth_place;
  }
}

/// The degree over a chord of a note that is neither tone nor tension nor labelled against it.
Degree usual_degree(const Chord& chord, int pitch_class_of_note) {
  constexpr std::array<Degree, pitch_classes> names{
      {{1, 0}, {9, -1}, {9, 0}, {9, 1}, {3, 0}, {11, 0}, {11, 1}, {5, 0}, {13, -1}, {13, 0}, {7, -1}, {7, 0}}};
  return names.at(static_cast<std::size_t>(pitch_class_of(pitch_class_of_note - pitch_class(chord.root))));
}

Degree degree_in(const Chord& chord, const HeardNote& note, const HeardLine& line, const Run& run, const Stack& own,
                 std::span<const NoteLabel> labels) {
  if (const auto& member = own.at(static_cast<std::size_t>(note.pitch_class))) return member->degree;
  const NoteLabel& label = labels[note.note];
  const bool heard_against_it = label.governor && line.stretch_of_chord[*label.governor] == run.stretch;
  return heard_against_it && label.degree ? *label.degree : usual_degree(chord, note.pitch_class);
}

/// The name that players give the root of a chord which is found by its sound alone: Db rather than C#, but C#m.
NoteName usual_root(const Chord& chord) {
  constexpr std::array<NoteName, pitch_classes> major{{{Step::c, 0},
                                                       {Step::d, -1},
                                                       {Step::d, 0},
                                                       {Step::e, -1},
                                                       {Step::e, 0},
                                                       {Step::f, 0},
                                                       {Step::g, -1},
                                                       {Step::g, 0},
                                                       {Step::a, -1},
                                                       {Step::a, 0},
                                                       {Step::b, -1},
                                                       {Step::b, 0}}};
  const auto at = static_cast<std::size_t>(pitch_class(chord.root));
  const auto third = third_of(chord);
  const bool minor = third && third->alter < 0;
  if (minor && at == 1) return {Step::c, 1};
  if (minor && at == 6) return {Step::f, 1};
  return major.at(at);
}

/// The chord that these degrees spell, the first of them its lowest note.
std::optional<Chord> chord_spelled_by(const NoteName& root, std::span<const Degree> degrees) {
  std::vector<NoteName> names;
  for (const Degree& degree : degrees) names.push_back(note_at(root, degree));
  auto other = chord_spelled_by(names);
  if (!other) return std::nullopt;
  const auto is_written = [&](const Degree& tone) {
    return std::ranges::find(names, note_at(other->root, tone)) != names.end();
  };
  if (!std::ranges::all_of(other->tones, is_written)) other->root = usual_root(*other);
  return other;
}

/// Ab B D over G7 is a diminished triad on the flat ninth by its sound; players hear the third, fifth and flat ninth
/// of a diminished seventh on B. The chord of `other`, or that one instead.
Chord stacked_on_a_tone(Chord other, const NoteName& root, std::span<const Degree> degrees) {
  constexpr std::array<Degree, 3> diminished{{{1, 0}, {3, -1}, {5, -1}}};
  constexpr Degree major_third{3, 0};
  constexpr Degree flat_ninth{9, -1};
  if (!std::ranges::equal(other.tones, diminished) || std::ranges::find(degrees, major_third) == degrees.end())
    return other;
  if (pitch_class(other.root) != pitch_class(note_at(root, flat_ninth))) return other;
  return parse_chord_symbol(to_string(note_at(root, major_third)) + "dim7").value().value_or(std::move(other));
}

/// Players come back to the same chords and the same shapes: each is named once.
class Speller {
 public:
  /// What the notes spell; the chord itself if they are exactly its tones, however else they might be named.
  const std::string& spelled(const Arpeggio& arpeggio, const Chord& chord, bool exactly_its_tones, std::size_t lowest) {
    if (exactly_its_tones) return symbol_of(chord);
    degrees_ = {arpeggio.degrees[lowest]};
    for (const Degree& degree : arpeggio.degrees)
      if (std::ranges::find(degrees_, degree) == degrees_.end()) degrees_.push_back(degree);
    note_down(chord.root, degrees_);
    const auto [named, is_new] = shapes_.try_emplace(key_);
    if (is_new)
      if (auto other = chord_spelled_by(chord.root, degrees_))
        named->second = symbol_of(stacked_on_a_tone(*std::move(other), chord.root, degrees_));
    return named->second;
  }

 private:
  using Key = std::vector<int>;

  /// Without its bass.
  const std::string& symbol_of(const Chord& chord) {
    note_down(chord.root, chord.tones);
    for (const Degree& tension : chord.tensions) add(tension);
    const auto [named, is_new] = chords_.try_emplace(key_);
    if (is_new) {
      Chord own = chord;
      own.bass.reset();
      named->second = canonical_symbol(own);
    }
    return named->second;
  }

  void add(const Degree& degree) { key_.insert(key_.end(), {degree.number, degree.alter}); }
  void note_down(const NoteName& root, std::span<const Degree> degrees) {
    key_ = {static_cast<int>(root.step), root.alter, static_cast<int>(degrees.size())};
    for (const Degree& degree : degrees) add(degree);
  }

  std::map<Key, std::string> chords_;  ///< by root, tones and tensions
  std::map<Key, std::string> shapes_;  ///< by root and degrees
  std::vector<Degree> degrees_;
  Key key_;
};

/// How far the chord below is moved where that gives the notes, and two of them are foreign to it: a side-slip.
std::optional<int> slip_of(PitchClassSet set, PitchClassSet tones, const Stack& own) {
  int foreign = 0;
  for (std::size_t tone = 0; tone < own.size(); ++tone)
    if (contains(set, static_cast<int>(tone)) && !own.at(tone)) ++foreign;
  if (foreign < fewest_foreign) return std::nullopt;
  for (int away = nearest_slip; away <= widest_slip; ++away)
    for (const int by : {away, -away})
      if ((set & ~moved_up(tones, pitch_class_of(by))) == 0) return by;
  return std::nullopt;
}

/// The chord in the run's stretch that its first note there is heard against.
std::size_t governor_of(const Run& run, const HeardLine& line, std::span<const NoteLabel> labels) {
  for (const std::size_t i : run.members)
    if (line.notes[i].stretch == run.stretch) return *labels[line.notes[i].note].governor;
  const Stretch& stretch = line.stretches[run.stretch];
  return *line.notes[run.members.front()].stretch > run.stretch ? stretch.last : stretch.first;
}

/// Up or down where all legs go that way.
Direction direction_of(const std::vector<Leg>& legs) {
  if (legs.empty()) return Direction::mixed;
  const auto same = [&](const Leg& leg) { return leg.direction == legs.front().direction; };
  return std::ranges::all_of(legs, same) ? legs.front().direction : Direction::mixed;
}

Arpeggio described(const Run& run, const HeardLine& line, const Stack& own, const Harmony& harmony,
                   std::span<const NoteLabel> labels, Speller& speller) {
  Arpeggio arpeggio;
  arpeggio.notes.reserve(run.members.size());
  arpeggio.degrees.reserve(run.members.size());
  PitchClassSet set = 0;
  std::size_t lowest = 0;
  std::size_t highest = 0;
  const auto midi = [&](std::size_t at) { return line.notes[run.members[at]].midi; };
  arpeggio.governor = governor_of(run, line, labels);
  const Chord& chord = harmony.chords[arpeggio.governor].chord;
  for (std::size_t at = 0; at < run.members.size(); ++at) {
    const HeardNote& note = line.notes[run.members[at]];
    arpeggio.notes.push_back(note.note);
    arpeggio.degrees.push_back(degree_in(chord, note, line, run, own, labels));
    set = static_cast<PitchClassSet>(set | (1U << note.pitch_class));
    if (midi(at) < midi(lowest)) lowest = at;
    if (midi(at) > midi(highest)) highest = at;
  }
  for (const std::size_t i : run.ornaments) arpeggio.ornaments.push_back(line.notes[i].note);
  const PitchClassSet tones = line.stretches[run.stretch].tones;
  const Stack played = run.played ? stack_of(*run.played) : Stack{};
  const Stack& stack = run.played ? played : own;
  arpeggio.complete = run.complete;
  arpeggio.span_semitones = midi(highest) - midi(lowest);
  arpeggio.inversion =
      inversion_by_lowest(*stack.at(static_cast<std::size_t>(line.notes[run.members[lowest]].pitch_class)));
  arpeggio.spells = speller.spelled(arpeggio, chord, set == tones, lowest);
  if (run.played) arpeggio.slipped = slip_of(set, tones, own);
  arpeggio.legs = legs_of(run, line, stack);
  arpeggio.direction = direction_of(arpeggio.legs);
  arpeggio.repeats = repeats_a_note(run, line);
  arpeggio.octave_displaced = is_octave_displaced(run, line, stack);
  return arpeggio;
}

/// What went through a chord last, each way, so that the next leg the other way is prepared by it.
class Preparation {
 public:
  void tell(Arpeggio& arpeggio, const HeardNote& first, std::size_t stretch) {
    for (Leg& leg : arpeggio.legs) {
      const bool down = leg.direction == Direction::descending;
      auto& before = down ? climbed_ : descended_;
      auto& now = down ? descended_ : climbed_;
      leg.prepared = before == Place{stretch, first.phrase};
      if (comes_straight_down(leg)) arpeggio.straight_descent = true;
      now = Place{stretch, first.phrase};
    }
  }

 private:
  struct Place {
    std::size_t stretch;
    std::size_t phrase;
    friend bool operator==(const Place&, const Place&) = default;
  };
  std::optional<Place> climbed_;
  std::optional<Place> descended_;
};

}  // namespace

int steps_in_stack(const Member& from, const Member& to) {
  return from.in_row && to.in_row ? *to.in_row - *from.in_row : to.place - from.place;
}

Stack stack_of(const Chord& chord) {
  Stack stack;
  const int root = pitch_class(chord.root);
  const bool has_seventh = std::ranges::any_of(chord.tones, [](const Degree& d) { return d.number == 7; });
  const auto add = [&](const Degree& degree, std::optional<int> in_row, bool extension = false) {
    auto& slot = stack[static_cast<std::size_t>((root + pitch_class_above_root(degree)) % pitch_classes)];
    if (!slot) slot = Member{degree, place_of(degree), in_row, extension || degree.number > 7};
  };
  int row = 0;
  for (const Degree& tone : chord.tones) add(tone, row++);
  for (const Degree& tension : chord.tensions)
    if (tension.number > 7 && (tension.number < 13 || has_seventh)) add(tension, std::nullopt);
  if (quality(chord) == ChordQuality::dominant) add({9, -1}, std::nullopt);
  for (const Degree& tension : chord.tensions)
    if (tension.number == 13 && !has_seventh) add({6, tension.alter}, row, true);
  return stack;
}

namespace {

/// By stretch. Each chord is stacked once.
std::vector<Stack> stacks_of(const HeardLine& line, const Harmony& harmony) {
  const std::vector<std::size_t> alike = first_alike(harmony);
  std::vector<Stack> stacks;
  stacks.reserve(line.stretches.size());
  for (const Stretch& stretch : line.stretches) {
    const std::size_t known = line.stretch_of_chord[alike[stretch.first]];
    stacks.push_back(known < stacks.size() ? stacks[known] : stack_of(harmony.chords[stretch.first].chord));
  }
  return stacks;
}

}  // namespace

std::vector<Arpeggio> find_arpeggios(const HeardLine& line, std::span<const ScaleInThirds> scales,
                                     const Harmony& harmony, std::span<const NoteLabel> labels) {
  const std::vector<Stack> stacks = stacks_of(line, harmony);
  std::vector<Arpeggio> arpeggios;
  Preparation preparation;
  Speller speller;
  for (const Run& run : best_runs(candidate_runs(line, scales, stacks, labels))) {
    Arpeggio arpeggio = described(run, line, stacks[run.stretch], harmony, labels, speller);
    preparation.tell(arpeggio, line.notes[run.members.front()], run.stretch);
    arpeggios.push_back(std::move(arpeggio));
  }
  return arpeggios;
}

}  // namespace insideline
