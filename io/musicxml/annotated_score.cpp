#include "io/musicxml/annotated_score.hpp"

#include "io/musicxml/bracket_lines.hpp"
#include "io/musicxml/chord_symbols.hpp"
#include "io/musicxml/container.hpp"
#include "io/musicxml/document.hpp"
#include "io/musicxml/encoding.hpp"
#include "io/musicxml/note_places.hpp"
#include "io/musicxml/numbers.hpp"
#include "io/musicxml/xml_text.hpp"
#include "io/read_result.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <span>
#include <utility>

namespace insideline::io {
namespace {

// Source: MusicXML 4.0, <note>: what comes after a head, and after the lyrics, in this order.
constexpr std::array<std::string_view, 7> after_head = {"notehead-text", "staff", "beam",  "notations",
                                                        "lyric",         "play",  "listen"};
constexpr std::array<std::string_view, 2> after_lyrics = {"play", "listen"};

/// The labels of one note in all passes.
struct Passes {
  std::vector<std::string_view> texts;
  std::vector<std::string_view> colours;
};

bool all_equal(std::span<const std::string_view> texts) {
  return std::ranges::all_of(texts, [&](std::string_view text) { return text == texts.front(); });
}

std::string joined(std::span<const std::string_view> texts) {
  std::string line(texts.front());
  if (all_equal(texts)) return line;
  for (const std::string_view text : texts.subspan(1)) line.append(" / ").append(text);
  return line;
}

/// One more than the highest number of a lyric in the score: a line of its own, below the others.
int free_lyric_number(std::string_view text, std::span<const NotePlace> notes) {
  int highest = 0;
  for (const NotePlace& note : notes)
    for (const ElementPlace& child : note.children) {
      if (child.name != "lyric") continue;
      const auto number = parse_int(attribute_of(text.substr(child.begin, child.tag_end - child.begin), "number"));
      highest = std::max(highest, number.value_or(1));
    }
  return highest + 1;
}

/// Puts `element` into `note`, before its first child that is named in `followers`, else last.
Insertion inside(const NotePlace& note, std::string_view text, std::span<const std::string_view> followers,
                 std::string_view element) {
  const auto next = std::ranges::find_first_of(note.children, followers, {}, &ElementPlace::name);
  if (next != note.children.end()) return {next->begin, fmt::format("{}{}", element, blank_before(text, next->begin))};
  return {note.children.back().end, fmt::format("{}{}", blank_before(text, note.children.front().begin), element)};
}

class Inking {
 public:
  Inking(std::string_view text, std::span<const NotePlace> notes) : text_(text), notes_(notes) {}

  /// Chord symbols come before what else is put before their notes.
  std::vector<Insertion> insertions(const ScoreInk& ink, std::vector<Insertion> symbols) {
    added_ = std::move(symbols);
    std::map<std::size_t, Passes> labels;
    for (const NoteInk& note : ink.notes) {
      labels[note.element].texts.push_back(note.text);
      labels[note.element].colours.push_back(note.colour);
    }
    const int lyric_number = free_lyric_number(text_, notes_);
    for (const auto& [element, passes] : labels) {
      const NotePlace& note = notes_[element];
      if (all_equal(passes.colours) && !passes.colours.front().empty()) colour(note, passes.colours.front());
      // Without a syllable, be it an empty one, a reader counts the grace note as one that has its own.
      const std::string label = joined(passes.texts);
      if (!label.empty() || child_named(note, "grace") != nullptr) label_under(note, lyric_number, label);
    }
    for (Insertion& bracket : bracket_lines(text_, notes_, ink)) added_.push_back(std::move(bracket));
    std::ranges::stable_sort(added_, {}, &Insertion::offset);
    return std::move(added_);
  }

 private:
  void colour(const NotePlace& note, std::string_view colour) {
    if (const ElementPlace* const head = child_named(note, "notehead")) {
      const std::string_view tag = text_.substr(head->begin, head->tag_end - head->begin);
      if (!attribute_of(tag, "color").empty()) return;
      added_.push_back({head->begin + 1 + head->name.size(), fmt::format(" color=\"{}\"", colour)});
      return;
    }
    added_.push_back(inside(note, text_, after_head, fmt::format("<notehead color=\"{}\">normal</notehead>", colour)));
  }

  void label_under(const NotePlace& note, int number, const std::string& label) {
    added_.push_back(inside(note, text_, after_lyrics,
                            fmt::format("<lyric number=\"{}\" name=\"degrees\"><syllabic>single</syllabic>"
                                        "<text>{}</text></lyric>",
                                        number, escaped(label))));
  }

  std::string_view text_;
  std::span<const NotePlace> notes_;
  std::vector<Insertion> added_;
};

void check_elements(const ScoreInk& ink, std::size_t notes, std::string_view file_name) {
  const auto known = [notes](std::size_t element) { return element < notes; };
  if (std::ranges::all_of(ink.notes, known, &NoteInk::element) &&
      std::ranges::all_of(ink.brackets,
                          [&](const BracketInk& bracket) { return std::ranges::all_of(bracket.elements, known); }))
    return;
  throw ReadError(place_of(file_name), "the labels belong to another score than this one");
}

std::string inked(std::string_view bytes, std::string_view file_name, const ScoreInk& ink) {
  const ScoreDocument checked(bytes, file_name);
  const std::vector<NotePlace> notes = note_places(checked.text());
  check_elements(ink, notes.size(), file_name);
  return with_insertions(bytes, checked.text(),
                         Inking(checked.text(), notes).insertions(ink, chord_symbols(checked, ink)));
}

}  // namespace

std::string annotated_score(std::string_view bytes, std::string_view file_name, const ScoreInk& ink) {
  if (!is_zip(bytes)) return inked(bytes, file_name, ink);
  const ScoreInContainer inside_zip = unpack_score(bytes, file_name);
  return inked(inside_zip.bytes, inside_zip.file_name, ink);
}

}  // namespace insideline::io
