#include "analyzer/played_stacks.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cstdlib>
#include <utility>

namespace insideline {
namespace {

constexpr int smallest_leap = 3;
constexpr int widest_leap = 9;  // a third that is turned round
constexpr int different_members = 3;
constexpr std::size_t seed_size = 3;
constexpr int stack_with_seventh = 4;

/// Semitones above the root and the degrees they are, third by third.
struct StackTone {
  int semitones;
  Degree degree;
};
struct StackKind {
  std::array<StackTone, 5> tones;
  int size;
};

constexpr StackTone tone_one{0, {1, 0}};
constexpr StackTone tone_major_third{4, {3, 0}};
constexpr StackTone tone_minor_third{3, {3, -1}};
constexpr StackTone tone_fifth{7, {5, 0}};
constexpr StackTone tone_flat_fifth{6, {5, -1}};
constexpr StackTone tone_sharp_fifth{8, {5, 1}};
constexpr StackTone tone_major_seventh{11, {7, 0}};
constexpr StackTone tone_minor_seventh{10, {7, -1}};
constexpr StackTone tone_diminished_seventh{9, {7, -2}};
constexpr StackTone tone_ninth{2, {9, 0}};
constexpr StackTone tone_flat_ninth{1, {9, -1}};

/// What is simpler stands first and wins where both explain the same notes.
constexpr std::array<StackKind, 16> stack_kinds{{
    {{{tone_one, tone_major_third, tone_fifth}}, 3},
    {{{tone_one, tone_minor_third, tone_fifth}}, 3},
    {{{tone_one, tone_minor_third, tone_flat_fifth}}, 3},
    {{{tone_one, tone_major_third, tone_sharp_fifth}}, 3},
    {{{tone_one, tone_major_third, tone_fifth, tone_minor_seventh}}, 4},
    {{{tone_one, tone_major_third, tone_fifth, tone_major_seventh}}, 4},
    {{{tone_one, tone_minor_third, tone_fifth, tone_minor_seventh}}, 4},
    {{{tone_one, tone_minor_third, tone_flat_fifth, tone_minor_seventh}}, 4},
    {{{tone_one, tone_minor_third, tone_flat_fifth, tone_diminished_seventh}}, 4},
    {{{tone_one, tone_minor_third, tone_fifth, tone_major_seventh}}, 4},
    {{{tone_one, tone_major_third, tone_sharp_fifth, tone_minor_seventh}}, 4},
    {{{tone_one, tone_major_third, tone_sharp_fifth, tone_major_seventh}}, 4},
    {{{tone_one, tone_major_third, tone_fifth, tone_minor_seventh, tone_ninth}}, 5},
    {{{tone_one, tone_major_third, tone_fifth, tone_major_seventh, tone_ninth}}, 5},
    {{{tone_one, tone_minor_third, tone_fifth, tone_minor_seventh, tone_ninth}}, 5},
    {{{tone_one, tone_major_third, tone_fifth, tone_minor_seventh, tone_flat_ninth}}, 5},
}};

/// By semitones above the root: the tones that stand next to this one in the stack; none for what is no tone of it.
using NextTones = std::array<PitchClassSet, pitch_classes>;

/// The top of a triad or seventh chord is next to its root.
constexpr NextTones next_tones_in(const StackKind& kind) {
  NextTones next{};
  for (int row = 0; row < kind.size; ++row) {
    const int above = row + 1 == kind.size ? 0 : row + 1;
    if (above == 0 && kind.size > stack_with_seventh) break;
    const int lower = kind.tones.at(static_cast<std::size_t>(row)).semitones;
    const int upper = kind.tones.at(static_cast<std::size_t>(above)).semitones;
    next.at(static_cast<std::size_t>(lower)) |= static_cast<PitchClassSet>(1U << static_cast<unsigned>(upper));
    next.at(static_cast<std::size_t>(upper)) |= static_cast<PitchClassSet>(1U << static_cast<unsigned>(lower));
  }
  return next;
}

constexpr auto next_tones = [] {
  std::array<NextTones, stack_kinds.size()> next{};
  for (std::size_t kind = 0; kind < next.size(); ++kind) next.at(kind) = next_tones_in(stack_kinds.at(kind));
  return next;
}();

bool are_next_tones(const PlayedChord& chord, int a, int b) {
  const auto first = static_cast<std::size_t>(pitch_class_of(a - chord.root));
  return contains(next_tones[chord.kind][first], pitch_class_of(b - chord.root));
}

/// By the semitones between two notes that are next tones: the roots of the chord, as if the first were C.
using RootsByInterval = std::array<PitchClassSet, pitch_classes>;

constexpr RootsByInterval roots_of_next_tones(const NextTones& next) {
  RootsByInterval roots{};
  for (int first = 0; first < pitch_classes; ++first)
    for (int second = 0; second < pitch_classes; ++second)
      if (contains(next.at(static_cast<std::size_t>(first)), second))
        roots.at(static_cast<std::size_t>(pitch_class_of(second - first))) |=
            static_cast<PitchClassSet>(1U << static_cast<unsigned>(pitch_class_of(-first)));
  return roots;
}

constexpr auto roots_by_interval = [] {
  std::array<RootsByInterval, stack_kinds.size()> roots{};
  for (std::size_t kind = 0; kind < roots.size(); ++kind) roots.at(kind) = roots_of_next_tones(next_tones.at(kind));
  return roots;
}();

/// The roots of the chords of one kind in which three notes are next tones, each to the one after it; the third is not
/// the first again.
PitchClassSet seed_roots(std::size_t kind, int first, int second, int third) {
  const int way = pitch_class_of(second - first);
  const RootsByInterval& roots = roots_by_interval[kind];
  const auto from_c =
      static_cast<PitchClassSet>(roots[static_cast<std::size_t>(way)] &
                                 moved_up(roots[static_cast<std::size_t>(pitch_class_of(third - second))], way));
  return first == third ? PitchClassSet{} : from_c;
}

class PlayedFinder {
 public:
  PlayedFinder(const HeardLine& line, std::span<const Stack> stacks, std::span<const NoteLabel> labels,
               std::span<const Run> own)
      : line_(line), stacks_(stacks), labels_(labels), own_(own), own_runs_(line.notes.size()) {
    for (std::size_t r = 0; r < own.size(); ++r)
      for (const std::size_t i : own[r].members) {
        auto& runs = own_runs_[i];
        (runs.first ? runs.second : runs.first) = r;
      }
  }

