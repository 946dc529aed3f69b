#include "analyzer/arpeggio_runs.hpp"

#include "analyzer/heaps.hpp"
#include "analyzer/played_stacks.hpp"

#include <algorithm>
#include <bit>
#include <cstdlib>
#include <iterator>

namespace insideline {
namespace {

constexpr int fewest_members = 3;
constexpr int whole_tone = 2;
constexpr int octave = 12;

/// A note that leaps or turns in and steps on to its target. On a strong place it is called appoggiatura.
bool is_approach(const NoteLabel& label) {
  return label.figure == Figure::approach_tone || label.figure == Figure::enclosure ||
         label.figure == Figure::appoggiatura;
}

/// A note that fills the way from member to member by step.
bool is_filling(const NoteLabel& label) {
  return label.figure == Figure::passing_tone || label.figure == Figure::neighbour_tone ||
         label.figure == Figure::double_neighbour;
}

enum class Ornaments : std::uint8_t { ignored, as_labelled };

class RunFinder {
 public:
  RunFinder(const HeardLine& line, std::span<const ScaleInThirds> scales, std::span<const Stack> stacks,
            std::span<const NoteLabel> labels)
      : line_(line), labels_(labels), heard_as_(line.notes.size()) {
    std::size_t scale = 0;
    for (std::size_t i = 0; i < line.notes.size(); ++i) {
      while (scale < scales.size() && scales[scale].last < i) ++scale;
      const bool in_thirds = scale < scales.size() && scales[scale].first <= i;
      heard_as_[i] = heard_as(i, stacks, in_thirds);
    }
  }

  std::vector<Run> find(Ornaments ornaments) const {
    std::vector<Run> runs;
    Run run;
    std::vector<std::size_t> pending;
    for (std::size_t i = 0; i < line_.notes.size(); ++i) {
      if (ornaments == Ornaments::as_labelled && is_ornament(i) && !run.members.empty() && !line_.notes[i].after_rest) {
        pending.push_back(i);
        continue;
      }
      const bool goes_on = !run.members.empty() && are_linked(run.members.back(), i) && lead_to(pending, i);
      if (goes_on) {
        run.ornaments.insert(run.ornaments.end(), pending.begin(), pending.end());
        run.members.push_back(i);
      } else {
        add_filled_parts(runs, run);
        run.members.clear();
        run.ornaments.clear();
        if (member(i) != nullptr) run.members.push_back(i);
      }
      pending.clear();
    }
    add_filled_parts(runs, run);
    return runs;
  }

  /// Runs from elsewhere, told what this one tells of its own.
  std::vector<Run> checked(std::vector<Run> others) const {
    std::vector<Run> runs;
    for (Run& run : others)
      if (is_long_enough(run)) add(runs, std::move(run));
    return runs;
  }

  /// The part of `run` from `first` to `last`, cut again where that leaves an extension alone.
  void add_part(std::vector<Run>& parts, const Run& run, std::size_t first, std::size_t last) const {
    const auto inside = [&](std::size_t i) { return i >= first && i <= last; };
    if (std::ranges::count_if(run.members, inside) + 1 < fewest_members) return;
    Run part = part_of(run, first, last);
    if (is_own(run))
      add_supported_parts(parts, part);
    else if (goes_by_leaps(part) && is_long_enough(part))
      add(parts, std::move(part));
  }

 private:
  bool goes_by_leaps(const Run& run) const {
    for (std::size_t to = 1; to < run.members.size(); ++to)
      if (move(run, to) != 0 && std::abs(move(run, to)) <= whole_tone) return false;
    return true;
  }

  static Run part_of(const Run& run, std::size_t first, std::size_t last) {
    Run part;
    part.stretch = run.stretch;
    part.played = run.played;
    const auto inside = [&](std::size_t i) { return i >= first && i <= last; };
    std::ranges::copy_if(run.members, std::back_inserter(part.members), inside);
    if (part.members.empty()) return part;
    const auto between = [&](std::size_t i) { return i > part.members.front() && i < part.members.back(); };
    std::ranges::copy_if(run.ornaments, std::back_inserter(part.ornaments), between);
    return part;
  }

  /// Through the chord that its notes are heard against, and no other.
  bool is_own(const Run& run) const {
    return !run.played && std::ranges::all_of(run.members, [&](std::size_t i) {
      return line_.notes[i].stretch == run.stretch && member(i) != nullptr;
    });
  }

