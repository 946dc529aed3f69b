#include "reports/text/marks.hpp"

#include "analyzer/placement_when_struck.hpp"

namespace insideline::reports {
namespace {

std::string enclosed(const std::string& degree, Role role) {
  switch (role) {
    case Role::chord_tone: return degree;
    case Role::tension: return "[" + degree + "]";
    case Role::non_chord_tone: return "(" + degree + ")";
    case Role::outside: return degree + "!";
    case Role::no_chord: return "-";
  }
  return degree;
}

}  // namespace

std::string degree_mark(const NoteLabel& label) {
  std::string mark = enclosed(label.degree ? to_string(*label.degree) : "?", label.role);
  switch (placement_when_struck(label)) {
    case Placement::in_place: return mark;
    case Placement::anticipation: return mark + "»";
    case Placement::suspension:
    case Placement::retardation: return "«" + mark;
  }
  return mark;
}

Ink ink_of(Role role) {
  switch (role) {
    case Role::chord_tone: return Ink::chord_tone;
    case Role::tension: return Ink::tension;
    case Role::non_chord_tone: return Ink::non_chord_tone;
    case Role::outside: return Ink::outside;
    case Role::no_chord: return Ink::faint;
  }
  return Ink::plain;
}

std::string_view abbreviation(Figure figure) {
  switch (figure) {
    case Figure::root:
    case Figure::second:
    case Figure::third:
    case Figure::fourth:
    case Figure::fifth:
    case Figure::sixth:
    case Figure::seventh:
    case Figure::ninth:
    case Figure::eleventh:
    case Figure::thirteenth:
    case Figure::none: return "";
    case Figure::passing_tone: return "pass";
    case Figure::neighbour_tone: return "nbr";
    case Figure::double_neighbour: return "dbl";
    case Figure::approach_tone: return "appr";
    case Figure::enclosure: return "encl";
    case Figure::appoggiatura: return "lean";
    case Figure::escape_tone: return "esc";
    case Figure::pedal: return "ped";
    case Figure::unexplained: return "?";
  }
  return "";
}

std::string legend(Colour colour) {
  const auto sign = [colour](std::string_view text, Ink ink) { return painted(text, ink, colour); };
  std::string text = painted("Signs", Ink::title, colour) + "\n";
  text += "  degrees  " + sign("3", Ink::chord_tone) + " chord tone   " + sign("[9]", Ink::tension) + " tension   " +
          sign("(b9)", Ink::non_chord_tone) + " non-chord tone   " + sign("#5!", Ink::outside) + " outside\n";
  text += "           3» heard against the chord to come   «4 the chord before   - no chord\n";
  text += "  motion   pass passing   nbr neighbour   dbl double neighbour   appr approach\n";
  text += "           encl enclosure   lean appoggiatura   esc escape   ped pedal   ? none\n";
  text += "  lines    └──┘ arpeggio   b7>3 from the old chord's b7 to the new one's 3,\n";
  text += "           b7>3* as a guide tone   ~ held   · rest   gr grace note   & off-beat\n";
  return text;
}

}  // namespace insideline::reports
