// A chord as MusicXML spells it (a kind and the degrees that change it) and back.
// Source: MusicXML 4.0, W3C Music Notation Community Group, types kind-value, degree and
// degree-type-value. The standard's meaning rules hold here: kinds of 11th and 13th are full
// stacks, a printed triangle changes nothing, and the kind wins over its printed text. But a 13th
// that is printed "13" means what it means in a chart, without the 11th.
#pragma once

#include "analyzer/harmony/chord_symbol.hpp"
#include "analyzer/model/chord.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace insideline {

enum class DegreeChange : std::uint8_t { add, alter, subtract };

struct KindDegree {
  int value = 1;  ///< 1 = root, 3 = third, ... 13
  int alter = 0;  ///< semitones; against a dominant chord (add) or against the kind's own degree
  DegreeChange change = DegreeChange::add;
  friend bool operator==(const KindDegree&, const KindDegree&) = default;
};

struct MusicxmlChord {
  NoteName root;
  std::string kind;                 ///< the element's value: "dominant-ninth"
  std::string text;                 ///< its text attribute; read only for `other`, unknown kinds and 13ths
  std::vector<KindDegree> degrees;  ///< in the order of the file
  std::optional<NoteName> bass;
  std::optional<int> inversion;  ///< 1 = third in the bass, ...; read only where there is no bass
};

/// The chord, or none for kind `none`. An error's offset counts in `kind`, and its `nearest` are kinds.
SymbolReading chord_from_musicxml(const MusicxmlChord& source);

/// The kind that needs the fewest degrees. Reading it back gives the same chord.
MusicxmlChord musicxml_from_chord(const Chord& chord);

/// What the kind value is for a name found in old files: "dominant-seventh" is "dominant".
/// The name itself where it is a kind of the standard; none where it is neither.
std::optional<std::string_view> standard_kind(std::string_view name);

}  // namespace insideline