  /// What a note can be to a run through the chord that it is heard against.
  struct HeardAs {
    const Member* member = nullptr;  ///< none for a note that is no member
    bool ornament = false;
    bool fills = false;  ///< the way from member to member, by step
  };

  HeardAs heard_as(std::size_t i, std::span<const Stack> stacks, bool in_thirds) const {
    HeardAs here{.member = nullptr, .ornament = false, .fills = is_on_the_way(i)};
    if (in_thirds) return here;
    const HeardNote& note = line_.notes[i];
    here.ornament = here.fills || is_approach(labels_[note.note]);
    if (!note.stretch) return here;
    const auto& slot = stacks[*note.stretch][static_cast<std::size_t>(note.pitch_class)];
    if (slot && !(slot->extension && note.role == Role::non_chord_tone)) here.member = &*slot;
    return here;
  }

  const Member* member(std::size_t i) const { return heard_as_[i].member; }
  bool is_ornament(std::size_t i) const { return heard_as_[i].ornament; }
  bool fills(std::size_t i) const { return heard_as_[i].fills; }

  /// As a foreign note, or as a colour that is stepped through.
  bool is_on_the_way(std::size_t i) const {
    if (is_filling(labels_[line_.notes[i].note])) return true;
    if (line_.notes[i].role != Role::tension || i == 0 || i + 1 >= line_.notes.size()) return false;
    const int in = line_.notes[i].midi - line_.notes[i - 1].midi;
    const int out = line_.notes[i + 1].midi - line_.notes[i].midi;
    return in * out > 0 && std::abs(in) <= whole_tone && std::abs(out) <= whole_tone;
  }

  bool lead_to(std::span<const std::size_t> pending, std::size_t target) const {
    return std::ranges::all_of(pending, [&](std::size_t i) {
      const NoteLabel& label = labels_[line_.notes[i].note];
      return fills(i) || label.resolves_to == line_.notes[target].note;
    });
  }

  bool are_stack_neighbours(std::size_t a, std::size_t b) const {
    return std::abs(steps_in_stack(*member(a), *member(b))) == 1;
  }

  bool are_linked(std::size_t a, std::size_t b) const {
    const HeardNote& from = line_.notes[a];
    const HeardNote& to = line_.notes[b];
    if (member(b) == nullptr || from.stretch != to.stretch || from.phrase != to.phrase || to.after_rest) return false;
    const bool extension = member(a)->extension || member(b)->extension;
    if (!extension || from.midi == to.midi || are_stack_neighbours(a, b)) return true;
    return std::abs(to.midi - from.midi) > whole_tone;
  }

  /// An extension needs its neighbour in the stack right before or after it, repeats of it aside.
  bool is_supported(std::span<const std::size_t> members, std::size_t at) const {
    if (!member(members[at])->extension) return true;
    const int midi = line_.notes[members[at]].midi;
    const auto other = [&](std::size_t i) { return line_.notes[i].midi != midi; };
    const auto after = std::ranges::find_if(members.subspan(at), other);
    if (after != members.end() && are_stack_neighbours(members[at], *after)) return true;
    for (std::size_t before = at; before-- > 0;)
      if (other(members[before])) return are_stack_neighbours(members[at], members[before]);
    return false;
  }

  int move(const Run& run, std::size_t to) const {
    return line_.notes[run.members[to]].midi - line_.notes[run.members[to - 1]].midi;
  }

  /// No note stands between the member and the one before, and it is no step.
  bool is_plain_leap(const Run& run, std::size_t to) const {
    return to > 0 && to < run.members.size() && run.members[to] - run.members[to - 1] == 1 &&
           std::abs(move(run, to)) > whole_tone;
  }

  /// A foreign note on the beat between members that are off it is heard as more than they are.
  bool is_accented(const Run& run, std::size_t to) const {
    const std::size_t from = run.members[to - 1];
    const std::size_t end = run.members[to];
    if (line_.notes[from].on_beat || line_.notes[end].on_beat) return false;
    return std::ranges::any_of(
        run.ornaments, [&](std::size_t i) { return i > from && i < end && line_.notes[i].on_beat && fills(i); });
  }

