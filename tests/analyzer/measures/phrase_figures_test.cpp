#include "analyzer/measures/phrase_figures.hpp"

#include "tests/support/analysed.hpp"

#include <vector>

#include <catch2/catch.hpp>

using insideline::Contour;
using insideline::contour_of;
using insideline::Share;
using insideline::tests::analysed;

TEST_CASE("a phrase rises, falls, arches, dips or stays") {
  const auto [midi, contour] = GENERATE(table<std::vector<int>, Contour>({
      {{60, 62, 64, 65}, Contour::rising},
      {{67, 65, 64, 60}, Contour::falling},
      {{60, 67, 72, 67, 60}, Contour::arch},
      {{72, 64, 60, 64, 71}, Contour::bowl},
      {{60, 61, 60, 61}, Contour::level},
      {{60, 72}, Contour::rising},
      {{60}, Contour::level},
  }));
  CHECK(contour_of(midi) == contour);
  CHECK(contour_of({}) == Contour::level);
}

TEST_CASE("each phrase has its own row") {
  const auto line = analysed("C@0 G7@4", "C4:1 E4:1 G4:1 r:1 A4:1/2 G4:1/2 F4:1 D4:1 B3:1");
  const auto& rows = line.analysis.phrase_figures;
  REQUIRE(rows.size() == 2);
  CHECK(rows[0].first_bar == 1);
  CHECK(rows[0].last_bar == 1);
  CHECK(to_string(rows[0].lowest) == "C4");
  CHECK(to_string(rows[0].highest) == "G4");
  CHECK(rows[0].contour == Contour::rising);
  CHECK(rows[0].arpeggio_share == Share{3, 3});
  CHECK(to_string(rows[0].first_degree.value()) == "1");
  CHECK(to_string(rows[0].last_degree.value()) == "5");
  CHECK(rows[0].density.strict == Share{3, 3});
  CHECK(rows[1].first_bar == 2);
  CHECK(rows[1].contour == Contour::falling);
  CHECK(rows[1].density.notes == 5);
  CHECK(to_string(rows[1].last_degree.value()) == "3");
  CHECK(rows[1].arpeggio_share.of == 5);
}