  std::vector<Run> find() {
    std::vector<Run> runs;
    for (std::size_t i = 0; i + seed_size <= line_.notes.size(); ++i) {
      if (!is_seed(i)) continue;
      const std::size_t before = runs.size();
      for (std::size_t kind = 0; kind < stack_kinds.size(); ++kind) {
        unsigned roots = seed_roots(kind, note(i).pitch_class, note(i + 1).pitch_class, note(i + 2).pitch_class);
        for (; roots != 0; roots &= roots - 1) {
          const int above_first = std::countr_zero(roots);
          add_grown(runs, before, i, {(above_first + note(i).pitch_class) % pitch_classes, kind});
        }
      }
    }
    return runs;
  }

 private:
  const HeardNote& note(std::size_t i) const { return line_.notes[i]; }
  int move_to(std::size_t i) const { return note(i).midi - note(i - 1).midi; }

  /// What grows from the seed at `first`, unless it is found already: those from this seed are `runs` from `before` on.
  void add_grown(std::vector<Run>& runs, std::size_t before, std::size_t first, const PlayedChord& chord) {
    std::size_t& done = seen_to_.at((chord.kind * pitch_classes) + static_cast<std::size_t>(chord.root));
    if (first < done) return;
    const Run whole = grown(first, chord);
    done = whole.members.back();
    for (Run& run : cut_at_changes(whole)) {
      const auto same = [&](const Run& other) { return other.members == run.members; };
      if (is_part_of_own(run) || std::any_of(runs.begin() + static_cast<std::ptrdiff_t>(before), runs.end(), same))
        continue;
      set_governor(run);
      runs.push_back(std::move(run));
    }
  }

  bool follows_on(std::size_t i) const {
    return counts(note(i)) && counts(note(i - 1)) && !note(i).after_rest && note(i).phrase == note(i - 1).phrase;
  }

  static bool is_leap(int move) { return std::abs(move) >= smallest_leap && std::abs(move) <= widest_leap; }

  /// Three notes one way by leaps. An enclosure leaps, too, but to close in on its target.
  bool is_seed(std::size_t i) const {
    const int first = move_to(i + 1);
    const int second = move_to(i + 2);
    if (!is_leap(first) || !is_leap(second) || (first > 0) != (second > 0)) return false;
    if (!follows_on(i + 1) || !follows_on(i + 2)) return false;
    int enclosing = 0;
    for (std::size_t k = i; k < i + seed_size; ++k)
      if (labels_[note(k).note].figure == Figure::enclosure) ++enclosing;
    return enclosing < 2;
  }