  /// A scale has its chord's tones, too. A way from member to member that is filled by step belongs to the arpeggio
  /// only where a leap to a member in the same direction goes before it or comes after it, or where it comes back.
  bool is_held_together(const Run& run, std::size_t to) const {
    const auto filling = [&](std::size_t i) { return i > run.members[to - 1] && i < run.members[to] && fills(i); };
    if (run.members[to] - run.members[to - 1] == 1 || std::ranges::none_of(run.ornaments, filling)) return true;
    if (is_accented(run, to) || member(run.members[to - 1])->extension || member(run.members[to])->extension)
      return false;
    const int way = move(run, to);
    const auto goes_the_same_way = [&](std::size_t other) {
      return is_plain_leap(run, other) && (move(run, other) > 0) == (way > 0);
    };
    return way == 0 || goes_the_same_way(to - 1) || goes_the_same_way(to + 1);
  }

  /// No more of its ways are steps or filled by step than are leaps; coming back to the same note is neither.
  bool leaps_enough(const Run& run) const {
    int leaps = 0;
    int steps = 0;
    bool filled = false;
    for (std::size_t to = 1; to < run.members.size(); ++to) {
      if (move(run, to) == 0) continue;
      const bool plain = run.members[to] - run.members[to - 1] == 1;
      const bool by_step = plain ? std::abs(move(run, to)) <= whole_tone : fills(run.members[to] - 1);
      filled = filled || (!plain && by_step);
      ++(by_step ? steps : leaps);
    }
    return !filled || leaps >= steps;
  }

  /// The members stand on the stronger places, or sound longer than what is between them.
  bool outweighs_what_is_between(const Run& run) const {
    double time = 0.0;
    int on_beat = 0;
    for (const std::size_t i : run.members) {
      time += line_.notes[i].duration;
      on_beat += line_.notes[i].on_beat ? 1 : 0;
    }
    for (const std::size_t i : run.ornaments) {
      if (!fills(i)) continue;
      time -= 2 * line_.notes[i].duration;
      on_beat -= line_.notes[i].on_beat ? 1 : 0;
    }
    return time > 0.0 || on_beat > 0;
  }

  void add_filled_parts(std::vector<Run>& runs, const Run& run) const {
    if (run.members.size() + 1 < fewest_members) return;
    std::size_t first = 0;
    for (std::size_t at = 1; at <= run.members.size(); ++at) {
      if (at < run.members.size() && (run.ornaments.empty() || is_held_together(run, at))) continue;
      if (first == 0 && at == run.members.size())
        add_supported_parts(runs, run);
      else
        add_supported_parts(runs, part_of(run, run.members[first], run.members[at - 1]));
      first = at;
    }
  }

  void add_supported_parts(std::vector<Run>& runs, const Run& run) const {
    if (run.members.size() + 1 < fewest_members) return;
    const auto lone = [&](std::size_t at) { return !is_supported(run.members, at); };
    std::size_t first = 0;
    for (std::size_t at = 0; at <= run.members.size(); ++at) {
      if (at < run.members.size() && !lone(at)) continue;
      if (first == 0 && at == run.members.size()) {
        add_with_borrowed(runs, run);
      } else if (at > first) {
        add_supported_parts(runs, part_of(run, run.members[first], run.members[at - 1]));
      }
      first = at + 1;
    }
  }

  /// `next` follows `note`, or goes before it: by a leap, in the same direction, a tone of the chord on the other side
  /// of the change. It leads in, or the chord is carried over.
  bool is_borrowed(std::size_t stretch, std::size_t next, std::size_t end, std::size_t inner) const {
    const HeardNote& other = line_.notes[next];
    const HeardNote& note = line_.notes[end];
    if (!other.stretch || other.stretch == note.stretch || other.phrase != note.phrase) return false;
    if (line_.notes[std::max(next, end)].after_rest) return false;
    if (!contains(line_.stretches[stretch].tones, other.pitch_class)) return false;
    const int leap = other.midi - note.midi;
    return std::abs(leap) > whole_tone && std::abs(leap) < octave &&
           (leap > 0) == (note.midi > line_.notes[inner].midi) && note.midi != line_.notes[inner].midi;
  }

  /// A note that arrives with the next chord makes no arpeggio out of two.
  void add_with_borrowed(std::vector<Run>& runs, const Run& run) const {
    if (!outweighs_what_is_between(run) || !leaps_enough(run)) return;
    const std::size_t first = run.members.front();
    const std::size_t last = run.members.back();
    const std::size_t stretch = *line_.notes[first].stretch;
    const bool before = first > 0 && is_borrowed(stretch, first - 1, first, run.members[1]);
    const bool after = is_long_enough(run) && last + 1 < line_.notes.size() &&
                       is_borrowed(stretch, last + 1, last, run.members[run.members.size() - 2]);
    if (before || after) {
      Run longer = run;
      longer.stretch = stretch;
      if (before) longer.members.insert(longer.members.begin(), first - 1);
      if (after) longer.members.push_back(last + 1);
      if (is_long_enough(longer)) add(runs, std::move(longer));
    }
    if (!is_long_enough(run)) return;
    Run own = run;
    own.stretch = stretch;
    add(runs, std::move(own));
  }

