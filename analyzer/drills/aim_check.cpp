#include "analyzer/drills/aim_check.hpp"

#include "analyzer/analysis.hpp"
#include "analyzer/connections.hpp"
#include "analyzer/drills/aim_remarks.hpp"
#include "analyzer/drills/aimed_figures.hpp"

#include <algorithm>
#include <cstdlib>

namespace insideline {
namespace {

/// Counts places as kept or missed.
class Kept {
 public:
  Kept(const Drill& drill, const Analysis& analysis, std::span<const KeyStart> keys)
      : drill_(drill), analysis_(analysis), keys_(keys) {}

  /// Whether the change lies within a key, not between two.
  [[nodiscard]] bool is_within_key(const Connection& connection) const {
    const auto& chords = analysis_.harmony.chords;
    return std::ranges::none_of(keys_, [&](const KeyStart& key) {
      const Beats start = drill_.solo.bars[key.bar].onset;
      return chords[connection.from_chord].onset < start && start <= chords[connection.to_chord].onset;
    });
  }

  void change(const Connection& connection, DrillKind kind) {
    switch (kind) {
      case DrillKind::nearest_tones:
      case DrillKind::common_tones: return nearest(connection, kind);
      case DrillKind::enclosures: return enclosure(connection);
      case DrillKind::descents: return descent(connection);
      case DrillKind::guide_tones:
      case DrillKind::arpeggios:
      case DrillKind::cells: return;
    }
  }

  void nearest(const Connection& connection, DrillKind kind) {
    if (!connection.from_note || !connection.to_note) return;
    const int from = midi_of(*connection.from_note);
    const bool is_common = connection.kind == ConnectionKind::common_tone;
    const bool should_be = kind == DrillKind::common_tones && nearest_tones(from, to_chord(connection)).common;
    count(*connection.to_note, connection.took_nearest == true && is_common == should_be);
  }

  void descent(const Connection& connection) {
    constexpr std::size_t least = 3;
    const Chord& left = analysis_.harmony.chords[connection.from_chord].chord;
    if (!connection.from_note || !connection.to_note || arpeggio_tones(left).size() < least) return;
    count(*connection.to_note, connection.took_nearest == true && ends_straight_down(*connection.from_note));
  }

  void enclosure(const Connection& connection) {
    if (!connection.from_note || !connection.to_note || !enclosed_tone(to_chord(connection))) return;
    const std::size_t target = *connection.to_note;
    const auto& degree = analysis_.labels[target].degree;
    count(target, target >= 2 && degree == third_of(to_chord(connection)) && is_enclosed(target));
  }

  void guide_tones(int voices) {
    std::set<int> far = far_guide_tones(drill_, voices);
    for (const KeyStart& key : keys_) far.erase(drill_.solo.bars[key.bar].number);
    for (std::size_t note = 0; note < analysis_.labels.size(); ++note) {
      const NoteLabel& label = analysis_.labels[note];
      if (!label.chord) continue;
      const Chord& chord = analysis_.harmony.chords[*label.chord].chord;
      const GuidePair pair = guide_pair(chord);
      const int given = (pair.has_third ? 1 : 0) + (pair.has_seventh ? 1 : 0);
      const bool is_guide = label.degree == third_of(chord) || label.degree == seventh_of(chord);
      if (given == 0 || (given < voices && !is_guide)) continue;
      count(note, is_guide && !far.contains(bar_of(note)));
    }
  }

  [[nodiscard]] AimCheck result() const { return result_; }

 private:
  [[nodiscard]] int midi_of(std::size_t note) const { return midi_number(drill_.solo.notes[note].pitch); }
  [[nodiscard]] int bar_of(std::size_t note) const {
    return drill_.solo.bars[bar_index_at(drill_.solo, drill_.solo.notes[note].onset)].number;
  }
  [[nodiscard]] const Chord& to_chord(const Connection& connection) const {
    return analysis_.harmony.chords[connection.to_chord].chord;
  }

  [[nodiscard]] bool ends_straight_down(std::size_t note) const {
    return std::ranges::any_of(analysis_.arpeggios, [&](const Arpeggio& arpeggio) {
      return std::ranges::any_of(arpeggio.legs, [&](const Leg& leg) {
        return comes_straight_down(leg) && arpeggio.notes[leg.first] < note && note <= arpeggio.notes[leg.last];
      });
    });
  }

  /// One of the two notes before lies above the target, the other below, both a step away.
  [[nodiscard]] bool is_enclosed(std::size_t target) const {
    constexpr int whole_step = 2;
    const int first = midi_of(target - 2) - midi_of(target);
    const int second = midi_of(target - 1) - midi_of(target);
    return first * second < 0 && std::abs(first) <= whole_step && std::abs(second) <= whole_step;
  }

  void count(std::size_t note, bool is_kept) {
    ++result_.kept.of;
    if (is_kept)
      ++result_.kept.count;
    else
      result_.missed.insert(bar_of(note));
  }

  const Drill& drill_;
  const Analysis& analysis_;
  std::span<const KeyStart> keys_;
  AimCheck result_;
};

}  // namespace

std::optional<AimCheck> check_aim(const Drill& drill, const DrillSettings& settings, std::span<const KeyStart> keys) {
  if (settings.kind == DrillKind::arpeggios || settings.kind == DrillKind::cells) return std::nullopt;
  Settings strictly;
  strictly.hearing = Hearing::strict;
  strictly.detail = Detail::first_page;
  const Analysis analysis = analyze(drill.solo, drill.harmony, strictly);
  Kept kept(drill, analysis, keys);
  if (settings.kind == DrillKind::guide_tones) kept.guide_tones(settings.voices);
  for (const Connection& connection : analysis.connections)
    if (kept.is_within_key(connection)) kept.change(connection, settings.kind);
  return kept.result();
}

}  // namespace insideline
