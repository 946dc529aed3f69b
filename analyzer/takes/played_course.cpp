#include "analyzer/takes/played_course.hpp"

#include <algorithm>
#include <utility>

namespace insideline {
namespace {

/// The pitch as the sheet's player reads it.
Pitch as_written(const LaidTake& laid, const Pitch& sounding) {
  const Interval by = laid.sheet.sounding_minus_written;
  return transposed(sounding, -by);
}

Mistake at_note(const LaidTake& laid, std::size_t note) {
  const Bar& bar = laid.sheet.bars[bar_of(laid, note)];
  Mistake mistake;
  mistake.bar = bar_name(laid, note);
  mistake.beat = beat_in_bar(bar, laid.on_sheet(note).onset);
  return mistake;
}

Mistake of_attempt(const LaidTake& laid, const Attempt& attempt) {
  Mistake mistake = at_note(laid, attempt.sheet);
  mistake.wanted = laid.on_sheet(attempt.sheet).written;
  mistake.octave_off = attempt.struck == Struck::octave_slip;
  if (!attempt.take) return mistake;
  const Pitch played = laid.in_take(*attempt.take).pitch;
  // An octave off is the same name, however the take spells it.
  mistake.played = as_written(
      laid, mistake.octave_off ? spelled_pitch(midi_number(played), laid.on_sheet(attempt.sheet).pitch.name) : played);
  return mistake;
}

std::vector<BarRun> silent_runs(const LaidTake& laid, const std::vector<bool>& has_notes,
                                const std::vector<bool>& is_struck) {
  std::vector<BarRun> runs;
  std::vector<std::string> names(laid.sheet.bars.size());
  for (std::size_t note = laid.sheet_notes.size(); note-- > 0;) names[bar_of(laid, note)] = bar_name(laid, note);
  bool in_run = false;
  for (std::size_t bar = 0; bar < names.size(); ++bar) {
    if (!has_notes[bar]) continue;
    if (is_struck[bar]) {
      in_run = false;
      continue;
    }
    if (!std::exchange(in_run, true)) runs.push_back({names[bar], names[bar]});
    runs.back().last = names[bar];
  }
  return runs;
}

}  // namespace

Coverage coverage_of(const LaidTake& laid, const TakeAlignment& alignment) {
  std::vector<bool> has_notes(laid.sheet.bars.size());
  std::vector<bool> is_struck(laid.sheet.bars.size());
  std::vector<bool> tried(laid.sheet_notes.size());
  for (const Attempt& attempt : alignment.attempts) {
    tried[attempt.sheet] = true;
    if (attempt.take) is_struck[bar_of(laid, attempt.sheet)] = true;
  }
  Coverage coverage;
  for (std::size_t note = 0; note < tried.size(); ++note) {
    const std::size_t bar = bar_of(laid, note);
    has_notes[bar] = true;
    if (is_struck[bar] && !tried[note]) coverage.left.push_back(note);
  }
  for (std::size_t bar = 0; bar < has_notes.size(); ++bar) {
    if (!has_notes[bar]) continue;
    ++coverage.bars.of;
    if (is_struck[bar]) ++coverage.bars.count;
  }
  coverage.silent = silent_runs(laid, has_notes, is_struck);
  return coverage;
}

bool is_once_more(const LaidTake& laid, const Restart& restart) {
  if (restart.from == 0 || laid.sheet_notes.empty()) return false;
  const std::size_t last = laid.sheet_notes.size() - 1;
  return bar_of(laid, restart.from - 1) == bar_of(laid, last) && bar_of(laid, restart.back_to) == bar_of(laid, 0) &&
         bar_of(laid, 0) != bar_of(laid, last);
}

std::vector<Interruption> interruptions_of(const LaidTake& laid, const TakeAlignment& alignment,
                                           const std::vector<TimeBreak>& breaks) {
  std::vector<Interruption> found;
  const auto before = [](std::size_t note) { return note == 0 ? note : note - 1; };
  for (const Restart& restart : alignment.restarts)
    if (!is_once_more(laid, restart))
      found.push_back({.how = Broken::began_again,
                       .bar = bar_name(laid, before(restart.from)),
                       .on_in = bar_name(laid, restart.back_to),
                       .after = restart.after});
  for (const Skip& skip : alignment.skips)
    if (skip.to < laid.sheet_notes.size())
      found.push_back({.how = Broken::left_out,
                       .bar = bar_name(laid, before(skip.from)),
                       .on_in = bar_name(laid, skip.to),
                       .after = skip.after});
  for (const TimeBreak& broken : breaks)
    found.push_back({.how = broken.quarters > 0.0 ? Broken::stopped : Broken::came_early,
                     .bar = bar_name(laid, alignment.attempts[broken.last].sheet),
                     .on_in = bar_name(laid, alignment.attempts[broken.next].sheet),
                     .quarters = broken.quarters > 0.0 ? broken.quarters : -broken.quarters,
                     .after = broken.next});
  std::ranges::stable_sort(found, {}, &Interruption::after);
  return found;
}

std::vector<Mistake> mistakes_of(const LaidTake& laid, const TakeAlignment& alignment,
                                 const std::vector<std::size_t>& left_out) {
  std::vector<Mistake> mistakes;
  auto added = alignment.added.begin();
  auto left = left_out.begin();
  const auto add_left_before = [&](std::size_t note) {
    for (; left != left_out.end() && *left < note; ++left) {
      mistakes.push_back(at_note(laid, *left));
      mistakes.back().wanted = laid.on_sheet(*left).written;
    }
  };
  const auto add_extra_before = [&](std::size_t take_note, std::size_t at) {
    for (; added != alignment.added.end() && *added < take_note; ++added) {
      mistakes.push_back(at_note(laid, at));
      mistakes.back().played = as_written(laid, laid.in_take(*added).pitch);
    }
  };
  for (const Attempt& attempt : alignment.attempts) {
    if (attempt.take) add_extra_before(*attempt.take, attempt.sheet);
    add_left_before(attempt.sheet);
    if (attempt.struck != Struck::right) mistakes.push_back(of_attempt(laid, attempt));
  }
  if (laid.sheet_notes.empty()) return mistakes;
  add_extra_before(laid.take_notes.size(), alignment.attempts.empty() ? 0 : alignment.attempts.back().sheet);
  add_left_before(laid.sheet_notes.size());
  return mistakes;
}

}  // namespace insideline
