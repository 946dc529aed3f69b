// What is known at one moment while the measures of a part are read, and the readers of
// the elements that change it. Private to the part reader.
#pragma once

#include "io/musicxml/part_reader.hpp"

#include "analyzer/harmony/musicxml_kind.hpp"

#include <pugixml.hpp>

#include <cstddef>
#include <cstdint>
#include <map>
#include <string_view>
#include <utility>
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
  const char* last_length = "";  ///< the text of the length read last, which is mostly the next one too
  Beats last_quarters{};
  const char* last_voice_text = "";  ///< likewise of the voice
  std::uint16_t last_voice = 0;
};

/// The name of an element or an attribute. Most of reading a score is telling names apart, so they are compared letter
/// by letter where they stand: that is done before a call or a search in a table has begun.
class XmlName {
 public:
  explicit XmlName(const char* letters) : letters_(letters) {}

  template <std::size_t size>
  [[nodiscard, gnu::always_inline]] bool is(const char (&word)[size]) const {
    return is(word, std::make_index_sequence<size>());
  }
  /// Texts, and what stands behind the last child or attribute, have no name.
  [[nodiscard]] bool empty() const { return *letters_ == '\0'; }

 private:
  template <std::size_t size, std::size_t... i>
  [[nodiscard, gnu::always_inline]] bool is(const char (&word)[size], std::index_sequence<i...> /*letters*/) const {
    return ((letters_[i] == word[i]) && ...);
  }

  const char* letters_;
};

/// Calls `read` with each child element and its name.
template <typename Read>
void for_each_element(const pugi::xml_node& parent, Read read) {
  for (pugi::xml_node child = parent.first_child();; child = child.next_sibling()) {
    const XmlName name(child.name());
    if (!name.empty())
      read(child, name);
    else if (!child)
      return;
  }
}

/// In place as well: most texts are a digit or two.
inline bool same_text(const char* a, const char* b) {
  for (; *a == *b; ++a, ++b)
    if (*a == '\0') return true;
  return false;
}

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
