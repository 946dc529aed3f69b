#include "reports/printed/signs.hpp"

#include "reports/printed/prelude.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <string_view>

using insideline::Role;

TEST_CASE("a role has one colour on every page") {
  const Role role = GENERATE(Role::chord_tone, Role::tension, Role::non_chord_tone, Role::outside, Role::no_chord);
  const auto entry =
      fmt::format("({} . \"{}\")", insideline::reports::role_letter(role), insideline::reports::role_colour(role));
  CAPTURE(entry);
  CHECK(insideline::reports::printed_prelude().find(entry) != std::string_view::npos);
}
