// A chord as a <harmony> element.
// Source: MusicXML 4.0, <harmony>, and the order of its elements.
#pragma once

#include "analyzer/harmony/musicxml_kind.hpp"

#include <pugixml.hpp>

#include <string>

namespace insideline::io {

/// Appends the element to `parent`; `offset` is how far behind its place the chord begins, in divisions, empty for
/// nothing.
void append_harmony(pugi::xml_node parent, const MusicxmlChord& chord, const std::string& offset);

}  // namespace insideline::io
