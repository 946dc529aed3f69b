#include "analyzer/labels/label_notes.hpp"

#include "analyzer/labels/degree_spelling.hpp"
#include "analyzer/labels/joint.hpp"
#include "analyzer/labels/label_model.hpp"
#include "analyzer/labels/note_context.hpp"
#include "analyzer/labels/reasons.hpp"
#include "analyzer/labels/row_choice.hpp"
#include "analyzer/labels/score_table.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace insideline {
namespace {

constexpr double worth_telling = 0.005;  // less likely alternatives are left out

Figure member_figure(const Degree& degree) {
  switch (degree.number) {
    case 1: return Figure::root;
    case 2: return Figure::second;
    case 3: return Figure::third;
    case 4: return Figure::fourth;
    case 5: return Figure::fifth;
    case 6: return Figure::sixth;
    case 7: return Figure::seventh;
    case 9: return Figure::ninth;
    case 11: return Figure::eleventh;
    case 13: return Figure::thirteenth;
    default: return Figure::none;
  }
}

Figure motion_figure(Motive motive) {
  switch (motive) {
    case Motive::passing: return Figure::passing_tone;
    case Motive::neighbour: return Figure::neighbour_tone;
    case Motive::double_neighbour: return Figure::double_neighbour;
    case Motive::enclosure:
    case Motive::opening_enclosure:
    case Motive::closing_enclosure: return Figure::enclosure;
    case Motive::approach:
    case Motive::double_approach: return Figure::approach_tone;
    case Motive::appoggiatura: return Figure::appoggiatura;
    case Motive::escape: return Figure::escape_tone;
    case Motive::pedal: return Figure::pedal;
    case Motive::unexplained: return Figure::unexplained;
    case Motive::no_chord:
    case Motive::chord_tone:
    case Motive::tension: return Figure::none;
  }
  return Figure::none;
}

/// Its figure is its degree.
bool is_member(const Reading& reading) {
  return reading.motive == Motive::chord_tone || reading.motive == Motive::tension;
}

std::optional<Degree> degree_in(const Reading& reading, const NoteContext& context, const Solo& solo,
                                const Harmony& harmony) {
  const auto chord_index = governor(reading, context);
  if (!chord_index) return std::nullopt;
  const Chord& chord = harmony.chords[*chord_index].chord;
  const Note& note = solo.notes[context.note];
  const bool rising = !context.out || context.out->semitones > 0;
  return is_member(reading) ? tension_over(chord, note) : degree_over(chord, note, rising);
}

Figure figure_of(const Reading& reading, const std::optional<Degree>& degree) {
  return is_member(reading) && degree ? member_figure(*degree) : motion_figure(reading.motive);
}

class ChainLabels {
 public:
  ChainLabels(const Solo& solo, const Harmony& harmony, const Chain& chain, std::vector<NoteLabel>& labels,
              const Settings& settings)
      : solo_(solo),
        harmony_(harmony),
        chain_(chain),
        labels_(labels),
        detail_(settings.detail),
        weighed_(solve_chain(chain, settings.hearing)) {}

  void write() {
    best_.reserve(chain_.size());
    for (std::size_t i = 0; i < chain_.size(); ++i) write_label(i);
    if (detail_ == Detail::labels) return;
    for (std::size_t i = 0; i < chain_.size(); ++i) {
      const ReasonContext context{solo_, harmony_, chain_, i, *best_[i], labels_};
      labels_[chain_[i].note].reason = reason_for(context);
    }
  }

 private:
  void write_label(std::size_t i) {
    const NoteContext& here = chain_[i];
    const WeighedReadings weighed = weighed_[i];
    const Reading& reading = weighed.readings[weighed.best];
    best_.push_back(&reading);
    NoteLabel& label = labels_[here.note];
    if (!here.pickup) label.chord = here.chord;
    label.governor = governor(reading, here);
    label.placement = reading.placement;
    label.slips = here.slips;
    label.degree = degree_in(reading, here, solo_, harmony_);
    label.role = role_of(reading);
    label.figure = figure_of(reading, label.degree);
    if (const auto ahead = notes_to_target(reading)) label.resolves_to = target_of(i, *ahead);
    label.confidence = std::min(weighed.label_probability, 1.0);
    label.role_probability = std::min(weighed.role_probability, 1.0);
    if (detail_ == Detail::reasons && weighed.readings.size() > 1) label.alternatives = alternatives(weighed, here);
  }

  [[nodiscard]] std::size_t target_of(std::size_t i, std::size_t ahead) const {
    std::size_t target = i + ahead;
    while (target + 1 < chain_.size() && chain_[target].midi == chain_[i].midi) ++target;
    return chain_[target].note;
  }

