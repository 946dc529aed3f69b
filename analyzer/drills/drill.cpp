#include "analyzer/drills/drill.hpp"

#include "analyzer/alignment.hpp"
#include "analyzer/connections.hpp"
#include "analyzer/drills/aim_remarks.hpp"
#include "analyzer/drills/aimed_figures.hpp"
#include "analyzer/drills/best_figures.hpp"
#include "analyzer/drills/guide_tone_line.hpp"
#include "analyzer/drills/usual_scales.hpp"
#include "analyzer/harmony/tensions.hpp"
#include "analyzer/metre.hpp"
#include "analyzer/spelling.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <set>
#include <string_view>

namespace insideline {
namespace {

/// The bars of the form, chorus after chorus, without notes.
Solo empty_bars(const Changes& changes, int choruses) {
  Solo solo;
  solo.title = changes.title;
  solo.keys.push_back({Beats(0), changes.key.value_or(Key{})});
  for (int chorus = 0; chorus < choruses; ++chorus)
    for (const FormBar& bar : changes.bars)
      solo.bars.push_back({static_cast<int>(solo.bars.size()) + 1, form_length(changes) * Beats(chorus) + bar.onset,
                           bar.length, meter_of(changes, bar)});
  return solo;
}

/// Figures are the same for chords with the same tones and equally many places, and where the aim is the same.
class FigureStore {
 public:
  explicit FigureStore(const DrillSettings& settings) : settings_(settings) {}
  const DrillFigures* figures(const Chord& chord, const DrillSegment& segment, const Chord* next) {
    const int turn = settings_.every_inversion ? segment.chorus % 4 : 0;
    Key key{chord.root, chord.tones, chord.tensions, segment.slots.size(), turn, segment.is_change, aim(next)};
    const auto found = sets_.find(key);
    if (found != sets_.end()) return &found->second;
    return &sets_.emplace(std::move(key), figures_over(chord, segment, settings_, next)).first->second;
  }

 private:
  using Aim = std::pair<int, int>;  // the enclosed tone and how far above it the other lies
  using Key = std::tuple<NoteName, std::vector<Degree>, std::vector<Degree>, std::size_t, int, bool, Aim>;
  [[nodiscard]] Aim aim(const Chord* next) const {
    const auto tone = next && settings_.kind == DrillKind::enclosures ? enclosed_tone(*next) : std::nullopt;
    return tone ? Aim{tone->pitch_class, tone->above} : Aim{-1, 0};
  }

