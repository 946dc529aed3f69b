#include "reports/printed/chord_markup.hpp"

#include "analyzer/harmony/chord_symbol.hpp"
#include "reports/printed/lilypond_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <span>
#include <string_view>

namespace insideline::reports {
namespace {

constexpr std::array<std::string_view, 3> flats{"b", "♭", "𝄫"};
constexpr std::array<std::string_view, 3> sharps{"#", "♯", "𝄪"};

/// The bytes of the accidental that `text` begins with; 0 for none.
std::size_t accidental_bytes(std::string_view text, std::span<const std::string_view> signs) {
  for (const std::string_view sign : signs)
    if (text.starts_with(sign)) return sign.size();
  return 0;
}

bool is_digit(char letter) { return letter >= '0' && letter <= '9'; }

/// What follows the root's letter and accidentals.
std::string_view after_root(std::string_view symbol, const NoteName& root) {
  symbol.remove_prefix(std::min<std::size_t>(1, symbol.size()));
  const auto& signs = root.alter < 0 ? flats : sharps;
  for (int left = std::abs(root.alter); left > 0;) {
    const std::size_t bytes = accidental_bytes(symbol, signs);
    if (bytes == 0) break;
    left -= symbol.starts_with(signs[2]) ? 2 : 1;
    symbol.remove_prefix(bytes);
  }
  return symbol;
}

/// Up to the slash before the bass; the slash of 6/9 is followed by a digit.
std::string_view before_bass(std::string_view symbol) {
  const std::size_t slash = symbol.rfind('/');
  const bool is_bass = slash != std::string_view::npos && slash + 1 < symbol.size() && !is_digit(symbol[slash + 1]);
  return is_bass ? symbol.substr(0, slash) : symbol;
}

/// Where the raised part begins: at the first number, its accidental or its bracket.
std::size_t extension_begin(std::string_view text) {
  for (std::size_t at = 0; at < text.size(); ++at) {
    const std::string_view rest = text.substr(at);
    const std::size_t bytes = std::max(accidental_bytes(rest, flats), accidental_bytes(rest, sharps));
    if (is_digit(text[at]) || text[at] == '(' || text[at] == '[') return at;
    if (bytes > 0 && bytes < rest.size() && is_digit(rest[bytes])) return at;
  }
  return text.size();
}

std::string accidental_text(int alter) {
  return std::string(static_cast<std::size_t>(std::abs(alter)), alter < 0 ? 'b' : '#');
}

std::string letter_of(const NoteName& name) { return to_string(name).substr(0, 1); }

/// The raised part with its accidentals as signs.
std::string extension_markup(std::string_view text) {
  std::string pieces;
  std::string plain;
  const auto add_plain = [&] {
    if (!plain.empty()) pieces += lilypond_string(plain) + " ";
    plain.clear();
  };
  while (!text.empty()) {
    const std::size_t flat = accidental_bytes(text, flats);
    const std::size_t bytes = std::max(flat, accidental_bytes(text, sharps));
    if (bytes > 0 && bytes < text.size() && is_digit(text[bytes])) {
      add_plain();
      pieces += flat > 0 ? "\\flat-sign " : "\\sharp-sign ";
      text.remove_prefix(bytes);
      continue;
    }
    plain += text.front();
    text.remove_prefix(1);
  }
  add_plain();
  return pieces;
}

}  // namespace

ChordParts chord_parts(const Chord& chord) {
  const bool is_research_label = chord.symbol.find(':') != std::string::npos || chord.symbol.empty();
  const std::string symbol = is_research_label ? canonical_symbol(chord) : chord.symbol;
  std::string_view rest = after_root(symbol, chord.root);
  if (chord.bass) rest = before_bass(rest);
  const std::size_t extension = extension_begin(rest);
  return {chord.root, std::string(rest.substr(0, extension)), std::string(rest.substr(extension)), chord.bass};
}

std::string chord_markup(const Chord& chord) {
  const ChordParts parts = chord_parts(chord);
  const std::string bass = parts.bass ? letter_of(*parts.bass) : "";
  return fmt::format("\\chord-symbol \"{}\" \"{}\" {} {{ {}}} \"{}\" \"{}\"", letter_of(parts.root),
                     accidental_text(parts.root.alter), lilypond_string(parts.quality),
                     extension_markup(parts.extension), bass, parts.bass ? accidental_text(parts.bass->alter) : "");
}

}  // namespace insideline::reports
