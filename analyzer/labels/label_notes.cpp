#include "analyzer/labels/label_notes.hpp"

#include "analyzer/labels/degree_spelling.hpp"
#include "analyzer/labels/joint.hpp"
#include "analyzer/labels/label_model.hpp"
#include "analyzer/labels/note_context.hpp"
#include "analyzer/labels/pins.hpp"
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
  return is_member(reading) ? tension_over(chord, context.pitch_class) : degree_over(chord, note, rising);
}

Figure figure_of(const Reading& reading, const std::optional<Degree>& degree) {
  return is_member(reading) && degree ? member_figure(*degree) : motion_figure(reading.motive);
}

/// "passing tone", "third of G7": a label in a sentence.
std::string heard_as(const Reading& reading, const NoteContext& here, const Solo& solo, const Harmony& harmony) {
  const auto degree = degree_in(reading, here, solo, harmony);
  if (reading.motive == Motive::unexplained) return "outside";
  if (!is_member(reading)) return to_string(figure_of(reading, degree));
  const std::string kind = reading.motive == Motive::tension ? ", a tension" : "";
  return fmt::format("{} of {}{}", to_string(figure_of(reading, degree)),
                     harmony.chords[*governor(reading, here)].chord.symbol, kind);
}

class ChainLabels {
 public:
  ChainLabels(const Solo& solo, const Harmony& harmony, const Chain& chain, std::vector<NoteLabel>& labels,
              const Settings& settings, const PinnedNotes& pins, const MemberDegrees& members)
      : solo_(solo),
        harmony_(harmony),
        chain_(chain),
        labels_(labels),
        detail_(settings.detail),
        hearing_(settings.hearing),
        pins_(pins),
        members_(members) {
    if (!pins.any_in(chain)) {
      weighed_ = solve_chain(chain, hearing_);
      return;
    }
    PinnedLattice under_pins = pinned_lattice(chain, solo, harmony, hearing_, pins);
    pinned_ = std::move(under_pins.pinned);
    weighed_ = solve_lattice(chain, std::move(under_pins.lattice));
  }

  void write() {
    best_.reserve(chain_.size());
    for (std::size_t i = 0; i < chain_.size(); ++i) write_label(i);
    if (detail_ != Detail::reasons) return;
    for (std::size_t i = 0; i < chain_.size(); ++i) {
      const ReasonContext context{solo_, harmony_, chain_, i, *best_[i], labels_};
      labels_[chain_[i].note].reason = reason_for(context);
    }
    if (!pinned_.empty()) tell_pins();
  }

 private:
  /// The note is what it is said to be, as far as that goes.
  void set_by_pin(std::size_t i, const WeighedReadings& weighed) {
    const NoteContext& here = chain_[i];
    NoteLabel& label = labels_[here.note];
    const Reading& best = weighed.readings[weighed.best];
    label.pinned = true;
    const auto one_label = [&](const Reading& other) { return same_label(other, best); };
    const auto one_role = [&](const Reading& other) { return role_of(other) == role_of(best); };
    if (std::ranges::all_of(weighed.readings, one_label)) label.confidence = 1.0;
    if (std::ranges::all_of(weighed.readings, one_role)) label.role_probability = 1.0;
    const Pin& pin = *pins_.of(here.note);
    const auto said = label.governor
                          ? degree_by_pin(pin, harmony_.chords[*label.governor].chord, solo_.notes[here.note])
                          : std::nullopt;
    if (!said) return;
    label.degree = said;
    label.figure = figure_of(best, label.degree);
  }

  /// Whose word each label is, and what the program hears by itself.
  void tell_pins() {
    constexpr double hundred = 100.0;
    const WeighedChain own = solve_chain(chain_, hearing_);
    for (std::size_t i = 0; i < chain_.size(); ++i) {
      if (!pinned_[i]) continue;
      const WeighedReadings weighed = own[i];
      const Reading& heard = weighed.readings[weighed.best];
      const std::string share = fmt::format("{:.0f} %", std::min(weighed.label_probability, 1.0) * hundred);
      std::string& reason = labels_[chain_[i].note].reason;
      const bool outside_tone = best_[i]->motive == Motive::unexplained && chain_[i].is_tone;
      reason = outside_tone ? "set by hand as outside" : "set by hand: " + reason;
      reason += same_label(heard, *best_[i]) ? fmt::format("; heard so by the program, too ({})", share)
                                             : fmt::format("; the program by itself hears: {} ({})",
                                                           heard_as(heard, chain_[i], solo_, harmony_), share);
    }
  }

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
    label.degree = label.governor && is_member(reading) ? members_.over(*label.governor, here.pitch_class)
                                                        : degree_in(reading, here, solo_, harmony_);
    label.role = role_of(reading);
    label.figure = figure_of(reading, label.degree);
    if (const auto ahead = notes_to_target(reading)) label.resolves_to = target_of(i, *ahead);
    label.confidence = std::min(weighed.label_probability, 1.0);
    label.role_probability = std::min(weighed.role_probability, 1.0);
    if (detail_ == Detail::reasons && weighed.readings.size() > 1) label.alternatives = alternatives(weighed, here);
    if (!pinned_.empty() && pinned_[i]) set_by_pin(i, weighed);
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
  Hearing hearing_;
  const PinnedNotes& pins_;
  const MemberDegrees& members_;
  std::vector<bool> pinned_;  ///< empty where nothing is pinned
  WeighedChain weighed_;
  std::vector<const Reading*> best_;
};