  const DrillSettings& settings_;
  std::map<Key, DrillFigures> sets_;
};

/// A chord whose root needs a double accidental, or whose tones do, is read enharmonically: see spelling.hpp.
Note unspelled_note(const Slot& slot, int midi) {
  Note note;
  note.onset = slot.onset;
  note.duration = slot.duration;
  note.pitch = spelled_pitch(midi, usual_name(midi % semitones_in_octave, Key{}));
  note.written = note.pitch;
  note.spelled = false;
  return note;
}

void place_notes(Drill& drill, std::span<const DrillSegment> segments, std::span<const DrillFigures* const> sets,
                 const ChosenFigures& chosen, DrillKind kind) {
  Solo& solo = drill.solo;
  for (std::size_t i = 0; i < segments.size(); ++i) {
    const std::span<const int> midi = sets[i]->notes_of(sets[i]->figures[chosen.figures[i]]);
    const bool is_held = kind == DrillKind::guide_tones && segments[i].goes_on && midi.size() == 1 &&
                         midi_number(solo.notes.back().pitch) == midi.front();
    if (is_held) {
      solo.notes.back().duration += segments[i].slots.front().duration;
      continue;
    }
    if (!midi.empty()) drill.figure_begins.push_back(solo.notes.size());
    for (std::size_t note = 0; note < std::min(midi.size(), segments[i].slots.size()); ++note)
      solo.notes.push_back(unspelled_note(segments[i].slots[note], midi[note]));
  }
}

Pitch readable(const Pitch& pitch, const Key& key) {
  if (std::abs(pitch.name.alter) <= 1) return pitch;
  const int midi = midi_number(pitch);
  return spelled_pitch(midi, usual_name(midi % semitones_in_octave, key));
}

/// Where the line moved to one of two equally near tones, and the other lies in the range as well.
std::vector<OpenChoice> open_choices_of(const Drill& drill, const DrillSettings& settings) {
  std::vector<OpenChoice> choices;
  const auto& notes = drill.solo.notes;
  for (std::size_t i = 1; i < notes.size(); ++i) {
    const auto before = chord_index_at(drill.harmony, notes[i - 1].onset);
    const auto here = chord_index_at(drill.harmony, notes[i].onset);
    if (!before || !here) continue;
    const SoundingChord& chord = drill.harmony.chords[*here];
    if (chord.stretch == drill.harmony.chords[*before].stretch) continue;
    const int from = midi_number(notes[i - 1].pitch);
    const int to = midi_number(notes[i].pitch);
    const NearestTones nearest = nearest_tones(from, chord.chord);
    if (from == to || !nearest.up || !nearest.down) continue;
    const int up = midi_number(*nearest.up);
    const int down = midi_number(*nearest.down);
    const bool both_fit = down >= settings.range.lowest && up <= settings.range.highest;
    if (up - from != from - down || !both_fit || (to != up && to != down)) continue;
    choices.push_back({i, readable(to == up ? *nearest.down : *nearest.up, drill.solo.keys.front().key)});
  }
  return choices;
}

std::string what_was_asked(const DrillSettings& settings) {
  switch (settings.kind) {
    case DrillKind::nearest_tones:
    case DrillKind::common_tones: return "a line within the range";
    case DrillKind::arpeggios:
      if (settings.from_tone)
        return fmt::format("an arpeggio of at least three tones from its {}", *settings.from_tone);
      return settings.inversion || settings.every_inversion ? "an arpeggio in that inversion"
                                                            : "an arpeggio of three tones";
    case DrillKind::cells: return "all tones of the cell within the range";
    case DrillKind::guide_tones: return "a third or a seventh within the range";
    case DrillKind::enclosures: return "a line that leads on within the range";
    case DrillKind::descents: return "an arpeggio down of three tones";
  }
  return {};
}

std::vector<std::string> remarks_on(const Drill& drill, std::span<const DrillSegment> segments,
                                    std::span<const DrillFigures* const> sets, const DrillSettings& settings) {
  std::map<std::string, std::set<int>> short_of;  // by chord symbol
  for (std::size_t i = 0; i < segments.size(); ++i)
    if (!sets[i]->as_asked)
      short_of[drill.harmony.chords[segments[i].chord].chord.symbol].insert(drill.solo.bars[segments[i].bar].number);
  if (settings.kind == DrillKind::guide_tones) return {};  // aim_remarks.hpp says more
  std::vector<std::string> remarks;
  for (const auto& [symbol, bars] : short_of)
    remarks.push_back(fmt::format("{} ({}) does not have {} here; {}.", symbol, bars_listed(bars),
                                  what_was_asked(settings),
                                  settings.kind == DrillKind::cells ? "it is left out" : "what it has is played"));
  return remarks;
}

/// Bars whose chords have fewer notes than tones, since there is no room.
std::vector<std::string> short_arpeggios(const Drill& drill, std::span<const DrillSegment> segments,
                                         std::span<const DrillFigures* const> sets) {
  std::set<int> bars;
  for (std::size_t i = 0; i < segments.size(); ++i)
    if (!sets[i]->has_all_tones) bars.insert(drill.solo.bars[segments[i].bar].number);
  if (bars.empty()) return {};
  return {fmt::format("No room for every tone in {}: third and seventh come first, another tone is left out.",
                      bars_listed(bars))};
}

/// "Cm7 (dorian)".
std::string with_scale(const Chord& chord) {
  const std::string_view scale = usual_scale_name(chord);
  return scale.empty() ? chord.symbol : fmt::format("{} ({})", chord.symbol, scale);
}

/// The tones of a cell that no chord symbol names: what they are instead.
class OtherTones {
 public:
  void add(const Chord& chord, const CellTone& tone) {
    constexpr int highest_own = 7;
    const auto own = own_tone(chord, tone.asked.number);
    const auto played = cell_tone(chord, tone);
    if (!played || sounds_among(chord.tones, *played)) return;
    const bool has_its_own = own && (own->number <= highest_own || sounds_among(chord.tones, *own));
    if (tone.exact) {
      if (has_its_own && own != played && said_.insert(chord.symbol + to_string(tone.asked)).second)
        remarks_.push_back(fmt::format("{} has {} of its own; {} is played, as the cell says.", chord.symbol,
                                       to_string(*own), to_string(tone.asked)));
      return;
    }
    if (own == played) {
      if (own->number > highest_own) tensions_[to_string(*played)].insert(chord.symbol);
      return;
    }
    of_scale_[to_string(*played)].insert(with_scale(chord));
    if (sounds_among(chord.avoid, *played)) avoided_[to_string(*played)].insert(chord.symbol);
    lowered_second_ = lowered_second_ || (quality(chord) == ChordQuality::half_diminished && played->number % 7 == 2);
  }

