#include "io/musicxml/play_out.hpp"

#include <algorithm>

namespace insideline::io {
namespace {

/// A chord of WrittenPart::chords at the time it begins to sound.
struct ChordOnset {
  Beats onset;
  std::size_t chord = 0;
};

bool is_continuation(const Note& before, const Beats& onset, const Pitch& pitch) {
  return !before.grace && midi_number(before.pitch) == midi_number(pitch) && end_of(before) == onset;
}

/// Gathers the chords of the measures in the order they are played.
class ChordLine {
 public:
  explicit ChordLine(const WrittenPart& part) : part_(part), at_end_(part.measures.size()) {}

  /// The next measure that is played; where it is not read on to, the chord that stands at the end of `before` holds.
  void play(const PlayedMeasure& played, std::optional<std::size_t> before) {
    if (played.written >= part_.measures.size()) return;  // a chord part may be shorter than the solo
    const WrittenMeasure& measure = part_.measures[played.written];
    const bool jumped = last_ && played.written != *last_ + 1;
    last_ = played.written;
    const bool starts_bare =
        measure.first_chord == measure.end_chord || part_.symbols[measure.first_chord].position > Beats{};
    if (jumped && starts_bare && before && at_end_[*before]) sound(played.onset, *at_end_[*before]);
    for (std::size_t i = measure.first_chord; i < measure.end_chord; ++i)
      onsets_.push_back({played.onset + std::min(part_.symbols[i].position, played.length), part_.symbols[i].chord});
    if (!onsets_.empty()) at_end_[played.written] = onsets_.back().chord;
  }

  std::vector<ChordOnset> onsets() && { return std::move(onsets_); }

 private:
  void sound(const Beats& onset, std::size_t chord) {
    if (onsets_.empty() || onsets_.back().chord != chord) onsets_.push_back({onset, chord});
  }

