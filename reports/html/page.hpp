// The shell of a page: one file that needs nothing else, states in a content policy that nothing but its
// own style and script may run, and works in light and dark, on paper, by keyboard and on a phone.
#pragma once

#include "reports/html/markup.hpp"
#include "reports/html/page_parts.hpp"

#include <string>
#include <vector>

namespace insideline::reports {

struct Page {
  std::string title;              ///< plain text of any length, shown as it is
  Markup under_title;             ///< what was read, as a paragraph or two; may be empty
  Markup main;                    ///< the page's sections, see `section`
  std::string data;               ///< a JSON text for the scripts, which find it in #data; may be empty
  std::vector<PagePart> styles;   ///< beside `page_style`
  std::vector<PagePart> scripts;  ///< beside `page_script`
};

/// The whole file, ready to write.
std::string whole_page(const Page& page);

/// A section with its heading. `id` is for links and must be unique on the page.
Markup section(std::string_view id, std::string_view heading, const Markup& content);

/// A table with a caption for screen readers; the first cell of each row is its heading. `numbers_from` is the
/// first column that is set to the right.
struct Table {
  std::string caption;
  std::vector<std::string> head;
  std::vector<std::vector<std::string>> rows;
  std::size_t numbers_from = 1;
};
Markup table(const Table& table);

/// A table that opens at a click, as it stands behind every plot.
Markup folded_table(const Table& table);

}  // namespace insideline::reports
