#include "analyzer/takes/assessment.hpp"

#include "analyzer/measures/proportion.hpp"
#include "analyzer/model/sections.hpp"

#include <algorithm>
#include <initializer_list>
#include <span>

namespace insideline {
namespace {

constexpr std::size_t most_trouble_spots = 3;

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

/// As many of its degrees as tell arpeggios apart; a cell that is repeated makes one of any length.
std::string degrees_of(const Arpeggio& arpeggio) {
  constexpr std::size_t most_named = 7;
  std::string text;
  for (std::size_t i = 0; i < std::min(most_named, arpeggio.degrees.size()); ++i)
    text += (text.empty() ? "" : " ") + to_string(arpeggio.degrees[i]);
  return arpeggio.degrees.size() > most_named ? text + " ..." : text;
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
  Sorter(const LaidTake& laid, const Analysis& analysis)
      : laid_(laid), analysis_(analysis), arpeggio_of_(laid.sheet.notes.size()), arrives_(laid.sheet.notes.size()) {
    for (std::size_t a = 0; a < analysis.arpeggios.size(); ++a)
      for (const std::size_t note : analysis.arpeggios[a].notes) arpeggio_of_[note] = a;
    for (const Connection& connection : analysis.connections)
      if (connection.to_note) arrives_[*connection.to_note] = true;
    name_form_bars();
  }

  void sort(const TakeAlignment& alignment, Assessment& result) const {
    std::size_t pass = 1;
    auto restart = alignment.restarts.begin();
    for (std::size_t i = 0; i < alignment.attempts.size(); ++i) {
      for (; restart != alignment.restarts.end() && restart->after == i; ++restart)
        if (is_once_more(laid_, *restart)) ++pass;
      const Attempt& attempt = alignment.attempts[i];
      add(group_named(result.by_pass, "time " + std::to_string(pass)), attempt);
      sort(attempt, result);
    }
    for (const std::size_t note : result.coverage.left) sort({.sheet = note, .take = std::nullopt}, result);
    result.passes = static_cast<int>(pass);
    if (pass == 1) result.by_pass.clear();
  }

 private:
  void name_form_bars() {
    const std::vector<Bar>& bars = laid_.sheet.bars;
    const std::vector<SoundingSection>& sections = analysis_.harmony.sections;
    form_bars_.resize(bars.size());
    for (std::size_t i = 0; i < sections.size(); ++i) {
      if (place_among_its_name(sections, i).of < 2) continue;
      const std::size_t first = bar_index_at(laid_.sheet, sections[i].onset);
      for (std::size_t bar = first; bar < bars.size() && bars[bar].number <= sections[i].last_bar; ++bar)
        form_bars_[bar] = "bar " + std::to_string(bar - first + 1) + " of each " + sections[i].name;
    }
  }

  void sort(const Attempt& attempt, Assessment& result) const {
    const std::size_t note = laid_.sheet_notes[attempt.sheet];
    add(result.all, attempt);
    add(group_named(result.by_bar, "bar " + bar_name(laid_, attempt.sheet)), attempt);
    const std::string& form_bar = form_bars_[bar_of(laid_, attempt.sheet)];
    if (!form_bar.empty()) add(group_named(result.by_form_bar, form_bar), attempt);
    const NoteLabel& label = analysis_.labels[note];
    if (label.governor) {
      const SoundingChord& chord = analysis_.harmony.chords[*label.governor];
      add(group_named(result.by_chord, chord.chord.symbol), attempt);
      add(group_named(result.by_quality, to_string(quality(chord.chord)) + " chords"), attempt);
      add(group_named(result.by_place, arrives_[note] ? "as the chord changes" : "inside the chord"), attempt);
    }
    if (!arpeggio_of_[note]) return;
    const Arpeggio& arpeggio = analysis_.arpeggios[*arpeggio_of_[note]];
    add(group_named(result.by_direction, way_of(arpeggio.direction)), attempt);
    add(group_named(result.by_inversion, to_string(arpeggio.inversion)), attempt);
    add(group_named(result.by_cell, degrees_of(arpeggio)), attempt);
  }

  const LaidTake& laid_;
  const Analysis& analysis_;
  std::vector<std::optional<std::size_t>> arpeggio_of_;
  std::vector<bool> arrives_;           ///< by note of the sheet: the first one of a chord
  std::vector<std::string> form_bars_;  ///< by bar of the sheet; empty where its section comes once, or has no letter
};

double share_of(const TakeGroup& group) { return ratio(group.right).value_or(1.0); }

/// Whether less of the group comes out right than of all others, beyond what chance does to so few notes.
bool is_pattern(const TakeGroup& group, const TakeGroup& all, const TakeBounds& bounds) {
  if (group.right.of < bounds.fewest_in_pattern || group.right.of == all.right.of) return false;
  const Share others{.count = all.right.count - group.right.count, .of = all.right.of - group.right.of};
  const auto behind = newcombe_interval(others, group.right);
  return behind && behind->low > 0.0;
}

/// The worst first.
std::vector<TakeGroup> trouble_spots_of(const Assessment& result, const TakeBounds& bounds) {
  std::vector<TakeGroup> worst;
  for (const auto* groups : {&result.by_quality, &result.by_direction, &result.by_inversion, &result.by_cell,
                             &result.by_place, &result.by_form_bar})
    for (const TakeGroup& group : *groups)
      if (is_pattern(group, result.all, bounds)) worst.push_back(group);
  std::ranges::stable_sort(worst, {}, share_of);
  if (worst.size() > most_trouble_spots) worst.resize(most_trouble_spots);
  return worst;
}

std::vector<TakeGroup> bars_to_work_on(const std::vector<TakeGroup>& bars) {
  std::vector<TakeGroup> found;
  for (const TakeGroup& bar : bars)
    if (bar.right.count < bar.right.of) found.push_back(bar);
  return found;
}

}  // namespace

Assessment assess_take(const Solo& sheet, const Analysis& sheet_analysis, const Solo& take, const TakeBounds& bounds) {
  const LaidTake laid = laid_take(sheet, take);
  Assessment result;
  result.alignment = align_take(pitches_of(sheet, laid.sheet_notes), pitches_of(take, laid.take_notes));
  move_jumps_to_pauses(laid, result.alignment);
  leave_out_grace_notes(laid, result.alignment);
  const TakeTime time = take_time(laid, result.alignment, sheet_analysis.harmony.chorus_length, bounds);
  result.tempo = time.tempo;
  result.evenness = time.evenness;
  result.coverage = coverage_of(laid, result.alignment);
  result.interruptions = interruptions_of(laid, result.alignment, time.breaks);
  result.mistakes = mistakes_of(laid, result.alignment, result.coverage.left);
  for (const TimeBreak& hesitation : time.hesitations)
    result.hesitations.push_back(bar_name(laid, result.alignment.attempts[hesitation.next].sheet));
  result.all.name = "all";
  Sorter(laid, sheet_analysis).sort(result.alignment, result);
  result.added = static_cast<int>(result.alignment.added.size());
  result.restarts = static_cast<int>(std::ranges::count(result.interruptions, Broken::began_again, &Interruption::how));
  result.complete = result.coverage.bars.count == result.coverage.bars.of && result.coverage.bars.of > 0 &&
                    result.interruptions.empty();
  result.trouble_spots = trouble_spots_of(result, bounds);
  result.bars_to_work_on = bars_to_work_on(result.by_bar);
  return result;
}

}  // namespace insideline