/// Sets a grace note that is labelled already as `pin` says; else tells why that cannot be.
std::string pin_grace_note(NoteLabel& label, const Pin& pin, std::size_t note, const Solo& solo,
                           const Harmony& harmony) {
  NoteLabel said = label;
  if (std::string why = label_grace_note(said, pin, solo.notes[note], harmony); !why.empty()) return why;
  const bool moves = said.role == Role::non_chord_tone;
  if (said.role == Role::chord_tone || said.role == Role::tension) said.figure = member_figure(*said.degree);
  said.resolves_to = moves && note + 1 < solo.notes.size() ? std::optional(note + 1) : std::nullopt;
  said.reason =
      fmt::format("set by hand: grace note, {} of {}; the program by itself hears: {}, {}", to_string(*said.degree),
                  harmony.chords[*said.governor].chord.symbol, to_string(label.role), to_string(label.figure));
  said.pinned = true;
  label = std::move(said);
  return {};
}

/// A grace note belongs to the note it decorates: it is heard against that note's chord and counted nowhere.
std::vector<PinFault> label_grace_notes(const Solo& solo, const Harmony& harmony, const PinnedNotes& pins,
                                        std::vector<NoteLabel>& labels) {
  std::vector<PinFault> faults;
  for (std::size_t i = solo.notes.size(); i-- > 0;) {
    if (!solo.notes[i].grace) continue;
    NoteLabel& label = labels[i];
    label.chord = chord_index_at(harmony, solo.notes[i].onset);
    const bool decorates = i + 1 < solo.notes.size() && labels[i + 1].governor;
    label.governor = decorates ? labels[i + 1].governor : label.chord;
    const Pin* const pin = pins.of(i);
    if (!label.governor) {
      label.reason = "grace note; no chord sounds here";
      if (pin != nullptr) faults.push_back({pins.index_of(*pin), "no chord sounds there"});
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
      label.degree = tension_over(chord, pitch);
      label.figure = member_figure(*label.degree);
    } else {
      label.role = Role::outside;
      label.figure = Figure::unexplained;
    }
    label.reason = fmt::format("grace note: {} of {}", to_string(*label.degree), chord.symbol);
    if (pin == nullptr) continue;
    if (std::string why = pin_grace_note(label, *pin, i, solo, harmony); !why.empty())
      faults.push_back({pins.index_of(*pin), std::move(why)});
  }
  return faults;
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

WeighedChain solved(const Chain& chain, const Solo& solo, const Harmony& harmony, const Settings& settings) {
  const PinnedNotes pins(solo, settings.pins);
  if (!pins.any_in(chain)) return solve_chain(chain, settings.hearing);
  return solve_lattice(chain, pinned_lattice(chain, solo, harmony, settings.hearing, pins).lattice);
}

}  // namespace

std::vector<NoteLabel> label_notes(const Solo& solo, const Harmony& harmony, std::span<const Phrase> phrases,
                                   const Settings& settings) {
  std::vector<NoteLabel> labels(solo.notes.size());
  const PinnedNotes pins(solo, settings.pins);
  const MemberDegrees members(harmony);
  for_each_chain(solo, harmony, phrases, settings, [&](const Chain& chain) {
    ChainLabels(solo, harmony, chain, labels, settings, pins, members).write();
  });
  label_grace_notes(solo, harmony, pins, labels);
  return labels;
}

std::vector<PinFault> pin_faults(const Solo& solo, const Harmony& harmony, std::span<const Phrase> phrases,
                                 const Settings& settings) {
  Settings plain = settings;
  plain.detail = Detail::first_page;
  const PinnedNotes pins(solo, plain.pins);
  std::vector<NoteLabel> labels = label_notes(solo, harmony, phrases, plain);
  std::vector<PinFault> faults = label_grace_notes(solo, harmony, pins, labels);
  for_each_chain(solo, harmony, phrases, settings, [&](const Chain& chain) {
    if (!pins.any_in(chain)) return;
    std::ranges::move(pinned_lattice(chain, solo, harmony, settings.hearing, pins).faults, std::back_inserter(faults));
  });
  std::ranges::sort(faults, {}, &PinFault::pin);
  return faults;
}

std::vector<ExplainedReading> explain_note(const Solo& solo, const Harmony& harmony, std::span<const Phrase> phrases,
                                           std::size_t note, const Settings& settings) {
  std::vector<ExplainedReading> explained;
  for_each_chain(solo, harmony, phrases, settings, [&](const Chain& chain) {
    const auto here = std::ranges::find(chain, note, &NoteContext::note);
    if (here == chain.end() || !here->chord) return;
    const auto i = static_cast<std::size_t>(here - chain.begin());
    const WeighedChain weighed = solved(chain, solo, harmony, settings);
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
