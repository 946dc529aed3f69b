#include "analyzer/labels/chord_colours.hpp"
#include "analyzer/labels/pinned_readings.hpp"
#include "analyzer/labels/pins.hpp"

#include <algorithm>
#include <array>

#include <fmt/format.h>

namespace insideline {
namespace {

/// A place in the chord, and by how many half steps players flatten or sharpen it (common practice, no source).
struct MemberFigure {
  Figure figure;
  int number;
  int flattest;
  int sharpest;
};
constexpr std::array<MemberFigure, 10> member_figures = {{{Figure::root, 1, 0, 0},
                                                          {Figure::second, 2, -1, 1},
                                                          {Figure::third, 3, -1, 0},
                                                          {Figure::fourth, 4, 0, 1},
                                                          {Figure::fifth, 5, -1, 1},
                                                          {Figure::sixth, 6, -1, 0},
                                                          {Figure::seventh, 7, -2, 0},
                                                          {Figure::ninth, 9, -1, 1},
                                                          {Figure::eleventh, 11, -1, 1},
                                                          {Figure::thirteenth, 13, -1, 0}}};

const MemberFigure* member_figure_of(Figure figure) {
  const auto found = std::ranges::find(member_figures, figure, &MemberFigure::figure);
  return found == member_figures.end() ? nullptr : &*found;
}

/// The degree in this place of `chord` that has the pitch of `note`.
std::optional<Degree> degree_in_place(const MemberFigure& place, const Chord& chord, const Note& note) {
  for (int alter = place.flattest; alter <= place.sharpest; ++alter)
    if (degree_fits({place.number, alter}, chord, note)) return Degree{place.number, alter};
  return std::nullopt;
}

/// The chords that a pin may mean, the likeliest first. In a pickup the chord it leads to is the next one.
std::vector<Against> chords_meant(const Pin& pin, const NoteContext& here) {
  if (here.pickup && (!pin.against || *pin.against == Against::next)) return {Against::sounding};
  if (pin.against) return {*pin.against};
  if (pin.placement == Placement::anticipation) return {Against::next};
  if (pin.placement == Placement::suspension || pin.placement == Placement::retardation)
    return {Against::previous, Against::sounding};
  const bool any_tension = pin.role == Role::tension && !pin.degree && !pin.figure;
  if (any_tension) return {Against::sounding};
  return {Against::sounding, Against::next, Against::previous};
}

bool names_place(const Pin& pin) { return pin.degree || (pin.figure && is_member_figure(*pin.figure)); }

/// The note over one chord, as the pin wants it.
class MemberOver {
 public:
  MemberOver(const PinnedPlace& place, const Pin& pin, Against against)
      : place_(place), here_(place.here()), pin_(pin), against_(against) {}

  [[nodiscard]] std::vector<Reading> readings() const {
    const auto number = governor({.motive = Motive::chord_tone, .against = against_}, here_);
    if (!number) return {};
    const Chord& chord = place_.chord(*number);
    const ChordColours colours(chord);
    const bool tone = contains(colours.tones, here_.pitch_class);
    if (pin_.role && (*pin_.role == Role::chord_tone) != tone) return {};
    if (names_place(pin_) && !degree_by_pin(pin_, chord, place_.note())) return {};
    const Motive motive = tone ? Motive::chord_tone : Motive::tension;
    std::vector<Reading> found;
    for (const Reading& reading : place_.weighed)
      if (reading.motive == motive && reading.against == against_) found.push_back(reading);
    if (found.empty())
      found.push_back({.motive = motive,
                       .against = against_,
                       .placement = usual_placement(),
                       .colour = colours.colour(here_.pitch_class).value_or(Colour::foreign)});
    if (pin_.placement) place_as_said(found);
    return found;
  }

 private:
  [[nodiscard]] Placement usual_placement() const {
    if (against_ == Against::next || here_.pickup) return Placement::anticipation;
    if (against_ == Against::sounding) return Placement::in_place;
    const bool rises = here_.same_before && here_.out && here_.out->step && here_.out->semitones > 0;
    return rises ? Placement::retardation : Placement::suspension;
  }

  void place_as_said(std::vector<Reading>& readings) const {
    const Placement said = *pin_.placement;
    const bool late = said == Placement::suspension || said == Placement::retardation;
    const bool may_be_late = against_ == Against::previous || (against_ == Against::sounding && here_.hangs_into);
    if (late && may_be_late)
      for (Reading& reading : readings) reading.placement = said;
    std::erase_if(readings, [&](const Reading& reading) { return reading.placement != said; });
  }

  const PinnedPlace& place_;
  const NoteContext& here_;
  const Pin& pin_;
  Against against_;
};

/// "G7", "G7, Cmaj7 or Dm7".
std::string chords_in_words(const PinnedPlace& place, std::span<const Against> chords) {
  std::vector<std::string> names;
  for (const Against against : chords)
    if (const auto number = governor({.motive = Motive::chord_tone, .against = against}, place.here()))
      names.push_back(place.chord(*number).symbol);
  std::string words;
  for (std::size_t i = 0; i < names.size(); ++i)
    words += (i == 0 ? "" : i + 1 == names.size() ? " or " : ", ") + names[i];
  return words;
}

std::string why_no_member(const PinnedPlace& place, const Pin& pin, std::span<const Against> meant) {
  const std::string chords = chords_in_words(place, meant);
  if (chords.empty())
    return meant.front() == Against::next ? "no other chord follows this one" : "no other chord goes before this one";
  const std::string name = to_string(place.note().pitch.name);
  if (pin.degree) return fmt::format("{} is not {} of {}", name, to_string(*pin.degree), chords);
  if (pin.figure) return fmt::format("{} is not the {} of {}", name, to_string(*pin.figure), chords);
  if (pin.role == Role::tension) return fmt::format("{} is a tone of {}, no tension", name, chords);
  if (pin.role == Role::chord_tone) return fmt::format("{} is no tone of {}", name, chords);
  return fmt::format("{} is no {} over {}", name, pin.placement ? to_string(*pin.placement) : "tone", chords);
}

}  // namespace

bool is_member_figure(Figure figure) { return member_figure_of(figure) != nullptr; }

bool degree_fits(const Degree& degree, const Chord& chord, const Note& note) {
  const int above = pitch_class(note.pitch.name) - pitch_class(chord.root);
  return pitch_class_above_root(degree) == (above + pitch_classes) % pitch_classes;
}

std::string not_the_degree(const PinnedPlace& place, const Degree& degree) {
  return fmt::format("{} is not {} of {}", to_string(place.note().pitch.name), to_string(degree),
                     place.chord(*place.here().chord).symbol);
}

std::optional<Degree> degree_by_pin(const Pin& pin, const Chord& chord, const Note& note) {
  if (pin.degree && !degree_fits(*pin.degree, chord, note)) return std::nullopt;
  const MemberFigure* const place = pin.figure ? member_figure_of(*pin.figure) : nullptr;
  if (pin.degree) return place != nullptr && place->number != pin.degree->number ? std::nullopt : pin.degree;
  return place != nullptr ? degree_in_place(*place, chord, note) : std::nullopt;
}

ReadingsUnderPin member_readings(const PinnedPlace& place, const Pin& pin) {
  const std::vector<Against> meant = chords_meant(pin, place.here());
  for (const Against against : meant)
    if (auto readings = MemberOver(place, pin, against).readings(); !readings.empty()) return {std::move(readings), {}};
  return {{}, why_no_member(place, pin, meant)};
}

}  // namespace insideline
