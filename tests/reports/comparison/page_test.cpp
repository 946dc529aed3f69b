#include "reports/comparison/comparison_report.hpp"
#include "tests/reports/comparison/sample_comparison.hpp"

#include <string>
#include <vector>

#include <catch2/catch.hpp>

using insideline::reports::comparison_page;
using insideline::tests::NamedBars;
using insideline::tests::sample_comparison;
using insideline::tests::sixteen_bars;

namespace {

int times_in(const std::string& page, const std::string& words) {
  int count = 0;
  for (std::size_t at = page.find(words); at != std::string::npos; at = page.find(words, at + 1)) ++count;
  return count;
}

}  // namespace

TEST_CASE("the page has the sentences, the pictures and every figure") {
  const std::string page =
      comparison_page(sample_comparison({{"Anke", sixteen_bars({1, 2})}, {"Bjarne", sixteen_bars({4, 5})}}));
  CHECK(times_in(page, "Anke and Bjarne side by side") >= 2);  // the window's title and the heading
  CHECK(times_in(page, "Bjarne plays clearly more chord tones: 90 % (72 of 80)") == 1);
  for (const char* heading :
       {"In words", "The same bars side by side", "How far apart", "The lines", "Side by side", "Every figure"})
    CHECK(times_in(page, std::string(">") + heading + "</h2>") == 1);
  CHECK(times_in(page, "aria-label=\"Anke: 12 notes in 3 bars\"") == 1);
  CHECK(times_in(page, "aria-label=\"Bjarne against Anke. ") == 1);
  for (const insideline::FigureRow& row : insideline::figure_rows()) CHECK(times_in(page, row.name) >= 2);
}

TEST_CASE("names with markup in them are shown and not run") {
  const std::string page = comparison_page(
      sample_comparison({{"<script>alert(1)</script>", sixteen_bars({3})}, {"\"><b>", sixteen_bars({4})}}));
  CHECK(times_in(page, "<script>alert") == 0);
  CHECK(times_in(page, "\"><b>") == 0);
  CHECK(times_in(page, "&lt;script&gt;alert(1)&lt;/script&gt;") >= 3);
}

TEST_CASE("more solos than a plot can tell apart all have their lines and tables") {
  std::vector<NamedBars> solos;
  for (int i = 1; i <= 8; ++i) solos.emplace_back("take " + std::to_string(i), sixteen_bars({3, 2}));
  const std::string page = comparison_page(sample_comparison(solos));
  CHECK(times_in(page, "The plots show the first 6 of 8.") == 1);
  CHECK(times_in(page, "aria-label=\"take 8: 12 notes in 3 bars\"") == 1);
  CHECK(times_in(page, "take 8 against take 1") >= 3);
}

TEST_CASE("where nothing was judged there is no picture of differences") {
  const std::string page = comparison_page(sample_comparison({{"Anke", {{1, 2}}}, {"Bjarne", {{1, 2}}}}));
  CHECK(times_in(page, "How far apart") == 0);
  CHECK(times_in(page, "None of the main figures differs clearly.") == 1);
}
