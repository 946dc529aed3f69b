#include "analyzer/labels/pinned_readings.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <string_view>

namespace insideline {
namespace {

constexpr int reach = 2;  // semitones: of a neighbour or an enclosing note

bool by_step(const std::optional<Motion>& motion) { return motion && motion->step; }
bool almost_by_step(const std::optional<Motion>& motion) {
  return motion && (motion->step || motion->augmented_second);
}
bool one_direction(const NoteContext& here) {
  return here.in && here.out && (here.in->semitones > 0) == (here.out->semitones > 0);
}

bool can_pass(const NoteContext& here) {
  return almost_by_step(here.in) && almost_by_step(here.out) && one_direction(here);
}
bool can_turn_back(const NoteContext& here) { return by_step(here.in) && by_step(here.out) && !one_direction(here); }
bool can_lead(const NoteContext& here) { return by_step(here.out); }
bool can_escape(const NoteContext& here) { return by_step(here.in) && here.out && !here.out->step; }
bool can_stay(const NoteContext& here) { return here.same_before || here.same_after || here.from_below; }
bool in_company(const NoteContext& /*here*/) { return false; }  // of several notes: add_lone_parts

/// A figure of one note as a reading, where it can be, and what it is.
struct OwnFigure {
  Figure figure;
  Motive motive;
  bool (*can_be)(const NoteContext&);
  std::string_view what_it_is;
};

// Source: as in reading.hpp.
constexpr std::array<OwnFigure, 8> own_figures = {{
    {Figure::passing_tone, Motive::passing, can_pass, "a passing tone comes and goes by step, in one direction"},
    {Figure::neighbour_tone, Motive::neighbour, can_turn_back, "a neighbour tone comes by step and goes back by step"},
    {Figure::double_neighbour, Motive::double_neighbour, in_company,
     "a double neighbour is one of two notes a step above and below a tone that is heard before and after them"},
    {Figure::approach_tone, Motive::approach, can_lead, "an approach tone goes by step into its target"},
    {Figure::enclosure, Motive::enclosure, in_company,
     "an enclosure has its target's neighbours on both sides, then the target"},
    {Figure::appoggiatura, Motive::appoggiatura, can_lead, "an appoggiatura is resolved by step"},
    {Figure::escape_tone, Motive::escape, can_escape, "an escape tone comes by step and is left by leap"},
    {Figure::pedal, Motive::pedal, can_stay, "a pedal is repeated, or a low note apart from the line"},
}};

/// True where notes `start` to `target` - 1 lie within a step of the target, on both sides and never on it.
bool closes_in(const Chain& chain, std::size_t start, std::size_t target) {
  bool above = false;
  bool below = false;
  for (std::size_t i = start; i < target; ++i) {
    const int distance = chain[i].midi - chain[target].midi;
    if (distance == 0 || std::abs(distance) > reach) return false;
    (distance > 0 ? above : below) = true;
  }
  return above && below;
}

void add_figure(std::vector<Reading>& readings, const PinnedPlace& place, const OwnFigure& figure) {
  const std::size_t before = readings.size();
  for (const Reading& reading : place.weighed)
    if (label_motive(reading.motive) == figure.motive) readings.push_back(reading);
  if (readings.size() > before) return;
  if (figure.can_be(place.here())) readings.push_back({.motive = figure.motive});
  add_lone_parts(readings, place.chain, place.index, figure.motive);
}

}  // namespace

void add_lone_parts(std::vector<Reading>& readings, const Chain& chain, std::size_t index, Motive motive) {
  const bool returns = motive == Motive::double_neighbour;
  if (!returns && motive != Motive::enclosure) return;
  const std::size_t most_parts = returns ? 2 : 3;
  for (std::size_t parts = 2; parts <= most_parts; ++parts)
    for (std::size_t part = 0; part < parts && part <= index; ++part) {
      const std::size_t start = index - part;
      const std::size_t target = start + parts;
      if (target >= chain.size() || !closes_in(chain, start, target)) continue;
      if (returns && (start == 0 || chain[start - 1].midi != chain[target].midi)) continue;
      readings.push_back({.motive = motive,
                          .part = static_cast<std::uint8_t>(part),
                          .parts = static_cast<std::uint8_t>(parts),
                          .alone = true});
    }
}

ReadingsUnderPin figure_readings(const PinnedPlace& place, const Pin& pin) {
  ReadingsUnderPin found;
  if (pin.against.value_or(Against::sounding) != Against::sounding)
    return {{}, "only a tone or a tension is heard against another chord than the one that sounds"};
  if (pin.degree && !degree_fits(*pin.degree, place.chord(*place.here().chord), place.note()))
    return {{}, not_the_degree(place, *pin.degree)};
  for (const OwnFigure& figure : own_figures) {
    if (pin.figure && *pin.figure != figure.figure) continue;
    add_figure(found.readings, place, figure);
    if (pin.figure && found.readings.empty()) found.why_none = figure.what_it_is;
  }
  if (!pin.figure && found.readings.empty())
    found.why_none = "no figure of a non-chord tone fits: it neither comes nor goes by step";
  return found;
}

}  // namespace insideline
