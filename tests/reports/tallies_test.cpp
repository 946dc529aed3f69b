#include "reports/tallies.hpp"

#include "tests/reports/sample_report.hpp"

#include <catch2/catch.hpp>

namespace insideline::tests {
namespace {

Arpeggio arpeggio(std::vector<Degree> degrees, Inversion inversion, std::string spells) {
  Arpeggio result;
  result.degrees = std::move(degrees);
  result.inversion = inversion;
  result.spells = std::move(spells);
  return result;
}

using Index = std::vector<std::size_t>;

}  // namespace

TEST_CASE("arpeggio shapes are listed by how often they come, then by which came first") {
  const std::vector<Arpeggio> arpeggios = {arpeggio({{1, 0}, {3, 0}, {5, 0}}, Inversion::root_position, ""),
                                           arpeggio({{3, 0}, {5, 0}, {7, -1}}, Inversion::first, ""),
                                           arpeggio({{3, 0}, {5, 0}, {7, -1}}, Inversion::first, "")};
  const auto shapes = reports::arpeggio_shapes(arpeggios);
  REQUIRE(shapes.size() == 2);
  CHECK(shapes[0].name == "3 5 b7");
  CHECK(shapes[0].where == Index{1, 2});
  CHECK(shapes[1].name == "1 3 5");
  const auto inversions = reports::arpeggio_inversions(arpeggios);
  REQUIRE(inversions.size() == 2);
  CHECK(inversions[0].name == "root position");
  CHECK(inversions[1].where == Index{1, 2});
}

TEST_CASE("a borrowed chord stands on another root than the chord below it") {
  Analysis analysis = sample_report().analysis;
  analysis.arpeggios = {arpeggio({{1, 0}, {3, -1}, {5, 0}}, Inversion::root_position, "Dm"),
                        arpeggio({{3, -1}, {5, 0}, {7, -1}}, Inversion::first, "F")};
  const auto borrowed = reports::borrowed_chords(analysis);
  REQUIRE(borrowed.size() == 1);
  CHECK(borrowed[0].name == "F over Dm7: b3 5 b7");
  CHECK(borrowed[0].where == Index{1});
}

TEST_CASE("tensions are counted by degree, grace notes left out") {
  reports::Report report = sample_report();
  report.analysis.labels[11].role = Role::tension;  // the grace note
  const auto tensions = reports::tensions_by_degree(report.solo, report.analysis.labels);
  REQUIRE(tensions.size() == 1);
  CHECK(tensions[0].name == "9");
  CHECK(tensions[0].where == Index{4, 9});
}

}  // namespace insideline::tests
