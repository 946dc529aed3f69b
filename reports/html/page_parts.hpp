// The style sheets and scripts of the pages. They are files of this folder (*.css, *.js), put into the
// program when it is built, so that it needs none of them to run; with the hash that lets a page state
// that this style and this script may run in it and nothing else.
#pragma once

#include <string_view>

namespace insideline::reports {

struct PagePart {
  std::string_view text;
  std::string_view sha256;  ///< in base64, as a content policy wants it
};

extern const PagePart page_style;       ///< every page
extern const PagePart page_script;      ///< every page: light and dark
extern const PagePart line_map_style;   ///< the picture of one solo
extern const PagePart line_map_script;  ///< its notes by pointer and keyboard
extern const PagePart playback_script;  ///< the line sounded

}  // namespace insideline::reports
