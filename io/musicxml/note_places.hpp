// Where the <note> elements of a score and their children stand in its text, to the byte: what
// a writer must know that adds to a document and leaves every other byte as it is.
#pragma once

#include <cstddef>
#include <span>
#include <string_view>
#include <vector>

namespace insideline::io {

/// From the "<" of its first tag to behind the ">" of its last. Offsets are bytes of the text.
struct ElementPlace {
  std::string_view name;
  std::size_t begin = 0;
  std::size_t tag_end = 0;  ///< behind the ">" of its first tag
  std::size_t end = 0;
};

struct NotePlace {
  ElementPlace note;
  std::vector<ElementPlace> children;  ///< in order
};

/// Every note, in the order of WrittenPlace::element. `text` must be well formed; the places point into it.
std::vector<NotePlace> note_places(std::string_view text);

/// The first child of that name; null where there is none.
const ElementPlace* child_named(const NotePlace& note, std::string_view name);

}  // namespace insideline::io
