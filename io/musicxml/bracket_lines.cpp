#include "io/musicxml/bracket_lines.hpp"

#include "io/musicxml/xml_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <string>

namespace insideline::io {
namespace {

/// MusicXML 3 allows brackets the numbers 1 to 6, MusicXML 4.0 up to 16; what is in both is used.
constexpr std::size_t most_numbers = 6;

struct Line {
  std::size_t first = 0;  ///< element
  std::size_t last = 0;   ///< element; the same as `first` for a text without a bracket
  std::string text;
  friend bool operator==(const Line&, const Line&) = default;
};

/// Whether the notes stand in order on the page with no other note of the solo between them.
bool stands_together(const BracketInk& bracket, std::span<const std::size_t> solo) {
  const std::vector<std::size_t>& elements = bracket.elements;
  if (elements.size() < 2) return false;
  if (std::ranges::adjacent_find(elements, std::ranges::greater_equal{}) != elements.end()) return false;
  const auto from = std::ranges::lower_bound(solo, elements.front());
  const auto to = std::ranges::upper_bound(solo, elements.back());
  return std::ranges::equal(from, to, elements.begin(), elements.end());
}

/// In the order of the page, each once.
std::vector<Line> lines_of(const ScoreInk& ink) {
  std::vector<std::size_t> solo;
  for (const NoteInk& note : ink.notes) solo.push_back(note.element);
  std::ranges::sort(solo);
  solo.erase(std::unique(solo.begin(), solo.end()), solo.end());
  std::vector<Line> lines;
  for (const BracketInk& bracket : ink.brackets) {
    if (bracket.elements.empty()) continue;
    const std::size_t first = bracket.elements.front();
    Line line{first, stands_together(bracket, solo) ? bracket.elements.back() : first, bracket.text};
    if (std::ranges::find(lines, line) == lines.end()) lines.push_back(std::move(line));
  }
  std::ranges::stable_sort(lines, {}, &Line::first);
  return lines;
}

class BracketWriter {
 public:
  BracketWriter(std::string_view text, std::span<const NotePlace> notes) : text_(text), notes_(notes) {}

  std::vector<Insertion> write(const std::vector<Line>& lines) {
    for (const Line& line : lines) {
      const std::optional<std::size_t> number = line.last > line.first ? free_number(line) : std::nullopt;
      begin(line, number);
      if (number) end(line, *number);
    }
    return std::move(added_);
  }

 private:
  /// A number that no bracket still open where `line` begins has.
  std::optional<std::size_t> free_number(const Line& line) {
    for (std::size_t number = 0; number < most_numbers; ++number) {
      if (open_until_[number] && *open_until_[number] >= line.first) continue;
      open_until_[number] = line.last;
      return number + 1;
    }
    return std::nullopt;
  }

  /// The note that carries the chord which `element` belongs to: a direction cannot stand inside of one.
  std::size_t head_of_chord(std::size_t element) const {
    while (element > 0 && child_named(notes_[element], "chord") != nullptr) --element;
    return element;
  }

  std::size_t tail_of_chord(std::size_t element) const {
    while (element + 1 < notes_.size() && child_named(notes_[element + 1], "chord") != nullptr) ++element;
    return element;
  }

  /// <staff>2</staff>, where the note says so: a direction without it belongs to the first staff.
  std::string staff_of(std::size_t element) const {
    const ElementPlace* const staff = child_named(notes_[element], "staff");
    return staff == nullptr ? std::string() : std::string(text_.substr(staff->begin, staff->end - staff->begin));
  }

  void begin(const Line& line, std::optional<std::size_t> number) {
    const std::size_t at = notes_[head_of_chord(line.first)].note.begin;
    const std::string bracket = number ? fmt::format(
                                             "<direction-type><bracket type=\"start\" number=\"{}\" line-end=\"down\" "
                                             "line-type=\"solid\"/></direction-type>",
                                             *number)
                                       : std::string();
    added_.push_back({at, fmt::format("<direction placement=\"above\"><direction-type><words>{}</words>"
                                      "</direction-type>{}{}</direction>{}",
                                      escaped(line.text), bracket, staff_of(line.first), blank_before(text_, at))});
  }

  void end(const Line& line, std::size_t number) {
    const ElementPlace& note = notes_[tail_of_chord(line.last)].note;
    added_.push_back(
        {note.end, fmt::format("{}<direction placement=\"above\"><direction-type><bracket type=\"stop\" number=\"{}\" "
                               "line-end=\"down\"/></direction-type>{}</direction>",
                               blank_before(text_, note.begin), number, staff_of(line.last))});
  }

  std::string_view text_;
  std::span<const NotePlace> notes_;
  std::array<std::optional<std::size_t>, most_numbers> open_until_{};
  std::vector<Insertion> added_;
};

}  // namespace

std::vector<Insertion> bracket_lines(std::string_view text, std::span<const NotePlace> notes, const ScoreInk& ink) {
  return BracketWriter(text, notes).write(lines_of(ink));
}

}  // namespace insideline::io
