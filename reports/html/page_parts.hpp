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
extern const PagePart player_style;     ///< the player
extern const PagePart stand_style;      ///< questions and remarks

// A solo's page as a music stand; in this order, as each uses what stands before it.
extern const PagePart address_script;   ///< bars and view in the page's address
extern const PagePart rows_script;      ///< rows as wide as the screen
extern const PagePart schedule_script;  ///< what sounds when
extern const PagePart sound_script;     ///< its sounds
extern const PagePart loop_script;      ///< which bars are played
extern const PagePart player_script;    ///< the player at the foot of the screen
extern const PagePart ask_script;       ///< questions, with what they ask for hidden
extern const PagePart remarks_script;   ///< remarks on bars, and the page that keeps them

extern const PagePart survey_style;         ///< a collection of solos
extern const PagePart side_by_side_style;   ///< the same bars of two solos
extern const PagePart side_by_side_script;  ///< their order, and each line to be heard

}  // namespace insideline::reports