  /// One tone further: by a leap either way; by step only on in the same direction, between seventh and root.
  bool goes_on_to(std::size_t i, const PlayedChord& chord, int way) const {
    if (!follows_on(i)) return false;
    const int move = move_to(i);
    if (move == 0) return true;
    if (!are_next_tones(chord, note(i - 1).pitch_class, note(i).pitch_class)) return false;
    if (is_leap(move)) return true;
    return std::abs(move) < smallest_leap && (move > 0) == (way > 0) &&
           stack_kinds.at(chord.kind).size == stack_with_seventh;
  }

  Run grown(std::size_t first, const PlayedChord& chord) const {
    Run run;
    run.played = chord;
    int way = move_to(first + 1);
    if (first > 0 && move_to(first) != 0 && !is_leap(move_to(first)) && goes_on_to(first, chord, way) &&
        is_root(first - 1, chord))
      run.members.push_back(first - 1);
    for (std::size_t i = first; i < first + seed_size; ++i) run.members.push_back(i);
    std::size_t end_of_leg = first + seed_size;
    std::size_t turn = first;
    PitchClassSet in_leg = 0;
    for (std::size_t i = first + seed_size; i < line_.notes.size() && goes_on_to(i, chord, way); ++i) {
      const int move = move_to(i);
      if (move != 0 && (move > 0) != (way > 0)) {
        way = move;
        turn = i - 1;
        in_leg = static_cast<PitchClassSet>(1U << note(turn).pitch_class);
      }
      in_leg = static_cast<PitchClassSet>(in_leg | (1U << note(i).pitch_class));
      run.members.push_back(i);
      if (turn == first || std::popcount(in_leg) >= different_members) end_of_leg = i + 1;
    }
    std::erase_if(run.members, [&](std::size_t i) { return i >= end_of_leg; });
    drop_lone_step(run.members);
    return run;
  }

  bool is_root(std::size_t i, const PlayedChord& chord) const { return note(i).pitch_class == chord.root; }

  /// A step at either end belongs to the stack only where it closes the octave, root to root: 1 7 5 3 1.
  void drop_lone_step(std::vector<std::size_t>& members) const {
    const auto closes_the_octave = [&](std::size_t i) {
      return std::ranges::count(members, note(i).pitch_class, [&](std::size_t k) { return note(k).pitch_class; }) > 1;
    };
    const auto is_step = [&](std::size_t to) { return move_to(to) != 0 && !is_leap(move_to(to)); };
    if (is_step(members.back()) && !closes_the_octave(members.back())) members.pop_back();
    if (is_step(members[1]) && !closes_the_octave(members.front())) members.erase(members.begin());
  }

  /// What one chord hears of a run, `first` .. `end` - 1 of its members.
  struct Side {
    std::span<const std::size_t> members;
    std::size_t stretch = 0;
  };

  /// The members by the chords they are heard against. A note taken early counts only where the line stays ahead.
  std::vector<Side> sides_of(const Run& run) const {
    std::vector<Side> sides;
    std::size_t end = run.members.size();
    std::size_t stretch = *note(run.members.back()).stretch;
    for (std::size_t at = run.members.size(); at-- > 0;) {
      const std::size_t heard = *note(run.members[at]).stretch;
      if (heard >= stretch) continue;
      sides.push_back({std::span(run.members).subspan(at + 1, end - at - 1), stretch});
      stretch = heard;
      end = at + 1;
    }
    sides.push_back({std::span(run.members).first(end), stretch});
    std::ranges::reverse(sides);
    return sides;
  }

  bool has_tone(std::size_t stretch, std::size_t i) const {
    return contains(line_.stretches[stretch].tones, note(i).pitch_class);
  }

  /// The old chord is carried over the change. A single note that arrives there makes no arpeggio out of two.
  bool is_carried_over(const Side& old, const Side& next) const {
    if (next.members.size() == 1 && old.members.size() < seed_size) return false;
    return std::ranges::all_of(next.members, [&](std::size_t i) { return has_tone(old.stretch, i); });
  }

  /// The notes before the change lead into a chord that is played behind it: common tones, and colours of both.
  bool leads_in(const Side& old, const Side& next) const {
    const auto is_motion = [&](std::size_t i) { return note(i).role == Role::non_chord_tone; };
    if (std::ranges::all_of(next.members, is_motion)) return false;
    return std::ranges::all_of(old.members, [&](std::size_t i) {
      const auto& in_next = stacks_[next.stretch].at(static_cast<std::size_t>(note(i).pitch_class));
      return has_tone(next.stretch, i) || (in_next && !has_tone(old.stretch, i));
    });
  }

