#include "io/musicxml/encoding.hpp"

#include "analyzer/small_letters.hpp"
#include "analyzer/utf8.hpp"
#include "io/read_result.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstring>
#include <optional>

namespace insideline::io {
namespace {

enum class Encoding : std::uint8_t { utf8, utf16_little, utf16_big, latin1 };

struct DeclaredName {
  std::string_view name;
  Encoding encoding;
};

// UTF-16 that is declared but has no UTF-16 bytes behind it is UTF-8 with a wrong label.
constexpr std::array declared_names = {
    DeclaredName{"utf-8", Encoding::utf8},       DeclaredName{"utf8", Encoding::utf8},
    DeclaredName{"utf-16", Encoding::utf8},      DeclaredName{"utf-16le", Encoding::utf8},
    DeclaredName{"utf-16be", Encoding::utf8},    DeclaredName{"us-ascii", Encoding::utf8},
    DeclaredName{"ascii", Encoding::utf8},       DeclaredName{"iso-8859-1", Encoding::latin1},
    DeclaredName{"iso8859-1", Encoding::latin1}, DeclaredName{"iso_8859-1", Encoding::latin1},
    DeclaredName{"latin1", Encoding::latin1},    DeclaredName{"latin-1", Encoding::latin1},
};

unsigned byte_at(std::string_view bytes, std::size_t index) { return static_cast<unsigned char>(bytes[index]); }

/// By the byte order mark, or by the zero byte beside the first "<".
std::optional<Encoding> encoding_by_bytes(std::string_view bytes) {
  using namespace std::string_view_literals;
  if (bytes.starts_with("\xFF\xFE"sv) || bytes.starts_with("<\0"sv)) return Encoding::utf16_little;
  if (bytes.starts_with("\xFE\xFF"sv) || bytes.starts_with("\0<"sv)) return Encoding::utf16_big;
  if (bytes.starts_with("\xEF\xBB\xBF"sv)) return Encoding::utf8;
  return std::nullopt;
}

/// The value of `encoding` in the XML declaration; empty where there is none.
std::string_view declared_encoding(std::string_view bytes) {
  if (!bytes.starts_with("<?xml")) return {};
  const std::string_view declaration = bytes.substr(0, bytes.find("?>"));
  const std::size_t word = declaration.find("encoding");
  if (word == std::string_view::npos) return {};
  const std::size_t open = declaration.find_first_of("\"'", word);
  if (open == std::string_view::npos) return {};
  const std::size_t close = declaration.find(declaration[open], open + 1);
  if (close == std::string_view::npos) return {};
  return declaration.substr(open + 1, close - open - 1);
}

Encoding encoding_of(std::string_view bytes, std::string_view file_name) {
  if (const auto seen = encoding_by_bytes(bytes)) return *seen;
  const std::string name = in_small_letters(declared_encoding(bytes));
  if (name.empty()) return Encoding::utf8;
  const auto* const found = std::ranges::find(declared_names, name, &DeclaredName::name);
  if (found != declared_names.end()) return found->encoding;
  throw ReadError(place_in(file_name, bytes, bytes.find("encoding")),
                  fmt::format("the encoding \"{}\" is not read; export the score again as UTF-8", name.substr(0, 40)));
}

void append_utf8(std::string& text, std::uint32_t code_point) {
  const auto add = [&text](std::uint32_t byte) { text.push_back(static_cast<char>(static_cast<unsigned char>(byte))); };
  if (code_point < 0x80U) return add(code_point);
  if (code_point < 0x800U) {
    add(0xC0U | (code_point >> 6U));
    return add(0x80U | (code_point & 0x3FU));
  }
  if (code_point < 0x10000U) {
    add(0xE0U | (code_point >> 12U));
  } else {
    add(0xF0U | (code_point >> 18U));
    add(0x80U | ((code_point >> 12U) & 0x3FU));
  }
  add(0x80U | ((code_point >> 6U) & 0x3FU));
  add(0x80U | (code_point & 0x3FU));
}

std::string from_latin1(std::string_view bytes) {
  std::string text;
  text.reserve(bytes.size() + bytes.size() / 8);
  for (std::size_t i = 0; i < bytes.size(); ++i) append_utf8(text, byte_at(bytes, i));
  return text;
}

std::string from_utf16(std::string_view bytes, std::string_view file_name, Encoding order) {
  const auto unit_at = [&](std::size_t index) -> std::uint32_t {
    const unsigned first = byte_at(bytes, index);
    const unsigned second = byte_at(bytes, index + 1);
    return order == Encoding::utf16_little ? (second << 8U) | first : (first << 8U) | second;
  };
  std::string text;
  text.reserve(bytes.size());
  for (std::size_t i = 0; i < bytes.size(); i += 2) {
    const bool whole = i + 1 < bytes.size();
    std::uint32_t unit = whole ? unit_at(i) : 0xD800U;
    if (unit >= 0xD800U && unit < 0xE000U) {
      const std::uint32_t low = whole && i + 3 < bytes.size() ? unit_at(i + 2) : 0;
      if (unit >= 0xDC00U || low < 0xDC00U || low >= 0xE000U)
        throw ReadError(place_in(file_name, text, text.size()),
                        "the UTF-16 text breaks off inside a character here; export the score again");
      unit = 0x10000U + ((unit - 0xD800U) << 10U) + (low - 0xDC00U);
      i += 2;
    }
    if (i != 0 || unit != 0xFEFFU) append_utf8(text, unit);
  }
  return text;
}

/// How many bytes the UTF-8 of `text` takes in `encoding`.
std::size_t encoded_bytes(std::string_view text, Encoding encoding) {
  const auto starts_character = [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; };
  const auto needs_two_units = [](char c) { return static_cast<unsigned char>(c) >= 0xF0U; };
  if (encoding == Encoding::utf8) return text.size();
  const auto characters = static_cast<std::size_t>(std::ranges::count_if(text, starts_character));
  if (encoding == Encoding::latin1) return characters;
  return 2 * (characters + static_cast<std::size_t>(std::ranges::count_if(text, needs_two_units)));
}

void append_ascii(std::string& bytes, std::string_view ascii, Encoding encoding) {
  switch (encoding) {
    case Encoding::utf8:
    case Encoding::latin1: bytes += ascii; return;
    case Encoding::utf16_little:
      for (const char c : ascii) bytes.append({c, '\0'});
      return;
    case Encoding::utf16_big:
      for (const char c : ascii) bytes.append({'\0', c});
      return;
  }
}

constexpr std::size_t block_bytes = 64;

bool is_ascii_block(const char* bytes) {
  const auto word = [bytes](std::size_t from) {
    std::uint64_t letters = 0;
    std::memcpy(&letters, bytes + from, sizeof letters);
    return letters;
  };
  const std::uint64_t all = word(0) | word(8) | word(16) | word(24) | word(32) | word(40) | word(48) | word(56);
  return (all & 0x8080808080808080ULL) == 0;
}

void check_utf8(std::string_view text, std::string_view file_name) {
  for (std::size_t i = 0; i < text.size();) {
    if (i + block_bytes <= text.size() && is_ascii_block(text.data() + i)) {
      i += block_bytes;
      continue;
    }
    const std::size_t length = utf8_length(text, i);
    if (length == 0)
      throw ReadError(place_in(file_name, text.substr(0, i), i),
                      fmt::format("the byte {:02X} here is not UTF-8, which the file claims to be; export it as UTF-8",
                                  byte_at(text, i)));
    i += length;
  }
}

}  // namespace

std::string_view as_utf8(std::string_view bytes, std::string_view file_name, std::string& converted) {
  std::string_view text = bytes;
  switch (const Encoding encoding = encoding_of(bytes, file_name)) {
    case Encoding::utf8: break;
    case Encoding::latin1: text = converted = from_latin1(bytes); break;
    case Encoding::utf16_little:
    case Encoding::utf16_big: text = converted = from_utf16(bytes, file_name, encoding); break;
  }
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  check_utf8(text, file_name);
  return text;
}

std::string with_insertions(std::string_view bytes, std::string_view text, std::span<const Insertion> insertions) {
  const Encoding encoding = encoding_of(bytes, {});
  // What the bytes have more than the text is a byte order mark.
  std::size_t copied = bytes.size() - encoded_bytes(text, encoding);
  std::string result(bytes.substr(0, copied));
  result.reserve(bytes.size() + bytes.size() / 4);
  std::size_t read = 0;
  for (const Insertion& insertion : insertions) {
    const std::size_t length = encoded_bytes(text.substr(read, insertion.offset - read), encoding);
    result += bytes.substr(copied, length);
    append_ascii(result, insertion.ascii, encoding);
    copied += length;
    read = insertion.offset;
  }
  return result.append(bytes.substr(copied));
}

}  // namespace insideline::io
