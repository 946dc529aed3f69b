#include "analyzer/takes/assessment.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <functional>
#include <span>

namespace insideline {
namespace {

constexpr int fewest_to_blame = 4;  // notes; one wrong note of two says nothing
constexpr std::size_t most_trouble_spots = 3;
constexpr double seconds_a_minute = 60.0;

/// Indices of the notes that count.
std::vector<std::size_t> struck_notes(const Solo& solo) {
  std::vector<std::size_t> notes;
  for (std::size_t i = 0; i < solo.notes.size(); ++i)
    if (!solo.notes[i].grace) notes.push_back(i);
  return notes;
}

std::vector<int> pitches_of(const Solo& solo, std::span<const std::size_t> notes) {
  std::vector<int> pitches;
  for (const std::size_t note : notes) pitches.push_back(midi_number(solo.notes[note].pitch));
  return pitches;
}

void add(TakeGroup& group, const Attempt& attempt) {
  ++group.right.of;
  switch (attempt.struck) {
    case Struck::right: ++group.right.count; break;
    case Struck::octave_slip: ++group.octave_slips; break;
    case Struck::wrong: ++group.wrong; break;
    case Struck::missing: ++group.missing; break;
  }
}

/// The group of that name, made where there is none yet: groups stand in the order of their first note.
TakeGroup& group_named(std::vector<TakeGroup>& groups, const std::string& name) {
  const auto found = std::ranges::find(groups, name, &TakeGroup::name);
  if (found != groups.end()) return *found;
  groups.push_back({.name = name, .right = {}});
  return groups.back();
}

std::string degrees_of(const Arpeggio& arpeggio) {
  std::string text;
  for (const Degree& degree : arpeggio.degrees) text += (text.empty() ? "" : " ") + to_string(degree);
  return text;
}

std::string way_of(Direction direction) {
  switch (direction) {
    case Direction::ascending: return "up";
    case Direction::descending: return "down";
    case Direction::mixed: return "both ways";
  }
  return {};
}

/// Sorts the attempts into their groups.
class Sorter {
 public:
  Sorter(const Solo& sheet, const Analysis& analysis, std::span<const std::size_t> notes)
      : sheet_(sheet), analysis_(analysis), notes_(notes), arpeggio_of_(sheet.notes.size()) {
    for (std::size_t a = 0; a < analysis.arpeggios.size(); ++a)
      for (const std::size_t note : analysis.arpeggios[a].notes) arpeggio_of_[note] = a;
  }

  void sort(const TakeAlignment& alignment, Assessment& result) const {
    std::size_t pass = 1;
    auto restart = alignment.restarts.begin();
    for (std::size_t i = 0; i < alignment.attempts.size(); ++i) {
      for (; restart != alignment.restarts.end() && restart->after == i; ++restart)
        if (restart->back_to == 0 && restart->from == notes_.size()) ++pass;
      const Attempt& attempt = alignment.attempts[i];
      add(result.all, attempt);
      add(group_named(result.by_pass, "time " + std::to_string(pass)), attempt);
      sort(notes_[attempt.sheet], attempt, result);
    }
    result.passes = static_cast<int>(pass);
    if (pass == 1) result.by_pass.clear();
  }

 private:
  void sort(std::size_t note, const Attempt& attempt, Assessment& result) const {
    const Bar& bar = sheet_.bars[bar_index_at(sheet_, sheet_.notes[note].onset)];
    add(group_named(result.by_bar, "bar " + std::to_string(bar.number)), attempt);
    const NoteLabel& label = analysis_.labels[note];
    if (label.governor) {
      const SoundingChord& chord = analysis_.harmony.chords[*label.governor];
      add(group_named(result.by_chord, chord.chord.symbol), attempt);
      add(group_named(result.by_quality, to_string(quality(chord.chord)) + " chords"), attempt);
      const bool arrives = std::ranges::any_of(
          analysis_.connections, [&](const Connection& connection) { return connection.to_note == note; });
      add(group_named(result.by_place, arrives ? "as the chord changes" : "inside the chord"), attempt);
    }
    if (!arpeggio_of_[note]) return;
    const Arpeggio& arpeggio = analysis_.arpeggios[*arpeggio_of_[note]];
    add(group_named(result.by_direction, way_of(arpeggio.direction)), attempt);
    add(group_named(result.by_inversion, to_string(arpeggio.inversion)), attempt);
    add(group_named(result.by_cell, degrees_of(arpeggio)), attempt);
  }