  std::vector<std::string> remarks() && {
    for (const auto& [tone, symbols] : tensions_)
      remarks_.push_back(fmt::format("{} over {} is a tension that the chord takes, not a tone of it.", tone,
                                     fmt::format("{}", fmt::join(symbols, ", "))));
    for (const auto& [tone, symbols] : of_scale_)
      remarks_.push_back(fmt::format("{} over {} is of the chord's usual scale, not of the chord.", tone,
                                     fmt::format("{}", fmt::join(symbols, ", "))));
    for (const auto& [tone, symbols] : avoided_)
      remarks_.push_back(fmt::format("{} over {} is a note to avoid: pass through it and do not hold it.", tone,
                                     fmt::format("{}", fmt::join(symbols, ", "))));
    if (lowered_second_)
      remarks_.emplace_back(
          "Locrian natural 2, with a 9 that is not lowered, is as usual over a half-diminished chord: write it as m9b5 "
          "in the changes to practise that.");
    return std::move(remarks_);
  }

 private:
  std::vector<std::string> remarks_;
  std::map<std::string, std::set<std::string>> tensions_;  // by tone, the chords
  std::map<std::string, std::set<std::string>> of_scale_;
  std::map<std::string, std::set<std::string>> avoided_;
  std::set<std::string> said_;
  bool lowered_second_ = false;
};

std::vector<std::string> other_tones(const Harmony& harmony, const DrillSettings& settings) {
  OtherTones others;
  for (const DrillCell& cell : settings.cells)
    for (const CellTone& tone : cell.tones)
      for (const SoundingChord& sounding : harmony.chords) others.add(sounding.chord, tone);
  return std::move(others).remarks();
}

/// Chords that are over before the cell is.
std::vector<std::string> cut_cells(const Drill& drill, std::span<const DrillSegment> segments, std::size_t tones) {
  std::map<std::string, std::set<int>> cut;
  for (const DrillSegment& segment : segments)
    if (!segment.goes_on && segment.slots.size() < tones)
      cut[drill.harmony.chords[segment.chord].chord.symbol].insert(drill.solo.bars[segment.bar].number);
  std::vector<std::string> remarks;
  for (const auto& [symbol, bars] : cut)
    remarks.push_back(fmt::format("{} ({}) is over before the cell is, which stops where the chord does.", symbol,
                                  bars_listed(bars)));
  return remarks;
}

/// Bars where no line in the range could take the nearest tone.
std::vector<std::string> out_of_range(const Drill& drill) {
  std::set<int> bars;
  const auto& notes = drill.solo.notes;
  for (std::size_t i = 1; i < notes.size(); ++i) {
    const auto before = chord_index_at(drill.harmony, notes[i - 1].onset);
    const auto here = chord_index_at(drill.harmony, notes[i].onset);
    if (!before || !here || drill.harmony.chords[*here].stretch == drill.harmony.chords[*before].stretch) continue;
    const int from = midi_number(notes[i - 1].pitch);
    const int to = midi_number(notes[i].pitch);
    const NearestTones nearest = nearest_tones(from, drill.harmony.chords[*here].chord);
    if (!nearest.up || from == to) continue;
    if (std::abs(to - from) > std::min(midi_number(*nearest.up) - from, from - midi_number(*nearest.down)))
      bars.insert(drill.solo.bars[bar_index_at(drill.solo, notes[i].onset)].number);
  }
  if (bars.empty()) return {};
  return {fmt::format("The nearest tone lies outside the range in {}; the nearest one inside it is taken.",
                      bars_listed(bars))};
}

std::vector<DrillSegment> places_over(const Drill& drill, const DrillSettings& settings) {
  if (settings.kind == DrillKind::cells)
    return cell_segments_of(drill.solo, drill.harmony, settings, settings.cells.front().tones.size());
  std::vector<std::size_t> wanted;
  for (const SoundingChord& sounding : drill.harmony.chords) wanted.push_back(wanted_tones(sounding.chord, settings));
  return segments_of(drill.solo, drill.harmony, settings, wanted);
}

}  // namespace

tl::expected<Drill, std::string> drill_over(const Changes& changes, const DrillSettings& settings) {
  Drill drill;
  drill.solo = empty_bars(changes, settings.choruses);
  if (!drill.solo.bars.empty()) drill.harmony = lay_out(changes, drill.solo);
  if (drill.harmony.chords.empty())
    return tl::unexpected(std::string("there is no chord to play over: every bar is N.C."));
  if (settings.range.highest - settings.range.lowest < semitones_in_octave)
    return tl::unexpected(fmt::format("the range {} is smaller than an octave", to_string(settings.range)));

  const std::vector<DrillSegment> segments = places_over(drill, settings);
  FigureStore store(settings);
  std::vector<const DrillFigures*> sets;
  for (const DrillSegment& segment : segments) {
    const Chord* next = segment.leads_to ? &drill.harmony.chords[*segment.leads_to].chord : nullptr;
    sets.push_back(store.figures(drill.harmony.chords[segment.chord].chord, segment, next));
  }
  const ConnectionRules rules{drill.harmony, settings};
  const bool guides = settings.kind == DrillKind::guide_tones;
  const ChosenFigures chosen = guides ? best_guide_tones(rules, segments, sets) : best_figures(rules, segments, sets);
  drill.cost = chosen.cost;
  place_notes(drill, segments, sets, chosen, settings.kind);
  if (drill.solo.notes.empty())
    return tl::unexpected("no chord of these changes has " + what_was_asked(settings) + " within the range");
  drill.solo = spelled_by_harmony(std::move(drill.solo), drill.harmony);
  drill.remarks = remarks_on(drill, segments, sets, settings);
  if (settings.kind == DrillKind::cells) {
    std::ranges::move(other_tones(drill.harmony, settings), std::back_inserter(drill.remarks));
    std::ranges::move(cut_cells(drill, segments, settings.cells.front().tones.size()),
                      std::back_inserter(drill.remarks));
  }
  std::ranges::move(short_arpeggios(drill, segments, sets), std::back_inserter(drill.remarks));
  std::ranges::move(aim_remarks(drill, settings), std::back_inserter(drill.remarks));
  if (!takes_nearest(settings)) return drill;
  drill.open_choices = open_choices_of(drill, settings);
  for (std::string& remark : out_of_range(drill)) drill.remarks.push_back(std::move(remark));
  return drill;
}

std::vector<OpenChoice> open_choices(const Drill& drill, const DrillSettings& settings) {
  return is_line(settings) ? open_choices_of(drill, settings) : std::vector<OpenChoice>{};
}

void set_instrument(Solo& solo, const Instrument& instrument) {
  solo.part = std::string(instrument.part);
  solo.sounding_minus_written = instrument.sounding_minus_written;
  const Interval up = -solo.sounding_minus_written;
  for (Note& note : solo.notes) note.written = transposed(note.pitch, up);
}

}  // namespace insideline
