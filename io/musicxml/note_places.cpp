#include "io/musicxml/note_places.hpp"

#include <algorithm>
#include <cstdint>
#include <optional>

namespace insideline::io {
namespace {

enum class TagKind : std::uint8_t { open, close, empty };

struct Tag {
  TagKind kind = TagKind::open;
  std::string_view name;
  std::size_t begin = 0;
  std::size_t end = 0;
};

/// Behind the next `closing` at or after `from`; the end of the text where there is none.
std::size_t behind(std::string_view text, std::string_view closing, std::size_t from) {
  const std::size_t found = text.find(closing, from);
  return found == std::string_view::npos ? text.size() : found + closing.size();
}

/// Behind the ">" of the tag that begins at `begin`; one between quotes does not count.
std::size_t end_of_tag(std::string_view text, std::size_t begin) {
  for (std::size_t i = text.find_first_of("\"'>", begin); i < text.size(); i = text.find_first_of("\"'>", i + 1)) {
    if (text[i] == '>') return i + 1;
    i = text.find(text[i], i + 1);
    if (i == std::string_view::npos) break;
  }
  return text.size();
}

/// The next tag at or after `from`; comments, declarations and CDATA are passed over.
std::optional<Tag> next_tag(std::string_view text, std::size_t from) {
  while (true) {
    const std::size_t begin = text.find('<', from);
    if (begin == std::string_view::npos) return std::nullopt;
    const std::string_view rest = text.substr(begin);
    if (rest.starts_with("<!--")) {
      from = behind(text, "-->", begin + 4);
    } else if (rest.starts_with("<![CDATA[")) {
      from = behind(text, "]]>", begin);
    } else if (rest.starts_with("<?")) {
      from = behind(text, "?>", begin);
    } else if (rest.starts_with("<!")) {
      from = end_of_tag(text, begin);
    } else {
      const std::size_t end = end_of_tag(text, begin);
      const bool closes = rest.starts_with("</");
      const std::size_t name = begin + (closes ? 2 : 1);
      const bool is_empty = !closes && end - begin > 2 && text[end - 2] == '/';
      return Tag{closes     ? TagKind::close
                 : is_empty ? TagKind::empty
                            : TagKind::open,
                 text.substr(name, std::min(text.find_first_of(" \t\r\n/>", name), end) - name), begin, end};
    }
  }
}

/// Follows the tags and keeps the notes of the measures, whichever way round the score holds them.
class NoteFinder {
 public:
  std::vector<NotePlace> find(std::string_view text) {
    for (auto tag = next_tag(text, 0); tag; tag = next_tag(text, tag->end)) {
      if (tag->kind != TagKind::close) open(*tag);
      if (tag->kind != TagKind::open) close(tag->end);
    }
    return std::move(notes_);
  }

 private:
  void open(const Tag& tag) {
    const ElementPlace place{tag.name, tag.begin, tag.end, tag.end};
    if (is_in_note()) notes_.back().children.push_back(place);
    if (open_.size() == 3 && is_in_measure() && tag.name == "note") notes_.push_back({place, {}});
    open_.push_back(tag.name);
  }

  void close(std::size_t end) {
    if (open_.empty()) return;
    const std::string_view closed = open_.back();
    open_.pop_back();
    if (is_in_note()) notes_.back().children.back().end = end;
    if (closed == "note" && open_.size() == 3 && is_in_measure()) notes_.back().note.end = end;
  }

  bool is_in_measure() const {
    return open_.size() >= 3 &&
           ((open_[1] == "part" && open_[2] == "measure") || (open_[1] == "measure" && open_[2] == "part"));
  }
  bool is_in_note() const { return open_.size() == 4 && is_in_measure() && open_[3] == "note"; }

  std::vector<std::string_view> open_;
  std::vector<NotePlace> notes_;
};

}  // namespace

std::vector<NotePlace> note_places(std::string_view text) { return NoteFinder().find(text); }

const ElementPlace* child_named(const NotePlace& note, std::string_view name) {
  const auto found = std::ranges::find(note.children, name, &ElementPlace::name);
  return found == note.children.end() ? nullptr : &*found;
}

}  // namespace insideline::io
