#include "reports/html/engraved_view.hpp"

#include <fmt/format.h>

#include <array>
#include <optional>
#include <string_view>

namespace insideline::reports {
namespace {

// What LilyPond 2.24 draws a system with.
constexpr std::array<std::string_view, 10> known_elements = {"svg",     "g",    "line",  "rect",    "path",
                                                             "polygon", "text", "tspan", "ellipse", "circle"};

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9'); }

bool has_only_known_elements(std::string_view svg) {
  for (std::size_t at = svg.find('<'); at != std::string_view::npos; at = svg.find('<', at + 1)) {
    std::size_t begin = at + 1;
    if (begin < svg.size() && svg[begin] == '/') ++begin;
    std::size_t end = begin;
    while (end < svg.size() && is_letter(svg[end])) ++end;
    const std::string_view name = svg.substr(begin, end - begin);
    bool known = false;
    for (const std::string_view element : known_elements) known = known || element == name;
    if (!known) return false;
  }
  return svg.find(" on") == std::string_view::npos && svg.find("href") == std::string_view::npos;
}

void cut(std::string& text, std::string_view from, std::string_view to) {
  const std::size_t begin = text.find(from);
  if (begin == std::string::npos) return;
  const std::size_t end = text.find(to, begin + from.size());
  if (end != std::string::npos) text.erase(begin, end + to.size() - begin);
}

void replace_all(std::string& text, std::string_view what, std::string_view by) {
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + by.size()))
    text.replace(at, what.size(), by);
}

/// The drawing as an element of the page; none where it is no drawing of a system.
std::optional<std::string> inlined(std::string svg, std::size_t system) {
  cut(svg, "<style", "</style>");
  cut(svg, " xmlns:xlink=\"", "\"");
  cut(svg, " width=\"", "\"");
  cut(svg, " height=\"", "\"");
  if (!svg.starts_with("<svg ") || svg.find("<g") == std::string::npos || !has_only_known_elements(svg))
    return std::nullopt;
  replace_all(svg, "id=\"n", "id=\"e");
  // The fonts of the printed page, and for machines without them what is nearest.
  replace_all(svg, "font-family=\"C059\"", "font-family=\"C059, Century Schoolbook, Georgia, serif\"");
  replace_all(svg, "font-family=\"Nimbus Sans\"", "font-family=\"Nimbus Sans, Helvetica, Arial, sans-serif\"");
  return fmt::format("<svg role=\"img\" aria-label=\"Engraved score, system {}\" {}", system, svg.substr(5));
}

}  // namespace

Markup engraved_view(std::span<const std::string> drawings) {
  Markup systems;
  std::size_t system = 1;
  for (const std::string& drawing : drawings)
    if (const auto svg = inlined(drawing, system)) {
      systems += Markup::of_the_program(*svg);
      ++system;
    }
  return systems.empty() ? systems : element("div", {{"class", "engraved"}}, systems);
}

}  // namespace insideline::reports
