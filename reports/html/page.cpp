#include "reports/html/page.hpp"

#include <fmt/format.h>

namespace insideline::reports {
namespace {

std::string policy(const Page& page) {
  std::string styles = fmt::format("'sha256-{}'", page_style.sha256);
  for (const PagePart& part : page.styles) styles += fmt::format(" 'sha256-{}'", part.sha256);
  std::string scripts = fmt::format("'sha256-{}'", page_script.sha256);
  for (const PagePart& part : page.scripts) scripts += fmt::format(" 'sha256-{}'", part.sha256);
  return fmt::format("default-src 'none'; style-src {}; script-src {}; base-uri 'none'; form-action 'none'", styles,
                     scripts);
}

Markup head(const Page& page) {
  Markup head = lone_element("meta", {{"charset", "utf-8"}});
  head += lone_element("meta", {{"http-equiv", "Content-Security-Policy"}, {"content", policy(page)}});
  head += lone_element("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}});
  head += lone_element("meta", {{"name", "color-scheme"}, {"content", "light dark"}});
  head += lone_element("meta", {{"name", "generator"}, {"content", "insideline"}});
  head += element("title", page.title.empty() ? std::string_view("insideline") : page.title);
  head += element("style", Markup::of_the_program(page_style.text));
  for (const PagePart& part : page.styles) head += element("style", Markup::of_the_program(part.text));
  return element("head", head);
}

/// Fills that tell the roles apart in black and white, and the shapes of the notes.
Markup patterns() {
  return Markup::of_the_program(
      R"svg(<svg class="defs" width="0" height="0" aria-hidden="true" focusable="false"><defs>)svg"
      R"svg(<pattern id="fill-tension" width="6" height="6" patternUnits="userSpaceOnUse">)svg"
      R"svg(<path class="ground-t" d="M0 0h6v6H0z"/><path class="grain" d="M0 3h6"/></pattern>)svg"
      R"svg(<pattern id="fill-moving" width="6" height="6" patternUnits="userSpaceOnUse">)svg"
      R"svg(<path class="ground-n" d="M0 0h6v6H0z"/><path class="grain" d="M-1 5L5 -1M1 7L7 1"/></pattern>)svg"
      R"svg(<pattern id="fill-outside" width="6" height="6" patternUnits="userSpaceOnUse">)svg"
      R"svg(<path class="ground-o" d="M0 0h6v6H0z"/><path class="grain" d="M2 3h2"/></pattern>)svg"
      R"svg(</defs></svg>)svg");
}

/// A JSON text inside a script element: "<" would let it end the element.
std::string harmless(std::string_view json) {
  std::string out;
  out.reserve(json.size());
  for (const char byte : json) {
    if (byte == '<')
      out += "\\u003c";
    else
      out += byte;
  }
  return out;
}

Markup body(const Page& page) {
  Markup body = element("a", {{"class", "skip"}, {"href", "#main"}}, "Skip to the content");
  body += patterns();
  const Markup toggle =
      element("button", {{"type", "button"}, {"id", "theme"}, {"hidden", ""}, {"aria-pressed", "false"}}, "Dark");
  body += element("header", {{"class", "top"}},
                  element("div", {{"class", "title"}}, element("h1", page.title) + toggle) + page.under_title);
  body += element("main", {{"id", "main"}, {"tabindex", "-1"}}, page.main);
  body += element("footer", element("p", "Made by insideline. The labels are a reading of the line, not the truth."));
  if (!page.data.empty())
    body +=
        element("script", {{"type", "application/json"}, {"id", "data"}}, Markup::of_the_program(harmless(page.data)));
  body += element("script", Markup::of_the_program(page_script.text));
  for (const PagePart& part : page.scripts) body += element("script", Markup::of_the_program(part.text));
  return element("body", body);
}

Markup table_row(const Table& table, const std::vector<std::string>& cells, bool heading) {
  Markup row;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const Attribute number{i >= table.numbers_from ? "class" : "", "number"};
    const bool names_row = !heading && i == 0;
    if (heading || names_row)
      row += element("th", {{"scope", heading ? "col" : "row"}, number}, cells[i]);
    else
      row += element("td", {number}, cells[i]);
  }
  return element("tr", row);
}

}  // namespace

std::string whole_page(const Page& page) {
  return "<!DOCTYPE html>\n" + element("html", {{"lang", "en-GB"}}, head(page) + body(page)).html() + "\n";
}

Markup section(std::string_view id, std::string_view heading, const Markup& content) {
  const std::string heading_id = fmt::format("{}-heading", id);
  return element("section", {{"id", std::string(id)}, {"aria-labelledby", heading_id}},
                 element("h2", {{"id", heading_id}}, heading) + content);
}

Markup table(const Table& table) {
  Markup rows;
  for (const std::vector<std::string>& cells : table.rows) rows += table_row(table, cells, false);
  Markup content = element("caption", table.caption);
  content += element("thead", table_row(table, table.head, true));
  content += element("tbody", rows);
  return element("div", {{"class", "scroll"}, {"role", "region"}, {"tabindex", "0"}, {"aria-label", table.caption}},
                 element("table", content));
}

Markup folded_table(const Table& behind) {
  return element("details", {{"class", "figures"}}, element("summary", "The figures as a table") + table(behind));
}

}  // namespace insideline::reports
