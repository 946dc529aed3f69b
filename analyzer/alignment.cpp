#include "analyzer/alignment.hpp"

#include "analyzer/model/sections.hpp"
#include "analyzer/written_out_form.hpp"

#include <algorithm>
#include <optional>

#include <fmt/format.h>

namespace insideline {
namespace {

/// Adds one pass of the chart whose bar 1 falls on `first`, as far as it lies in the solo.
void add_pass(Harmony& harmony, const Changes& changes, const Solo& solo, const Beats& first, int chorus) {
  const Beats begin = changes.extent == Extent::looping ? Beats{} : solo.bars.front().onset;
  const Beats end = end_of(solo);
  for (const ChordSpan& span : changes.spans) {
    const Beats onset = std::max(first + span.onset, begin);
    const Beats stop = std::min(first + span.onset + span.duration, end);
    if (!span.chord || onset >= stop) continue;
    const int bar = solo.bars[bar_index_at(solo, onset)].number;
    harmony.chords.push_back(
        {.chord = *span.chord, .onset = onset, .duration = stop - onset, .bar = bar, .chorus = chorus});
  }
}

void number_stretches(Harmony& harmony) {
  for (std::size_t i = 1; i < harmony.chords.size(); ++i) {
    const SoundingChord& before = harmony.chords[i - 1];
    const bool goes_on =
        before.onset + before.duration == harmony.chords[i].onset && same_chord(before.chord, harmony.chords[i].chord);
    harmony.chords[i].stretch = before.stretch + (goes_on ? 0 : 1);
  }
}

/// Chords over a score go round where they are written out chorus after chorus.
void number_written_out_choruses(Harmony& harmony, const Solo& solo) {
  const auto bars = written_out_form(harmony, solo);
  const auto first = std::ranges::find(solo.bars, 1, &Bar::number);
  if (!bars || first == solo.bars.end()) return;
  const auto count = static_cast<std::ptrdiff_t>(*bars);
  harmony.first_chorus = first->onset;
  harmony.chorus_length = (first + count)->onset - first->onset;
  harmony.choruses = static_cast<int>((solo.bars.end() - first) / count);
  for (SoundingChord& sounding : harmony.chords) {
    const auto pass = whole_units(sounding.onset - harmony.first_chorus, harmony.chorus_length);
    sounding.chorus = std::clamp(static_cast<int>(pass) + 1, 1, harmony.choruses);
  }
}

bool is_in_threes(const Meter& meter) { return meter.unit >= 8 && meter.beats % 3 == 0; }

/// 4/4 and 2/2 lie under each other; 3/4 and 6/8 have one length but other beats.
bool fits(const Meter& chart, const Meter& solo) {
  return bar_length(chart) == bar_length(solo) && is_in_threes(chart) == is_in_threes(solo);
}

std::string in_beats(const Beats& time, const Meter& meter) {
  const Beats count = time / beat_length(meter);
  return count == Beats{} ? "none" : fmt::format("{} beat{}", to_string(count), count <= Beats(1) ? "" : "s");
}

/// What a chart has at a place in the solo: the meter of its bar there, and where in the bar the place is.
struct FormPlace {
  Meter meter;
  Beats length;  ///< of the chart's bar
  Beats into;    ///< from the beginning of that bar
};

/// The chart goes round in both directions from `first`, where its bar 1 falls.
FormPlace form_place(const Changes& changes, const Beats& first, const Beats& position) {
  const Beats form = form_length(changes);
  if (form <= Beats{}) {
    const Meter meter = changes.meter.value_or(Meter{});
    return {meter, bar_length(meter), remainder_within(position - first, bar_length(meter))};
  }
  const Beats place = remainder_within(position - first, form);
  const FormBar& bar = *std::prev(std::ranges::upper_bound(changes.bars, place, {}, &FormBar::onset));
  return {meter_of(changes, bar), bar.length, place - bar.onset};
}

bool changes_meter(const Changes& changes) {
  return std::ranges::any_of(changes.bars, [](const FormBar& bar) { return bar.meter.has_value(); });
}

std::optional<Disagreement> meter_disagreement(const Changes& changes, const Solo& solo, const Alignment& alignment) {
  const Beats first = first_bar_onset(solo, alignment);
  for (const Bar& bar : solo.bars) {
    if (bar.number < 1) continue;
    const Meter meter = form_place(changes, first, bar.onset).meter;
    if (fits(meter, bar.meter)) continue;
    const std::string chart = changes_meter(changes) || changes.meter
                                  ? fmt::format("the changes are in {}", to_string(meter))
                                  : fmt::format("the changes state no meter, which means {}", to_string(meter));
    const std::string_view there = changes_meter(changes) ? " there" : "";
    return Disagreement{Contradiction::meter, fmt::format("{}{}, but bar {} of the solo is in {}", chart, there,
                                                          bar.number, to_string(bar.meter))};
  }
  return std::nullopt;
}

/// A bar of the chart must begin with a bar of the solo. The solo may have more bar lines:
/// a bar split by a repeat sign is two.
std::optional<Disagreement> bars_disagreement(const Changes& changes, const Solo& solo, const Alignment& alignment) {
  const Beats first = first_bar_onset(solo, alignment);
  const Bar* irregular = nullptr;  // the first one since the bars last began together
  for (const Bar& bar : solo.bars) {
    if (bar.number < 1 || &bar == &solo.bars.back()) continue;
    const FormPlace chart = form_place(changes, first, bar.onset);
    if (chart.into == Beats{}) irregular = nullptr;
    if (irregular == nullptr && bar.length != chart.length) irregular = &bar;
    if (chart.into + bar.length <= chart.length) continue;
    const Bar& cause = irregular != nullptr ? *irregular : bar;
    return Disagreement{Contradiction::bars,
                        fmt::format("bar {} of the solo has {}, so that after it the bars of the changes and of the "
                                    "solo no longer begin together",
                                    cause.number, in_beats(cause.length, cause.meter))};
  }
  return std::nullopt;
}

/// Relative keys share a signature, and scores often do not say which of the two they mean.
std::optional<Disagreement> key_disagreement(const Changes& changes, const Solo& solo) {
  const auto key = key_at(solo, {});
  if (!changes.key || !key || changes.key->fifths == key->fifths) return std::nullopt;
  const Interval to_written = -solo.sounding_minus_written;
  if (to_written.semitones % 12 != 0 && transposed(*key, to_written).fifths == changes.key->fifths)
    return Disagreement{Contradiction::written_key,
                        fmt::format("the changes are in {}, the key in which the solo is written; it sounds in {}",
                                    to_string(*changes.key), to_string(*key))};
  const std::string signature =
      key->fifths == 0 ? "has a key signature without sharps or flats" : "sounds in " + to_string(*key);
  return Disagreement{Contradiction::key,
                      fmt::format("the changes are in {}, but the solo {}", to_string(*changes.key), signature)};
}

std::optional<Disagreement> pickup_disagreement(const Changes& changes, const Solo& solo) {
  const Bar& first = solo.bars.front();
  const Beats pickup = first.number == 0 ? first.length : Beats{};
  if (!changes.pickup || *changes.pickup == pickup) return std::nullopt;
  return Disagreement{Contradiction::pickup,
                      fmt::format("pickup: the changes have {}, the solo has {}",
                                  in_beats(*changes.pickup, first.meter), in_beats(pickup, first.meter))};
}

}  // namespace

Beats first_bar_onset(const Solo& solo, const Alignment& alignment) {
  const int number = alignment.start_bar;
  const auto bar = std::ranges::find(solo.bars, number, &Bar::number);
  if (number >= 1 && bar != solo.bars.end()) return bar->onset;
  if (number < 1) return Beats(number - 1) * bar_length(solo.bars.front().meter);
  const Bar& last = solo.bars.back();
  return end_of(solo) + Beats(number - last.number - 1) * bar_length(last.meter);
}

Harmony lay_out(const Changes& changes, const Solo& solo, const Alignment& alignment) {
  Harmony harmony;
  harmony.first_chorus = first_bar_onset(solo, alignment);
  const Beats form = form_length(changes);
  if (changes.extent == Extent::once || form <= Beats{}) {
    add_pass(harmony, changes, solo, harmony.first_chorus, 1);
    number_written_out_choruses(harmony, solo);
  } else {
    harmony.chorus_length = form;
    harmony.first_chorus = remainder_within(harmony.first_chorus, form);
    Beats first = harmony.first_chorus;
    if (first > Beats{}) first -= form;
    int chorus = 0;
    for (; first < end_of(solo); first += form) add_pass(harmony, changes, solo, first, ++chorus);
    harmony.choruses = std::max(chorus, 1);
  }
  number_stretches(harmony);
  harmony.sections = sounding_sections(changes, solo, harmony);
  return harmony;
}

std::vector<Disagreement> disagreements(const Changes& changes, const Solo& solo, const Alignment& alignment) {
  std::vector<Disagreement> found;
  if (changes.extent == Extent::once || solo.bars.empty()) return found;
  const auto add = [&](const std::optional<Disagreement>& disagreement) {
    if (disagreement) found.push_back(*disagreement);
  };
  add(meter_disagreement(changes, solo, alignment));
  if (found.empty()) add(bars_disagreement(changes, solo, alignment));
  add(key_disagreement(changes, solo));
  add(pickup_disagreement(changes, solo));
  return found;
}

}  // namespace insideline