  const WrittenPart& part_;
  std::vector<std::optional<std::size_t>> at_end_;  ///< of each measure, when it was last played
  std::optional<std::size_t> last_;
  std::vector<ChordOnset> onsets_;
};

std::vector<FormBar> form_bars(const Solo& solo) {
  std::vector<FormBar> form;
  auto mark = solo.marks.begin();
  std::string section;
  for (const Bar& bar : solo.bars) {
    bool starts = false;
    for (; mark != solo.marks.end() && mark->onset <= bar.onset; ++mark) {
      section = mark->name;
      starts = true;
    }
    if (bar.number > 0)
      form.push_back(
          {.onset = bar.onset, .length = bar.length, .section = section, .meter = {}, .starts_section = starts});
  }
  return form;
}

/// The section that each measure lies in as the page has it.
std::vector<std::string> written_sections(const WrittenPart& part) {
  std::vector<std::string> sections;
  for (const WrittenMeasure& measure : part.measures)
    sections.push_back(measure.section.empty() && !sections.empty() ? sections.back() : measure.section);
  return sections;
}

/// Where the bar that holds `onset` begins; the first full bar for a place in the pickup.
Beats full_bar_at(std::span<const Bar> bars, const Beats& onset) {
  const auto after = std::ranges::upper_bound(bars, onset, {}, &Bar::onset);
  const Bar& bar = after == bars.begin() ? bars.front() : *std::prev(after);
  return bar.number == 0 && after != bars.end() ? after->onset : bar.onset;
}

}  // namespace

std::vector<Bar> played_bars(std::span<const PlayedMeasure> played) {
  std::vector<Bar> bars;
  bars.reserve(played.size());
  for (const PlayedMeasure& measure : played) {
    if (measure.shape == BarShape::second_half) {
      bars.back().length += measure.length;
      continue;
    }
    const int number = measure.shape == BarShape::pickup ? 0 : bars.empty() ? 1 : bars.back().number + 1;
    bars.push_back({number, measure.onset, measure.length, measure.meter});
  }
  return bars;
}

void share_section_signs(std::span<WrittenPart> parts) {
  std::vector<WrittenMeasure> all;
  for (const WrittenPart& part : parts) {
    if (all.size() < part.measures.size()) all.resize(part.measures.size());
    for (std::size_t i = 0; i < part.measures.size(); ++i) {
      if (all[i].section.empty()) all[i].section = part.measures[i].section;
      all[i].double_line_before = all[i].double_line_before || part.measures[i].double_line_before;
      all[i].double_line_after = all[i].double_line_after || part.measures[i].double_line_after;
    }
  }
  for (WrittenPart& part : parts)
    for (std::size_t i = 0; i < part.measures.size(); ++i) {
      part.measures[i].section = all[i].section;
      part.measures[i].double_line_before = all[i].double_line_before;
      part.measures[i].double_line_after = all[i].double_line_after;
    }
}

std::vector<RehearsalMark> played_marks(const WrittenPart& part, std::span<const PlayedMeasure> played,
                                        std::span<const Bar> bars) {
  const std::vector<std::string> sections = written_sections(part);
  std::vector<RehearsalMark> marks;
  std::string now;
  for (const PlayedMeasure& measure : played) {
    const std::string& section = sections[measure.written];
    const bool begins = !part.measures[measure.written].section.empty() || section != now;
    now = section;
    if (!begins || section.empty()) continue;
    const Beats onset = full_bar_at(bars, measure.onset);
    if (!marks.empty() && marks.back().onset == onset) marks.pop_back();
    marks.push_back({onset, section});
  }
  return marks;
}

std::vector<Beats> played_double_bars(const WrittenPart& part, std::span<const PlayedMeasure> played,
                                      std::span<const Bar> bars) {
  std::vector<Beats> lines;
  for (std::size_t k = 1; k < played.size(); ++k) {
    const WrittenMeasure& before = part.measures[played[k - 1].written];
    const WrittenMeasure& after = part.measures[played[k].written];
    if (!before.double_line_after && !after.double_line_before) continue;
    const bool begins_a_bar = std::ranges::find(bars, played[k].onset, &Bar::onset) != bars.end();
    if (begins_a_bar) lines.push_back(played[k].onset);
  }
  return lines;
}

std::vector<KeyChange> played_keys(const WrittenPart& part, std::span<const PlayedMeasure> played) {
  std::vector<std::optional<Key>> in_force;
  std::optional<Key> last;
  for (const WrittenMeasure& measure : part.measures) {
    if (measure.key) last = measure.key;
    in_force.push_back(last);
  }
  std::vector<KeyChange> keys;
  for (const PlayedMeasure& measure : played) {
    const auto& key = in_force[measure.written];
    if (key && (keys.empty() || keys.back().key != *key)) keys.push_back({measure.onset, *key});
  }
  return keys;
}

std::vector<Note> played_notes(const WrittenPart& part, const MelodicLine& line,
                               std::span<const PlayedMeasure> played) {
  std::vector<Note> notes;
  notes.reserve(line.notes.size());
  std::vector<std::uint32_t> visits(part.measures.size(), 0);
  bool tied_on = false;  // the last of `notes` expects to sound on
  for (const PlayedMeasure& measure : played) {
    const std::uint32_t visit = ++visits[measure.written];
    for (std::size_t i = line.first_note[measure.written]; i < line.first_note[measure.written + 1]; ++i) {
      const WrittenNote& source = line.notes[i];
      if (source.passes != 0 && (visit > 31 || (source.passes >> visit & 1U) == 0)) continue;
      const Beats onset = measure.onset + source.position;
      if (tied_on && source.tied_from && is_continuation(notes.back(), onset, source.pitch))
        notes.back().duration += source.duration;
      else
        notes.push_back({onset,
                         source.duration,
                         source.pitch,
                         source.written,
                         source.grace,
                         true,
                         {part.measures[measure.written].number, source.position, source.element}});
      tied_on = source.tied_on;
    }
  }
  return notes;
}

std::optional<Changes> played_changes(const WrittenPart& part, std::span<const PlayedMeasure> played,
                                      const PlayingOrder& order, const Solo& solo) {
  if (part.symbols.empty()) return std::nullopt;
  ChordLine line(part);
  for (std::size_t k = 0; k < played.size(); ++k)
    line.play(played[k], k < order.before.size() ? order.before[k] : std::nullopt);
  const std::vector<ChordOnset> onsets = std::move(line).onsets();
  Changes changes;
  changes.title = solo.title;
  changes.extent = Extent::once;
  if (!solo.keys.empty()) changes.key = solo.keys.front().key;
  changes.meter = solo.bars.front().meter;
  if (solo.bars.front().number == 0) changes.pickup = solo.bars.front().length;
  changes.bars = form_bars(solo);
  for (std::size_t i = 0; i < onsets.size(); ++i) {
    const Beats end = i + 1 < onsets.size() ? onsets[i + 1].onset : end_of(solo);
    if (end > onsets[i].onset)
      changes.spans.push_back({part.chords[onsets[i].chord], onsets[i].onset, end - onsets[i].onset});
  }
  return changes;
}

}  // namespace insideline::io
