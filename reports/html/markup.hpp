// HTML and SVG as a type of its own. A Markup is made only by the functions below, and those
// escape every text and attribute, so that a title with tags or quotes in it is shown and never run.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>

namespace insideline::reports {

/// Finished markup.
/// Invariant: nothing that came from a file stands in it unescaped.
class Markup {
 public:
  Markup() = default;
  Markup& operator+=(const Markup& more);
  [[nodiscard]] const std::string& html() const { return html_; }
  [[nodiscard]] bool empty() const { return html_.empty(); }

  /// `html` as it is: for text of the program itself, never for text from a file.
  static Markup of_the_program(std::string_view html);

 private:
  std::string html_;
  friend Markup text(std::string_view plain);
  friend class ElementWriter;
};

Markup operator+(Markup a, const Markup& b);

/// `plain` with & < > " ' escaped; bytes that are no UTF-8 and characters that HTML forbids
/// become U+FFFD.
std::string escaped(std::string_view plain);

/// Plain text as markup.
Markup text(std::string_view plain);

struct Attribute {
  std::string_view name;
  std::string value;  ///< plain: it is escaped
};
using Attributes = std::initializer_list<Attribute>;

/// <name attribute="value">content</name>; an attribute with an empty name is left out, one with an
/// empty value is its name alone (hidden, checked).
Markup element(std::string_view name, Attributes attributes, const Markup& content);
Markup element(std::string_view name, Attributes attributes, std::string_view plain);
Markup element(std::string_view name, const Markup& content);
Markup element(std::string_view name, std::string_view plain);

/// <name attribute="value">: an element of HTML that has no content (meta, input, br).
Markup lone_element(std::string_view name, Attributes attributes);

/// <name attribute="value"/>: a shape of SVG.
Markup shape(std::string_view name, Attributes attributes);

/// A number as attributes want it: at most one decimal, no locale, "12.5", "-3".
std::string drawn(double number);

/// "b9" and "#11" with the signs that are printed: "♭9", "♯11".
std::string with_accidentals(std::string_view degree);

}  // namespace insideline::reports
