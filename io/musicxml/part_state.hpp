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
#include <map>
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

  std::optional<Beats> divisions{};                ///< per quarter note
  Interval transposition{};                        ///< of the part, which is that of its first staff
  Interval other_staves{};                         ///< of staves that have no transposition of their own
  std::map<int, Interval> staff_transpositions{};  ///< of staves that have their own
  std::optional<Meter> meter{};
  std::optional<Key> written_key{};

  Beats position{};               ///< where the next note of the measure begins
  Beats furthest{};               ///< how far the measure is filled
  Beats chord_position{};         ///< where the last note began: a chord member begins there too
  Beats jump_inside{};            ///< where a jump stands in the measure; 0 for none and at its start
  std::size_t bars_repeated = 0;  ///< the measure, and those after it, stand for the ones so many before; 0: for itself
  std::size_t element = 0;
  std::size_t symbols_over_notes = 0;  ///< of the symbols, so many are followed by a note or rest
  std::vector<KnownChord> known_chords{};
  std::string_view last_length{};  ///< the text of the length read last, which is mostly the next one too
  Beats last_quarters{};
  std::string_view last_voice_name{};  ///< likewise the name of the voice
  std::uint16_t last_voice = 0;
};

/// One reader for one child element.
template <typename Target>
struct ElementReader {
  const char* name;
  void (*read)(Target&, const pugi::xml_node&);
};

/// The readers of one kind of element's children. A name leads to its only possible row by its first and third
/// letter: most of reading a score is finding these rows, and a search among them cannot be foreseen by the processor.
template <typename Target, std::size_t size>
class ElementReaders {
 public:
  consteval explicit ElementReaders(std::array<ElementReader<Target>, size> rows) : rows_(rows) {
    while (!fill_slots()) ++multiplier_;
  }

  /// Reads `child` by its row; an element without a row is of no interest.
  void read(Target& target, const pugi::xml_node& child) const {
    const char* const name = child.name();
    if (name[0] == '\0' || name[1] == '\0') return;
    const std::uint8_t row = slots_[slot_of(name)];
    if (row < size && std::strcmp(rows_[row].name, name) == 0) rows_[row].read(target, child);
  }

  void read_children(Target& target, const pugi::xml_node& parent) const {
    for (pugi::xml_node child = parent.first_child(); child; child = child.next_sibling()) read(target, child);
  }

 private:
  [[nodiscard]] constexpr std::size_t slot_of(const char* name) const {
    const char fourth = name[2] == '\0' ? '\0' : name[3];
    return (static_cast<unsigned char>(name[0]) * multiplier_ + static_cast<unsigned char>(name[2]) +
            3U * static_cast<unsigned char>(fourth)) %
           slot_count;
  }

  /// False where two rows want the same slot.
  constexpr bool fill_slots() {
    slots_.fill(std::uint8_t{size});
    for (std::uint8_t row = 0; row < size; ++row) {
      std::uint8_t& slot = slots_[slot_of(rows_[row].name)];
      if (slot != size) return false;
      slot = row;
    }
    return true;
  }

  static constexpr std::size_t slot_count = 64;
  std::array<ElementReader<Target>, size> rows_;
  std::array<std::uint8_t, slot_count> slots_{};
  std::size_t multiplier_ = 1;
};

inline WrittenMeasure& current_measure(PartState& state) { return state.part.measures.back(); }
inline RoadSigns& current_signs(PartState& state) { return state.part.signs.back(); }

[[noreturn]] void refuse(const PartState& state, const pugi::xml_node& node, std::string_view why);
void notice(PartState& state, Oddity oddity, const pugi::xml_node& node);

/// The text of a duration, offset or forward, in quarter notes. Throws where it is not a number.
Beats quarters(PartState& state, const pugi::xml_node& node);

/// The transposition of the staff that `text` names, of the part for one without its own.
Interval transposition_on(const PartState& state, std::string_view staff);

void read_note(PartState& state, const pugi::xml_node& node);
void read_attributes(PartState& state, const pugi::xml_node& node);
void read_harmony(PartState& state, const pugi::xml_node& node);
void read_direction(PartState& state, const pugi::xml_node& node);
void read_sound(PartState& state, const pugi::xml_node& node);
void read_barline(PartState& state, const pugi::xml_node& node);

}  // namespace insideline::io
