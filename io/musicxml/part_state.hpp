// What is known at one moment while the measures of a part are read, and the readers of
// the elements that change it. Private to the part reader.
#pragma once

#include "io/musicxml/part_reader.hpp"

#include "analyzer/harmony/musicxml_kind.hpp"

#include <pugixml.hpp>

#include <array>
#include <cstring>
#include <string_view>
#include <vector>

namespace insideline::io {

/// A chord symbol that was read before in this part, so that it need not be read again.
struct KnownChord {
  MusicxmlChord source;
  Interval transposition;
  std::size_t chord = 0;
};

struct PartState {
  const PartContext& context;
  Notices& notices;
  WrittenPart& part;

  std::optional<Beats> divisions{};  ///< per quarter note
  Interval transposition{};
  std::optional<Meter> meter{};
  std::optional<Key> written_key{};

  Beats position{};        ///< where the next note of the measure begins
  Beats furthest{};        ///< how far the measure is filled
  Beats chord_position{};  ///< where the last note began: a chord member begins there too
  std::size_t element = 0;
  std::vector<KnownChord> known_chords{};
};

/// One reader for one child element.
template <typename Target>
struct ElementReader {
  const char* name;
  void (*read)(Target&, const pugi::xml_node&);
};

template <typename Target, std::size_t size>
void read_child(const std::array<ElementReader<Target>, size>& readers, Target& target, const pugi::xml_node& child) {
  const char* const name = child.name();
  if (*name == '\0') return;  // text between the elements
  for (const auto& reader : readers)
    if (*reader.name == *name && std::strcmp(reader.name, name) == 0) return reader.read(target, child);
}

/// Reads every child by the table; elements without a row are of no interest.
template <typename Target, std::size_t size>
void read_children(const std::array<ElementReader<Target>, size>& readers, Target& target,
                   const pugi::xml_node& parent) {
  for (pugi::xml_node child = parent.first_child(); child; child = child.next_sibling())
    read_child(readers, target, child);
}

inline WrittenMeasure& current_measure(PartState& state) { return state.part.measures.back(); }
inline RoadSigns& current_signs(PartState& state) { return state.part.signs.back(); }

[[noreturn]] void refuse(const PartState& state, const pugi::xml_node& node, std::string_view why);
void notice(PartState& state, Oddity oddity, const pugi::xml_node& node);

/// The text of a duration, offset or forward, in quarter notes. Throws where it is not a number.
Beats quarters(const PartState& state, const pugi::xml_node& node);

void read_note(PartState& state, const pugi::xml_node& node);
void read_attributes(PartState& state, const pugi::xml_node& node);
void read_harmony(PartState& state, const pugi::xml_node& node);
void read_direction(PartState& state, const pugi::xml_node& node);
void read_sound(PartState& state, const pugi::xml_node& node);
void read_barline(PartState& state, const pugi::xml_node& node);

}  // namespace insideline::io