  /// The other labels, each with all readings that show as it.
  [[nodiscard]] std::vector<Alternative> alternatives(const WeighedReadings& weighed, const NoteContext& here) const {
    std::vector<Alternative> others;
    for (std::size_t k = 0; k < weighed.readings.size(); ++k) {
      const Reading& reading = weighed.readings[k];
      const auto same = [&](const Reading& other) { return same_label(other, reading); };
      const auto first = std::ranges::find_if(weighed.readings, same) - weighed.readings.begin();
      if (static_cast<std::size_t>(first) != k || same(weighed.readings[weighed.best])) continue;
      double probability = 0.0;
      for (std::size_t other = k; other < weighed.readings.size(); ++other)
        if (same(weighed.readings[other])) probability += weighed.probabilities[other];
      if (probability < worth_telling) continue;
      const auto degree = is_member(reading) ? degree_in(reading, here, solo_, harmony_) : std::nullopt;
      const auto place =
          std::ranges::upper_bound(others, probability, std::ranges::greater{}, &Alternative::probability);
      others.insert(place, {.role = role_of(reading),
                            .figure = figure_of(reading, degree),
                            .governor = governor(reading, here),
                            .probability = probability});
    }
    return others;
  }

  const Solo& solo_;
  const Harmony& harmony_;
  const Chain& chain_;
  std::vector<NoteLabel>& labels_;
  Detail detail_;
  WeighedChain weighed_;
  std::vector<const Reading*> best_;
};

/// A grace note belongs to the note it decorates: it is heard against that note's chord and counted nowhere.
void label_grace_notes(const Solo& solo, const Harmony& harmony, std::vector<NoteLabel>& labels) {
  for (std::size_t i = solo.notes.size(); i-- > 0;) {
    if (!solo.notes[i].grace) continue;
    NoteLabel& label = labels[i];
    label.chord = chord_index_at(harmony, solo.notes[i].onset);
    const bool decorates = i + 1 < solo.notes.size() && labels[i + 1].governor;
    label.governor = decorates ? labels[i + 1].governor : label.chord;
    if (!label.governor) {
      label.reason = "grace note; no chord sounds here";
      continue;
    }
    const Chord& chord = harmony.chords[*label.governor].chord;
    const int pitch = pitch_class(solo.notes[i].pitch.name);
    const int motion = decorates ? midi_number(solo.notes[i + 1].pitch) - midi_number(solo.notes[i].pitch) : 0;
    label.degree = degree_over(chord, solo.notes[i], motion > 0);
    if (tone_with(chord, pitch)) {
      label.role = Role::chord_tone;
      label.figure = member_figure(*label.degree);
    } else if (motion != 0 && motion >= -2 && motion <= 2) {
      label.role = Role::non_chord_tone;
      label.figure = Figure::approach_tone;
      label.resolves_to = i + 1;
    } else if (tension_with(chord, pitch)) {
      label.role = Role::tension;
      label.degree = tension_over(chord, solo.notes[i]);
      label.figure = member_figure(*label.degree);
    } else {
      label.role = Role::outside;
      label.figure = Figure::unexplained;
    }
    label.reason = fmt::format("grace note: {} of {}", to_string(*label.degree), chord.symbol);
  }
}

ExplainedRow explained(Row row) {
  const ScoreRow& entry = score_row(row);
  return {std::string(entry.name), score_value(row) / per_log_unit, std::string(entry.why)};
}

/// The rows of the note itself, then those for coming after the note before as it is labelled.
std::vector<ExplainedRow> explained_rows(const WeighedChain& weighed, const Reading& reading, const Chain& chain,
                                         std::size_t i) {
  std::vector<ExplainedRow> rows;
  for (const Row row : rows_for(reading, chain, i)) rows.push_back(explained(row));
  if (i == 0) return rows;
  const WeighedReadings note_before = weighed[i - 1];
  const Reading& before = note_before.readings[note_before.best];
  for (const Row row : rows_between(before, reading, chain, i)) rows.push_back(explained(row));
  return rows;
}

}  // namespace

std::vector<NoteLabel> label_notes(const Solo& solo, const Harmony& harmony, std::span<const Phrase> phrases,
                                   const Settings& settings) {
  std::vector<NoteLabel> labels(solo.notes.size());
  for_each_chain(solo, harmony, phrases, settings,
                 [&](const Chain& chain) { ChainLabels(solo, harmony, chain, labels, settings).write(); });
  label_grace_notes(solo, harmony, labels);
  return labels;
}

std::vector<ExplainedReading> explain_note(const Solo& solo, const Harmony& harmony, std::span<const Phrase> phrases,
                                           std::size_t note, const Settings& settings) {
  std::vector<ExplainedReading> explained;
  for_each_chain(solo, harmony, phrases, settings, [&](const Chain& chain) {
    const auto here = std::ranges::find(chain, note, &NoteContext::note);
    if (here == chain.end() || !here->chord) return;
    const auto i = static_cast<std::size_t>(here - chain.begin());
    const WeighedChain weighed = solve_chain(chain, settings.hearing);
    for (std::size_t k = 0; k < weighed[i].readings.size(); ++k) {
      const Reading& reading = weighed[i].readings[k];
      const auto degree = degree_in(reading, *here, solo, harmony);
      explained.push_back({role_of(reading), figure_of(reading, degree), reading.placement, governor(reading, *here),
                           degree, weighed[i].probabilities[k], explained_rows(weighed, reading, chain, i)});
    }
  });
  std::ranges::stable_sort(explained, std::ranges::greater{}, &ExplainedReading::probability);
  return explained;
}

}  // namespace insideline