  const Solo& sheet_;
  const Analysis& analysis_;
  std::span<const std::size_t> notes_;
  std::vector<std::optional<std::size_t>> arpeggio_of_;
};

double share_of(const TakeGroup& group) { return ratio(group.right).value_or(1.0); }

/// The groups clearly below the whole, the worst first.
std::vector<TakeGroup> trouble_spots_of(const Assessment& result) {
  std::vector<TakeGroup> worst;
  for (const auto* groups : {&result.by_quality, &result.by_direction, &result.by_inversion, &result.by_cell,
                             &result.by_place, &result.by_bar})
    for (const TakeGroup& group : *groups)
      if (group.right.of >= fewest_to_blame && group.right.count < group.right.of &&
          share_of(group) < share_of(result.all) - 0.05)
        worst.push_back(group);
  std::ranges::stable_sort(worst, {}, share_of);
  if (worst.size() > most_trouble_spots) worst.resize(most_trouble_spots);
  return worst;
}

/// A right note with its place on the page and its moment.
struct Moment {
  double quarters = 0.0;
  double seconds = 0.0;
};

/// The straight line through the moments: seconds = first + per_quarter * quarters.
struct Line {
  double first = 0.0;
  double per_quarter = 0.0;
};

std::optional<Line> fitted(std::span<const Moment> moments) {
  const auto count = static_cast<double>(moments.size());
  double mean_quarters = 0.0;
  double mean_seconds = 0.0;
  for (const Moment& moment : moments) {
    mean_quarters += moment.quarters / count;
    mean_seconds += moment.seconds / count;
  }
  double together = 0.0;
  double square = 0.0;
  for (const Moment& moment : moments) {
    together += (moment.quarters - mean_quarters) * (moment.seconds - mean_seconds);
    square += (moment.quarters - mean_quarters) * (moment.quarters - mean_quarters);
  }
  if (square <= 0.0 || together <= 0.0) return std::nullopt;
  const double slope = together / square;
  return Line{mean_seconds - slope * mean_quarters, slope};
}

/// Stretches of right notes without a step back between them.
std::vector<std::vector<Moment>> stretches_of(const TakeAlignment& alignment, const Solo& sheet, const Solo& take,
                                              std::span<const std::size_t> sheet_notes,
                                              std::span<const std::size_t> take_notes) {
  std::vector<std::vector<Moment>> stretches(1);
  auto restart = alignment.restarts.begin();
  for (std::size_t i = 0; i < alignment.attempts.size(); ++i) {
    for (; restart != alignment.restarts.end() && restart->after == i; ++restart) stretches.emplace_back();
    const Attempt& attempt = alignment.attempts[i];
    if (attempt.struck == Struck::right)
      stretches.back().push_back({to_double(sheet.notes[sheet_notes[attempt.sheet]].onset),
                                  take.performed[take_notes[*attempt.take]].onset_seconds});
  }
  return stretches;
}

std::optional<Evenness> evenness_of(const std::vector<std::vector<Moment>>& stretches) {
  constexpr std::size_t neighbours = 4;
  Evenness result;
  double squares = 0.0;
  double seconds_a_quarter = 0.0;
  for (const std::vector<Moment>& stretch : stretches)
    for (std::size_t i = 0; i < stretch.size() && stretch.size() > 2; ++i) {
      const std::size_t first = i > neighbours ? i - neighbours : 0;
      const std::size_t end = std::min(stretch.size(), i + neighbours + 1);
      const auto line = fitted(std::span(stretch).subspan(first, end - first));
      if (!line) continue;
      const double away = stretch[i].seconds - (line->first + line->per_quarter * stretch[i].quarters);
      squares += away * away;
      seconds_a_quarter += line->per_quarter;
      ++result.notes;
    }
  if (result.notes < 3) return std::nullopt;
  constexpr double ms = 1000.0;
  constexpr double percent = 100.0;
  seconds_a_quarter /= result.notes;
  const double spread = std::sqrt(squares / result.notes);
  result.tempo_bpm = seconds_a_minute / seconds_a_quarter;
  result.spread_ms = ms * spread;
  result.spread_percent = percent * spread / seconds_a_quarter;
  return result;
}

/// The notes of the sheet that one pass of the take gets right.
Share right_of(const TakeAlignment& alignment, std::size_t notes) {
  std::vector<bool> right(notes);
  for (const Attempt& attempt : alignment.attempts)
    if (attempt.struck == Struck::right) right[attempt.sheet] = true;
  return {.count = static_cast<int>(std::ranges::count(right, true)), .of = static_cast<int>(notes)};
}

/// Lines in one key share half of their notes by luck. What luck gives is shown by the sheet read backwards: the same
/// notes in an order nobody played. Both bounds are set by trying every demo piece against every other (common
/// practice, no source).
bool fits_by_luck(const Assessment& assessment, std::vector<int> sheet, std::span<const int> take) {
  constexpr double beyond_luck = 0.7;
  constexpr double clearly_cheaper = 0.8;
  if (ratio(assessment.all.right).value_or(0.0) >= beyond_luck) return false;
  std::ranges::reverse(sheet);
  return assessment.alignment.cost >= clearly_cheaper * align_take(sheet, take).cost;
}

}  // namespace

Assessment assess_take(const Solo& sheet, const Analysis& sheet_analysis, const Solo& take) {
  const std::vector<std::size_t> sheet_notes = struck_notes(sheet);
  const std::vector<std::size_t> take_notes = struck_notes(take);
  Assessment result;
  result.alignment = align_take(pitches_of(sheet, sheet_notes), pitches_of(take, take_notes));
  result.all.name = "all";
  Sorter(sheet, sheet_analysis, sheet_notes).sort(result.alignment, result);
  result.added = static_cast<int>(result.alignment.added.size());
  result.restarts = static_cast<int>(result.alignment.restarts.size()) - (result.passes - 1);
  result.trouble_spots = trouble_spots_of(result);
  if (!take.performed.empty())
    result.evenness = evenness_of(stretches_of(result.alignment, sheet, take, sheet_notes, take_notes));
  return result;
}

std::optional<AnotherSheet> looks_like_another_sheet(const Solo& sheet, const Solo& take,
                                                     const Assessment& assessment) {
  constexpr double half = 0.5;
  constexpr int furthest = 6;  // semitones to either side: every key
  const std::vector<std::size_t> sheet_notes = struck_notes(sheet);
  const std::vector<std::size_t> take_notes = struck_notes(take);
  AnotherSheet found;
  found.right = right_of(assessment.alignment, sheet_notes.size());
  const double played = std::max(static_cast<double>(take_notes.size()), 1.0);
  const double fits = std::min(1.0, found.right.count / std::min(played, static_cast<double>(found.right.of)));
  const std::vector<int> pitches = pitches_of(take, take_notes);
  if (fits >= half && !fits_by_luck(assessment, pitches_of(sheet, sheet_notes), pitches)) return std::nullopt;
  std::vector<int> moved(pitches.size());
  for (int by = -furthest; by <= furthest; ++by) {
    if (by == 0) continue;
    std::ranges::transform(pitches, moved.begin(), [&](int pitch) { return pitch - by; });
    const Share right = right_of(align_take(pitches_of(sheet, sheet_notes), moved), sheet_notes.size());
    if (!found.right_if_moved || right.count > found.right_if_moved->count) {
      found.right_if_moved = right;
      found.semitones = by;
    }
  }
  if (ratio(*found.right_if_moved).value_or(0.0) < half) {
    found.semitones.reset();
    found.right_if_moved.reset();
  }
  return found;
}

}  // namespace insideline
