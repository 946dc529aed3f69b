#include "reports/printed/signs.hpp"

#include "analyzer/placement_when_struck.hpp"

#include <fmt/format.h>

#include <cstdlib>

namespace insideline::reports {
namespace {

/// "b" "9": the accidental and the number as two arguments.
std::string degree_arguments(const Degree& degree) {
  const std::string accidental(static_cast<std::size_t>(std::abs(degree.alter)), degree.alter < 0 ? 'b' : '#');
  return fmt::format("\"{}\" \"{}\"", accidental, degree.number);
}

}  // namespace

std::string_view role_letter(Role role) {
  switch (role) {
    case Role::chord_tone: return "C";
    case Role::tension: return "T";
    case Role::non_chord_tone: return "N";
    case Role::outside: return "O";
    case Role::no_chord: return "X";
  }
  return "X";
}

// Blue, vermillion and reddish purple of a palette that colour-blind readers tell apart
// (Okabe and Ito, Color Universal Design, 2008); the rest black.
std::string_view role_colour(Role role) {
  switch (role) {
    case Role::chord_tone: return "#0072B2";
    case Role::tension: return "#D55E00";
    case Role::non_chord_tone: return "#CC79A7";
    case Role::outside:
    case Role::no_chord: return "#000000";
  }
  return "#000000";
}

std::string degree_markup(const NoteLabel& label) {
  std::string_view before;
  std::string_view after;
  switch (placement_when_struck(label)) {
    case Placement::in_place: break;
    case Placement::anticipation: after = "»"; break;
    case Placement::suspension:
    case Placement::retardation: before = "«"; break;
  }
  return fmt::format("\\degree #'{} \"{}\" {} \"{}\"", role_letter(label.role), before,
                     label.degree ? degree_arguments(*label.degree) : "\"\" \"?\"", after);
}

std::string_view way_of(const Arpeggio& arpeggio) {
  switch (arpeggio.direction) {
    case Direction::ascending: return "up";
    case Direction::descending: return arpeggio.straight_descent ? "down!" : "down";
    case Direction::mixed: break;
  }
  return goes_both_ways(arpeggio) ? "both ways" : "turns";
}

std::string cell_markup(std::string_view way, std::span<const Degree> degrees) {
  std::string text;
  for (const Degree& degree : degrees) {
    if (!text.empty()) text += "\"-\" ";
    text += fmt::format("\\plain-degree {} ", degree_arguments(degree));
  }
  return fmt::format("\\markup \\cell \"{}\" {{ {}}}", way, text);
}

}  // namespace insideline::reports
