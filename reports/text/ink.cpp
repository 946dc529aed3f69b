#include "reports/text/ink.hpp"

namespace insideline::reports {
namespace {

// The roles have the colours of the printed page: the nearest of a terminal's 256 to blue, vermillion and reddish
// purple of the palette that colour-blind readers tell apart (Okabe and Ito, Color Universal Design, 2008), each
// dark enough for a white ground and light enough for a black one; outside is heavy.
std::string_view escape_sequence(Ink ink) {
  switch (ink) {
    case Ink::plain: return "";
    case Ink::title: return "\x1b[1m";
    case Ink::faint: return "\x1b[2m";
    case Ink::chord_tone: return "\x1b[38;5;32m";
    case Ink::tension: return "\x1b[38;5;166m";
    case Ink::non_chord_tone: return "\x1b[38;5;169m";
    case Ink::outside: return "\x1b[1m";
  }
  return "";
}

}  // namespace

std::string painted(std::string_view text, Ink ink, Colour colour) {
  const std::string_view start = escape_sequence(ink);
  if (colour == Colour::off || start.empty() || text.empty()) return std::string(text);
  return std::string(start).append(text).append("\x1b[0m");
}

}  // namespace insideline::reports
