// Small things that both sides of writing into a document need: quoting, and reading its raw tags.
#pragma once

#include <string>
#include <string_view>

namespace insideline::io {

/// UTF-8 as it may stand between tags and in attributes of any encoding: markup characters as
/// entities, everything beyond ASCII as a character reference. Control characters become spaces.
std::string escaped(std::string_view text);

/// The value of an attribute in the raw text of a tag, entities unresolved; empty where it has none.
std::string_view attribute_of(std::string_view tag, std::string_view name);

/// The white space right before `offset`.
std::string_view blank_before(std::string_view text, std::size_t offset);

}  // namespace insideline::io
