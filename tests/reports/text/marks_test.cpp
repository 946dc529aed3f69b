#include "reports/text/marks.hpp"

#include "reports/text/display_width.hpp"

#include <catch2/catch.hpp>

#include <sstream>
#include <string>

namespace insideline::tests {

TEST_CASE("a degree is marked by what the note is and when its chord sounds") {
  const auto [role, placement, mark] = GENERATE(table<Role, Placement, std::string>({
      {Role::chord_tone, Placement::in_place, "b9"},
      {Role::tension, Placement::in_place, "[b9]"},
      {Role::non_chord_tone, Placement::in_place, "(b9)"},
      {Role::outside, Placement::in_place, "b9!"},
      {Role::no_chord, Placement::in_place, "-"},
      {Role::chord_tone, Placement::anticipation, "b9»"},
      {Role::chord_tone, Placement::suspension, "«b9"},
      {Role::chord_tone, Placement::retardation, "«b9"},
  }));
  NoteLabel label;
  label.role = role;
  label.placement = placement;
  label.degree = Degree{9, -1};
  CHECK(reports::degree_mark(label) == mark);
}

TEST_CASE("only notes that move somewhere have an abbreviation, and the legend explains each") {
  const std::string legend = reports::legend(reports::Colour::off);
  for (int number = 0; number <= static_cast<int>(Figure::none); ++number) {
    const auto figure = static_cast<Figure>(number);
    const std::string short_form(reports::abbreviation(figure));
    CAPTURE(to_string(figure));
    const bool moves = figure >= Figure::passing_tone && figure <= Figure::unexplained;
    CHECK(short_form.empty() != moves);
    if (moves) CHECK(legend.find(" " + short_form + " ") != std::string::npos);
  }
}

TEST_CASE("the legend fits the page") {
  std::istringstream lines(reports::legend(reports::Colour::off));
  for (std::string line; std::getline(lines, line);) CHECK(reports::display_width(line) <= 80);
}

}  // namespace insideline::tests