  void add_cut(std::vector<Run>& parts, Run part) const {
    if (part.members.size() >= seed_size) drop_lone_step(part.members);
    for (std::size_t at = 0; at + seed_size <= part.members.size(); ++at)
      if (is_seed(part.members[at])) return parts.push_back(std::move(part));
  }

  /// A note that arrives with the next chord is no part of what was played before it.
  std::vector<Run> cut_at_changes(const Run& run) const {
    const std::vector<Side> sides = sides_of(run);
    std::vector<Run> parts;
    Run part;
    part.played = run.played;
    for (std::size_t at = 0; at < sides.size(); ++at) {
      if (at > 0 && !is_carried_over(sides[at - 1], sides[at]) && !leads_in(sides[at - 1], sides[at])) {
        add_cut(parts, part);
        part.members.clear();
      }
      part.members.insert(part.members.end(), sides[at].members.begin(), sides[at].members.end());
    }
    add_cut(parts, std::move(part));
    return parts;
  }

  bool is_part_of_own(const Run& run) const {
    const auto holds_all = [&](const std::optional<std::size_t>& own) {
      return own && std::ranges::includes(own_[*own].members, run.members);
    };
    const auto& [plain, ornamented] = own_runs_[run.members.front()];
    return holds_all(plain) || holds_all(ornamented);
  }

  void set_governor(Run& run) const {
    unsigned set = 0;
    for (const std::size_t i : run.members) set |= 1U << note(i).pitch_class;
    const auto is_spelled = [&](std::size_t stretch) { return (set & ~line_.stretches[stretch].tones) == 0U; };
    const std::size_t first = *note(run.members.front()).stretch;
    const std::size_t last = *note(run.members.back()).stretch;
    run.stretch = below_most(run);
    if (!belongs_to(run, run.stretch) && belongs_to(run, last)) run.stretch = last;
    if (is_spelled(run.stretch)) {
      run.played.reset();
    } else {
      const std::size_t before = first > 0 && line_.stretches[first].follows ? first - 1 : first;
      const bool next = last + 1 < line_.stretches.size() && line_.stretches[last + 1].follows;
      for (const std::size_t near : {first, last, before, next ? last + 1 : last})
        if (run.played && is_spelled(near)) {
          run.stretch = near;
          run.played.reset();
        }
    }
    run.complete = (line_.stretches[run.stretch].tones & ~set) == 0U;
  }

  /// What is heard against another chord is a tone of this one.
  bool belongs_to(const Run& run, std::size_t stretch) const {
    return std::ranges::all_of(run.members,
                               [&](std::size_t i) { return note(i).stretch == stretch || has_tone(stretch, i); });
  }

  /// The stretch that most members are heard against; of equals the first.
  std::size_t below_most(const Run& run) const {
    std::size_t best = *note(run.members.front()).stretch;
    std::size_t most = 0;
    std::size_t here = 0;
    for (std::size_t at = 0; at < run.members.size(); ++at) {
      const std::size_t stretch = *note(run.members[at]).stretch;
      here = at > 0 && stretch == *note(run.members[at - 1]).stretch ? here + 1 : 1;
      if (here > most) {
        most = here;
        best = stretch;
      }
    }
    return best;
  }

  const HeardLine& line_;
  std::span<const Stack> stacks_;
  std::span<const NoteLabel> labels_;
  std::span<const Run> own_;
  std::vector<std::pair<std::optional<std::size_t>, std::optional<std::size_t>>> own_runs_;  // by note
  std::array<std::size_t, stack_kinds.size() * pitch_classes> seen_to_{};                    // by chord: its last run
};

}  // namespace

Stack stack_of(const PlayedChord& chord) {
  Stack stack;
  const StackKind& kind = stack_kinds.at(chord.kind);
  for (int row = 0; row < kind.size; ++row) {
    const StackTone& tone = kind.tones.at(static_cast<std::size_t>(row));
    stack.at(static_cast<std::size_t>((chord.root + tone.semitones) % pitch_classes)) =
        Member{tone.degree, row, row, tone.degree.number > 7};
  }
  return stack;
}

std::vector<Run> played_runs(const HeardLine& line, std::span<const Stack> stacks, std::span<const NoteLabel> labels,
                             std::span<const Run> own) {
  return PlayedFinder(line, stacks, labels, own).find();
}

}  // namespace insideline
