#include "analyzer/arpeggio_runs.hpp"

#include <algorithm>
#include <bit>
#include <compare>
#include <cstdlib>
#include <iterator>

namespace insideline {
namespace {

constexpr int fewest_members = 3;
constexpr int whole_tone = 2;

/// A note that leaps or turns in and steps on to its target. On a strong place it is called appoggiatura.
bool is_approach(const NoteLabel& label) {
  return label.figure == Figure::approach_tone || label.figure == Figure::enclosure ||
         label.figure == Figure::appoggiatura;
}

/// What a note may be while runs are collected.
enum class Ornaments : std::uint8_t { ignored, as_labelled };

class RunFinder {
 public:
  RunFinder(const HeardLine& line, std::span<const Stack> stacks, std::span<const NoteLabel> labels)
      : line_(line), stacks_(stacks), labels_(labels) {}

  std::vector<Run> find(Ornaments ornaments) const {
    std::vector<Run> runs;
    Run run;
    std::vector<std::size_t> pending;
    for (std::size_t i = 0; i < line_.notes.size(); ++i) {
      if (ornaments == Ornaments::as_labelled && is_ornament(i) && !run.members.empty()) {
        pending.push_back(i);
        continue;
      }
      const bool goes_on = !run.members.empty() && are_linked(run.members.back(), i) && lead_to(pending, i);
      if (goes_on) {
        run.ornaments.insert(run.ornaments.end(), pending.begin(), pending.end());
        run.members.push_back(i);
      } else {
        add_supported_parts(runs, run);
        run = {};
        if (member(i)) run.members.push_back(i);
      }
      pending.clear();
    }
    add_supported_parts(runs, run);
    return runs;
  }

  /// The part of `run` from `first` to `last`, cut again where that leaves an extension alone.
  void add_part(std::vector<Run>& parts, const Run& run, std::size_t first, std::size_t last) const {
    Run part;
    const auto inside = [&](std::size_t i) { return i >= first && i <= last; };
    std::ranges::copy_if(run.members, std::back_inserter(part.members), inside);
    if (part.members.empty()) return;
    const auto between = [&](std::size_t i) { return i > part.members.front() && i < part.members.back(); };
    std::ranges::copy_if(run.ornaments, std::back_inserter(part.ornaments), between);
    add_supported_parts(parts, part);
  }

 private:
  const std::optional<Member>& member(std::size_t i) const {
    static constexpr std::optional<Member> none;
    const HeardNote& note = line_.notes[i];
    if (!note.stretch) return none;
    const auto& slot = stacks_[*note.stretch][static_cast<std::size_t>(note.pitch_class)];
    return slot && slot->extension && note.role == Role::non_chord_tone ? none : slot;
  }

  bool is_ornament(std::size_t i) const { return is_approach(labels_[line_.notes[i].note]); }

  bool lead_to(std::span<const std::size_t> pending, std::size_t target) const {
    return std::ranges::all_of(
        pending, [&](std::size_t i) { return labels_[line_.notes[i].note].resolves_to == line_.notes[target].note; });
  }

  bool are_stack_neighbours(std::size_t a, std::size_t b) const {
    return std::abs(steps_in_stack(*member(a), *member(b))) == 1;
  }

  bool are_linked(std::size_t a, std::size_t b) const {
    const HeardNote& from = line_.notes[a];
    const HeardNote& to = line_.notes[b];
    if (!member(b) || from.stretch != to.stretch || from.phrase != to.phrase) return false;
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

  void add_supported_parts(std::vector<Run>& runs, const Run& run) const {
    if (run.members.size() < fewest_members) return;
    const auto lone = [&](std::size_t at) { return !is_supported(run.members, at); };
    std::size_t first = 0;
    for (std::size_t at = 0; at <= run.members.size(); ++at) {
      if (at < run.members.size() && !lone(at)) continue;
      if (first == 0 && at == run.members.size()) {
        add_if_long_enough(runs, run);
      } else if (at > first) {
        add_part(runs, run, run.members[first], run.members[at - 1]);
      }
      first = at + 1;
    }
  }

  void add_if_long_enough(std::vector<Run>& runs, Run run) const {
    unsigned set = 0;
    for (const std::size_t i : run.members) set |= 1U << line_.notes[i].pitch_class;
    if (std::popcount(set) < fewest_members) return;
    const PitchClassSet tones = line_.stretches[*line_.notes[run.members.front()].stretch].tones;
    run.complete = (tones & ~set) == 0;
    runs.push_back(std::move(run));
  }

  const HeardLine& line_;
  std::span<const Stack> stacks_;
  std::span<const NoteLabel> labels_;
};

std::size_t first_of(const Run& run) { return run.members.front(); }
std::size_t last_of(const Run& run) { return run.members.back(); }
/// True where choosing `outer` takes nothing away from `inner`.
bool holds(const Run& outer, const Run& inner) { return std::ranges::includes(outer.members, inner.members); }

/// What makes one set of runs better than another, the most important first.
struct Worth {
  std::size_t members = 0;
  std::size_t squared_lengths = 0;
  std::size_t complete = 0;
  friend auto operator<=>(const Worth&, const Worth&) = default;
};

Worth sum(const Worth& a, const Run& run) {
  const std::size_t length = run.members.size();
  return {a.members + length, a.squared_lengths + length * length, a.complete + (run.complete ? 1U : 0U)};
}

}  // namespace

std::vector<Run> candidate_runs(const HeardLine& line, std::span<const Stack> stacks,
                                std::span<const NoteLabel> labels) {
  const RunFinder finder(line, stacks, labels);
  std::vector<Run> runs = finder.find(Ornaments::ignored);
  if (std::ranges::none_of(labels, is_approach)) return runs;
  std::ranges::move(finder.find(Ornaments::as_labelled), std::back_inserter(runs));
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
  return runs;
}

std::vector<Run> best_runs(std::vector<Run> candidates) {
  std::ranges::stable_sort(candidates, {}, last_of);
  std::vector<Worth> best(candidates.size() + 1);      // of the first n candidates
  std::vector<std::size_t> before(candidates.size());  // how many end before this one begins
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    const auto sorted = std::span(candidates).first(i);
    const auto compatible = std::ranges::lower_bound(sorted, first_of(candidates[i]), {}, last_of);
    before[i] = static_cast<std::size_t>(compatible - sorted.begin());
    best[i + 1] = std::max(best[i], sum(best[before[i]], candidates[i]));
  }
  std::vector<Run> chosen;
  for (std::size_t i = candidates.size(); i > 0;) {
    if (best[i] == best[i - 1]) {
      --i;
    } else {
      chosen.push_back(std::move(candidates[i - 1]));
      i = before[i - 1];
    }
  }
  std::ranges::reverse(chosen);
  return chosen;
}

}  // namespace insideline
