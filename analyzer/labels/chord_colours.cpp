#include "analyzer/labels/chord_colours.hpp"

#include "analyzer/harmony/tensions.hpp"

#include <array>
#include <span>

namespace insideline {
namespace {

PitchClassSet classes_of(int root, std::span<const Degree> degrees) {
  unsigned set = 0;
  for (const Degree& degree : degrees)
    set |= 1U << static_cast<unsigned>((root + pitch_class_above_root(degree)) % pitch_classes);
  return static_cast<PitchClassSet>(set);
}

// Over a dominant whose symbol does not name them; over a minor seventh chord; over chords with a major third and no
// minor seventh; over minor chords; over a dominant (over a major seventh, no colour).
constexpr std::array<Degree, 4> altered_colours = {{{9, -1}, {9, 1}, {11, 1}, {13, -1}}};
constexpr std::array<Degree, 1> disputed_colours = {{{13, 0}}};
constexpr std::array<Degree, 2> blue_over_major = {{{3, -1}, {7, -1}}};
constexpr std::array<Degree, 1> blue_over_minor = {{{5, -1}}};
constexpr std::array<Degree, 1> the_eleventh = {{{11, 0}}};

}  // namespace

ChordColours::ChordColours(const Chord& chord)
    : root(pitch_class(chord.root)),
      tones(classes_of(root, chord.tones)),
      tensions(classes_of(root, chord.tensions)),
      avoided(classes_of(root, chord.avoid)) {
  if (chord.bass) tones |= static_cast<PitchClassSet>(1U << static_cast<unsigned>(pitch_class(*chord.bass)));
  const ChordQuality family = quality(chord);
  const bool bare_diminished = family == ChordQuality::diminished && !seventh_of(chord);
  if (bare_diminished) tones |= classes_of(root, std::array<Degree, 1>{{{7, -2}}});
  dominant = family == ChordQuality::dominant;
  is_alt = dominant && is_altered(chord);
  if (dominant) {
    altered = classes_of(root, altered_colours);
    avoided |= classes_of(root, the_eleventh);
  }
  if (family == ChordQuality::major) {
    blue = classes_of(root, blue_over_major);
    avoided = 0;
    if (seventh_of(chord) == Degree{7, 0}) never = classes_of(root, the_eleventh);
  }
  if (family == ChordQuality::minor) blue = classes_of(root, blue_over_minor);
  if (family == ChordQuality::minor && seventh_of(chord) == Degree{7, -1})
    disputed = classes_of(root, disputed_colours);
}

std::optional<Colour> ChordColours::colour(int pitch_class) const {
  if (contains(tones, pitch_class) || contains(never, pitch_class)) return std::nullopt;
  if (contains(disputed, pitch_class)) return Colour::disputed;
  if (contains(tensions, pitch_class)) return is_alt ? Colour::asked_for : Colour::listed;
  if (contains(altered, pitch_class)) return Colour::altered;
  if (contains(blue, pitch_class)) return Colour::blue;
  return contains(avoided, pitch_class) ? Colour::avoided : Colour::foreign;
}

}  // namespace insideline
