#include "io/musicxml/chord_symbols.hpp"

#include "io/musicxml/harmony_writer.hpp"
#include "io/musicxml/numbers.hpp"
#include "io/musicxml/score_parts.hpp"
#include "io/musicxml/xml_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <sstream>
#include <string>

namespace insideline::io {
namespace {

/// A note or rest of a measure.
struct Standing {
  Beats position;
  Beats duration;  ///< 0 for a grace note
  std::size_t offset_bytes = 0;
};

struct PageMeasure {
  Beats divisions = 1;
  std::vector<Standing> notes;
};

/// The measures of a part, numbered on from 0, with what stands in them.
class PartOnPage {
 public:
  explicit PartOnPage(const PartSource& part) {
    for (const MeasureSource& source : part.measures) {
      if (source.first_note) next_element_ = *source.first_note;
      read(source.content);
    }
  }

  [[nodiscard]] const std::vector<PageMeasure>& measures() const { return measures_; }
  [[nodiscard]] bool has_symbols() const { return symbols_; }
  /// The measure in which a <note> of the document stands.
  [[nodiscard]] std::optional<std::size_t> measure_of(std::size_t element) const {
    const auto found = measure_of_.find(element);
    return found == measure_of_.end() ? std::nullopt : std::optional(found->second);
  }

 private:
  void read(const pugi::xml_node& content) {
    PageMeasure measure;
    Beats position = 0;
    for (const pugi::xml_node& node : content.children()) {
      const std::string_view name = node.name();
      if (const pugi::xml_node divisions = node.child("divisions"); name == "attributes" && divisions)
        divisions_ = parse_decimal(divisions.child_value()).value_or(divisions_);
      symbols_ = symbols_ || name == "harmony";
      if (name == "backup") position -= length_of(node);
      if (name == "forward") position += length_of(node);
      if (name == "note") position = read_note(measure, node, position);
    }
    measure.divisions = divisions_;
    measures_.push_back(std::move(measure));
  }

  /// The position behind it.
  Beats read_note(PageMeasure& measure, const pugi::xml_node& node, const Beats& position) {
    measure_of_[next_element_++] = measures_.size();
    if (node.child("chord")) return position;
    const Beats length = node.child("grace") ? Beats(0) : length_of(node);
    measure.notes.push_back({position, length, static_cast<std::size_t>(node.offset_debug()) - 1});
    return position + length;
  }

  [[nodiscard]] Beats length_of(const pugi::xml_node& node) const {
    return parse_decimal(node.child_value("duration")).value_or(Beats(0)) / divisions_;
  }

  std::vector<PageMeasure> measures_;
  std::map<std::size_t, std::size_t> measure_of_;
  std::size_t next_element_ = 0;
  Beats divisions_ = 1;
  bool symbols_ = false;
};

std::optional<PartOnPage> part_of(const ScoreDocument& document, const ScoreInk& ink) {
  if (ink.notes.empty()) return std::nullopt;
  for (const PartSource& source : find_parts(document).parts)
    if (PartOnPage part(source); part.measure_of(ink.notes.front().element)) return part;
  return std::nullopt;
}

/// Which measure of the page is played from when on.
using PlayedMeasures = std::map<Beats, std::size_t>;

/// The bars without a note of the solo lie between those with one, where the page has as many.
void add_silent_bars(PlayedMeasures& played, const std::vector<Beats>& bars, std::size_t measures) {
  const PlayedMeasures known = played;
  for (std::size_t i = 0; i < bars.size(); ++i) {
    if (known.contains(bars[i])) continue;
    std::optional<std::size_t> after_known;
    std::optional<std::size_t> before_known;
    for (std::size_t k = i; k-- > 0 && !after_known;)
      if (const auto found = known.find(bars[k]); found != known.end()) after_known = found->second + (i - k);
    for (std::size_t k = i + 1; k < bars.size() && !before_known; ++k)
      if (const auto found = known.find(bars[k]); found != known.end() && found->second >= k - i)
        before_known = found->second - (k - i);
    if (after_known && before_known && after_known != before_known) continue;
    const auto measure = after_known ? after_known : before_known;
    if (measure && *measure < measures) played.emplace(bars[i], *measure);
  }
}

PlayedMeasures played_measures(const PartOnPage& part, const ScoreInk& ink) {
  PlayedMeasures played;
  for (const NoteInk& note : ink.notes)
    if (const auto measure = part.measure_of(note.element)) played.emplace(note.onset - note.position, *measure);
  add_silent_bars(played, ink.bars, part.measures().size());
  return played;
}

/// Over what a chord stands that begins there: the note or rest that sounds, else the last one before.
const Standing* note_under(const PageMeasure& measure, const Beats& position) {
  const Standing* before = nullptr;
  for (const Standing& note : measure.notes) {
    if (note.position <= position && position < note.position + note.duration) return &note;
    if (note.position <= position && note.duration > Beats(0)) before = &note;
  }
  return before;
}

std::string element_of(const MusicxmlChord& chord, const Beats& divisions) {
  pugi::xml_document document;
  append_harmony(document, chord, divisions == Beats(0) ? std::string() : fmt::format("{:.6g}", to_double(divisions)));
  std::ostringstream text;
  document.first_child().print(text, "", pugi::format_raw);
  return text.str();
}

std::string in_ascii(std::string_view text) {
  std::string ascii;
  for (const char letter : text)
    ascii += static_cast<unsigned char>(letter) < 0x80U ? std::string(1, letter) : std::string();
  return ascii;
}

}  // namespace

std::vector<Insertion> chord_symbols(const ScoreDocument& document, const ScoreInk& ink) {
  const auto part = ink.chords.empty() ? std::nullopt : part_of(document, ink);
  if (!part || part->has_symbols()) return {};
  const PlayedMeasures played = played_measures(*part, ink);
  std::map<std::size_t, Beats> first_time;
  for (const auto& [onset, measure] : played) first_time.emplace(measure, onset);
  std::vector<Insertion> added;
  for (const ChordInk& chord : ink.chords) {
    const auto next = played.upper_bound(chord.onset);
    if (next == played.begin()) continue;
    const auto& [onset, number] = *std::prev(next);
    if (first_time.at(number) != onset) continue;
    const PageMeasure& measure = part->measures()[number];
    const Standing* const note = note_under(measure, chord.onset - onset);
    if (note == nullptr) continue;
    const Beats behind = (chord.onset - onset - note->position) * measure.divisions;
    added.push_back({note->offset_bytes, in_ascii(element_of(chord.chord, behind)) +
                                             std::string(blank_before(document.text(), note->offset_bytes))});
  }
  return added;
}

}  // namespace insideline::io