  /// Where the line turns or the chord changes a note may end one run and begin the next.
  bool may_be_shared(std::size_t i) const {
    if (i == 0 || i + 1 >= line_.notes.size()) return false;
    const HeardNote& before = line_.notes[i - 1];
    const HeardNote& note = line_.notes[i];
    const HeardNote& after = line_.notes[i + 1];
    if (before.stretch != note.stretch || note.stretch != after.stretch) return true;
    return (note.midi > before.midi) != (after.midi > note.midi);
  }

  std::size_t colours_in(const Run& run) const {
    const auto is_colour = [&](std::size_t i) { return member(i) != nullptr && member(i)->extension; };
    return static_cast<std::size_t>(std::ranges::count_if(run.members, is_colour));
  }

  /// Colours alone that turn to and fro, and a colour beside a single leap (C G A), are heard as no stack.
  bool is_no_stack(const Run& run) const {
    if (run.played) return false;
    const std::size_t colours = colours_in(run);
    int leaps = 0;
    int way = 0;
    bool turns = false;
    for (std::size_t to = 1; to < run.members.size(); ++to) {
      turns = turns || move(run, to) * way < 0;
      if (move(run, to) != 0) way = move(run, to);
      leaps += std::abs(move(run, to)) > whole_tone ? 1 : 0;
    }
    return (turns && colours == run.members.size()) || (colours > 0 && leaps < 2);
  }

  unsigned pitch_classes_of(const Run& run) const {
    unsigned set = 0;
    for (const std::size_t i : run.members) set |= 1U << line_.notes[i].pitch_class;
    return set;
  }

  bool is_long_enough(const Run& run) const {
    return run.members.size() >= fewest_members && std::popcount(pitch_classes_of(run)) >= fewest_members &&
           !is_no_stack(run);
  }

  void add(std::vector<Run>& runs, Run run) const {
    run.complete = (line_.stretches[run.stretch].tones & ~pitch_classes_of(run)) == 0;
    run.borrowed = static_cast<std::size_t>(std::ranges::count_if(
        run.members, [&](std::size_t i) { return run.played || line_.notes[i].stretch != run.stretch; }));
    run.colours = run.played ? 0 : colours_in(run);
    run.may_share_first = may_be_shared(run.members.front());
    runs.push_back(std::move(run));
  }

  const HeardLine& line_;
  std::span<const NoteLabel> labels_;
  std::vector<HeardAs> heard_as_;  // by note
};

/// True where choosing `outer` takes nothing away from `inner`.
bool holds(const Run& outer, const Run& inner) {
  return first_of(outer) <= first_of(inner) && last_of(inner) <= last_of(outer) &&
         std::ranges::includes(outer.members, inner.members);
}

}  // namespace

std::vector<Run> candidate_runs(const HeardLine& line, std::span<const ScaleInThirds> scales,
                                std::span<const Stack> stacks, std::span<const NoteLabel> labels) {
  const RunFinder finder(line, scales, stacks, labels);
  std::vector<Run> runs = finder.find(Ornaments::ignored);
  std::ranges::move(finder.find(Ornaments::as_labelled), std::back_inserter(runs));
  std::ranges::move(finder.checked(played_runs(line, stacks, labels, runs)), std::back_inserter(runs));
  std::ranges::stable_sort(runs, {}, first_of);
  std::vector<Run> parts;
  for (std::size_t i = 0; i < runs.size(); ++i) {
    for (std::size_t j = i + 1; j < runs.size() && first_of(runs[j]) <= last_of(runs[i]); ++j) {
      if (holds(runs[i], runs[j]) || holds(runs[j], runs[i])) continue;
      if (first_of(runs[j]) > 0) finder.add_part(parts, runs[i], first_of(runs[i]), first_of(runs[j]) - 1);
      finder.add_part(parts, runs[j], last_of(runs[i]) + 1, last_of(runs[j]));
    }
  }
  std::ranges::move(parts, std::back_inserter(runs));
  drop_heaps(runs, line, stacks);
  return runs;
}

}  // namespace insideline
