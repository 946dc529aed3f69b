#include "reports/html/markup.hpp"

#include "analyzer/utf8.hpp"

#include <cmath>
#include <cstddef>
#include <cstdint>

namespace insideline::reports {
namespace {

constexpr std::string_view replacement = "\xEF\xBF\xBD";

/// How many bytes the character at the front of `bytes` has; 0 where there is none that a page may hold.
std::size_t character_length(std::string_view bytes) {
  const std::size_t length = utf8_length(bytes);
  if (length < 2) return length;
  const char32_t code = code_point(bytes.substr(0, length));
  const bool control = code >= 0x80U && code <= 0x9FU;
  const bool no_character = (code & 0xFFFEU) == 0xFFFEU || (code >= 0xFDD0U && code <= 0xFDEFU);
  return control || no_character ? 0 : length;
}

bool is_forbidden_control(char byte) {
  const auto code = static_cast<unsigned char>(byte);
  return (code < 0x20U && byte != '\t' && byte != '\n') || code == 0x7FU;
}

void write_escaped(std::string_view plain, std::string& out) {
  while (!plain.empty()) {
    const char first = plain.front();
    std::size_t length = 1;
    switch (first) {
      case '&': out += "&amp;"; break;
      case '<': out += "&lt;"; break;
      case '>': out += "&gt;"; break;
      case '"': out += "&quot;"; break;
      case '\'': out += "&#39;"; break;
      default:
        length = character_length(plain);
        if (length == 0 || is_forbidden_control(first)) {
          out += replacement;
          length = 1;
        } else {
          out += plain.substr(0, length);
        }
    }
    plain.remove_prefix(length);
  }
}

}  // namespace

/// The only writer of tags.
class ElementWriter {
 public:
  static Markup written(std::string_view name, Attributes attributes, std::string_view end) {
    Markup markup;
    markup.html_.reserve(name.size() + 1 + attributes.size() * 16);
    markup.html_ += '<';
    markup.html_ += name;
    for (const Attribute& attribute : attributes) {
      if (attribute.name.empty()) continue;
      markup.html_ += ' ';
      markup.html_ += attribute.name;
      if (attribute.value.empty()) continue;
      markup.html_ += "=\"";
      write_escaped(attribute.value, markup.html_);
      markup.html_ += '"';
    }
    markup.html_ += end;
    return markup;
  }
  static void close(Markup& markup, std::string_view name) {
    markup.html_ += "</";
    markup.html_ += name;
    markup.html_ += '>';
  }
};

Markup& Markup::operator+=(const Markup& more) {
  html_ += more.html_;
  return *this;
}

Markup Markup::of_the_program(std::string_view html) {
  Markup markup;
  markup.html_ = html;
  return markup;
}

Markup operator+(Markup a, const Markup& b) {
  a += b;
  return a;
}

std::string escaped(std::string_view plain) {
  std::string out;
  out.reserve(plain.size());
  write_escaped(plain, out);
  return out;
}

Markup text(std::string_view plain) {
  Markup markup;
  markup.html_ = escaped(plain);
  return markup;
}

Markup element(std::string_view name, Attributes attributes, const Markup& content) {
  Markup markup = ElementWriter::written(name, attributes, ">");
  markup += content;
  ElementWriter::close(markup, name);
  return markup;
}

Markup element(std::string_view name, Attributes attributes, std::string_view plain) {
  return element(name, attributes, text(plain));
}

Markup element(std::string_view name, const Markup& content) { return element(name, {}, content); }

Markup element(std::string_view name, std::string_view plain) { return element(name, {}, text(plain)); }

Markup lone_element(std::string_view name, Attributes attributes) {
  return ElementWriter::written(name, attributes, ">");
}

Markup shape(std::string_view name, Attributes attributes) { return ElementWriter::written(name, attributes, "/>"); }

std::string drawn(double number) {
  constexpr double places = 10.0;
  const auto tenths = static_cast<std::int64_t>(std::llround(number * places));
  const std::int64_t size = tenths < 0 ? -tenths : tenths;
  std::string digits = std::to_string(size / 10);
  if (size % 10 != 0) digits += '.' + std::to_string(size % 10);
  return tenths < 0 ? '-' + digits : digits;
}

std::string with_accidentals(std::string_view degree) {
  std::string shown;
  for (std::size_t i = 0; i < degree.size(); ++i) {
    const bool before_number = degree.find_first_of("0123456789", i) != std::string_view::npos;
    if (degree[i] == 'b' && before_number)
      shown += "♭";
    else if (degree[i] == '#' && before_number)
      shown += "♯";
    else
      shown += degree[i];
  }
  return shown;
}

}  // namespace insideline::reports
