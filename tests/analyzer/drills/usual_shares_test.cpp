#include "analyzer/drills/usual_shares.hpp"

#include "analyzer/measures/figure_table.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

using insideline::figure_rows;
using insideline::FigureRow;
using insideline::is_far_below;
using insideline::is_share_of_counted;
using insideline::Share;
using insideline::stated_shares;
using insideline::UsualShare;

TEST_CASE("what is usual is stated of figures that a survey keeps, as shares of things counted one by one") {
  for (const UsualShare& usual : stated_shares()) {
    INFO(usual.figure);
    const auto row = std::ranges::find_if(
        figure_rows(), [&](const FigureRow& figure) { return std::string(figure.key) == usual.figure; });
    REQUIRE(row != figure_rows().end());
    CHECK(is_share_of_counted(row->unit));
    CHECK((usual.share > 0.0 && usual.share < 1.0));
  }
}

TEST_CASE("far below takes an interval that lies below, and a third of the way at least") {
  struct Row {
    Share share;
    double usual;
    bool far;
  };
  const std::vector<Row> rows{
      {{3, 24}, 0.46, true},     // surely under 31 %
      {{3, 24}, 0.26, false},    // 31 % is still possible
      {{1, 4}, 0.60, false},     // four say nothing
      {{45, 100}, 0.60, false},  // surely below, but not far
      {{350, 1000}, 0.60, true}, {{0, 30}, 0.24, true}, {{0, 0}, 0.24, false},
  };
  for (const Row& row : rows) {
    INFO(row.share.count << " of " << row.share.of << " beside " << row.usual);
    CHECK(is_far_below(row.share, row.usual) == row.far);
  }
}
