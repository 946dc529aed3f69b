// What is known at one moment while the measures of a part are read, and the readers of
// the elements that change it. Private to the part reader.
#pragma once

#include "io/musicxml/part_reader.hpp"

#include "analyzer/harmony/musicxml_kind.hpp"

#include <pugixml.hpp>

#include <algorithm>
#include <array>
#include <cstdint>
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
  std::string_view last_length{};  ///< the text of the length read last, which is mostly the next one too
  Beats last_quarters{};
};

/// One reader for one child element.
template <typename Target>
struct ElementReader {
  const char* name;
  void (*read)(Target&, const pugi::xml_node&);
};

/// The readers of one kind of element's children, found by the first letter of their names.
template <typename Target, std::size_t size>
class ElementReaders {
 public:
  constexpr explicit ElementReaders(std::array<ElementReader<Target>, size> rows) : rows_(rows) {
    std::sort(rows_.begin(), rows_.end(), [](const auto& a, const auto& b) { return *a.name < *b.name; });
    for (std::size_t letter = 0; letter < first_.size(); ++letter)
      first_[letter] = static_cast<std::uint8_t>(std::count_if(rows_.begin(), rows_.end(), [&](const auto& row) {
        return static_cast<std::size_t>(*row.name - 'a') < letter;
      }));
  }

  /// Reads `child` by its row; an element without a row is of no interest.
  void read(Target& target, const pugi::xml_node& child) const {
    const char* const name = child.name();
    const auto letter = static_cast<std::size_t>(static_cast<unsigned char>(*name)) - 'a';
    if (letter >= first_.size() - 1) return;
    for (std::size_t row = first_[letter]; row < first_[letter + 1]; ++row)
      if (std::strcmp(rows_[row].name, name) == 0) return rows_[row].read(target, child);
  }

  void read_children(Target& target, const pugi::xml_node& parent) const {
    for (pugi::xml_node child = parent.first_child(); child; child = child.next_sibling()) read(target, child);
  }

 private:
  std::array<ElementReader<Target>, size> rows_;
  std::array<std::uint8_t, 27> first_{};  ///< for each letter its first row, and one more for the end
};

inline WrittenMeasure& current_measure(PartState& state) { return state.part.measures.back(); }
inline RoadSigns& current_signs(PartState& state) { return state.part.signs.back(); }

[[noreturn]] void refuse(const PartState& state, const pugi::xml_node& node, std::string_view why);
void notice(PartState& state, Oddity oddity, const pugi::xml_node& node);

/// The text of a duration, offset or forward, in quarter notes. Throws where it is not a number.
Beats quarters(PartState& state, const pugi::xml_node& node);

void read_note(PartState& state, const pugi::xml_node& node);
void read_attributes(PartState& state, const pugi::xml_node& node);
void read_harmony(PartState& state, const pugi::xml_node& node);
void read_direction(PartState& state, const pugi::xml_node& node);
void read_sound(PartState& state, const pugi::xml_node& node);
void read_barline(PartState& state, const pugi::xml_node& node);

}  // namespace insideline::io
