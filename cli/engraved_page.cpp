#include "cli/engraved_page.hpp"

#include "cli/engraver.hpp"
#include "cli/terminal.hpp"
#include "reports/html/html_report.hpp"
#include "reports/printed/handout.hpp"

#include <algorithm>
#include <chrono>
#include <cstddef>
#include <thread>
#include <vector>

namespace insideline::cli {
namespace {

constexpr std::size_t bars_in_a_line = 4;
constexpr std::size_t most_bars_in_a_piece = 32;  // so that a long solo shows progress
constexpr std::chrono::seconds longest_piece{120};

/// As many pieces as there are cores, whole lines each, so that the cores share the work.
std::vector<reports::BarRange> pieces_of(const Solo& solo) {
  const std::size_t bars = solo.bars.size();
  const std::size_t cores = std::max(1U, std::thread::hardware_concurrency());
  const std::size_t share = (bars / cores + bars_in_a_line) / bars_in_a_line * bars_in_a_line;
  const std::size_t size = std::clamp(share, 2 * bars_in_a_line, most_bars_in_a_piece);
  const std::size_t pickup = solo.bars.front().number < 1 ? 1 : 0;
  std::vector<reports::BarRange> pieces;
  for (std::size_t first = 0; first < bars;) {
    const std::size_t end = std::min(bars, first + size + (first == 0 ? pickup : 0));
    pieces.push_back({solo.bars[first].number, solo.bars[end - 1].number});
    first = end;
  }
  return pieces;
}

}  // namespace

std::string page_with_score(const reports::Report& report) {
  std::vector<std::string> texts;
  if (!report.solo.notes.empty())
    for (const reports::BarRange& piece : pieces_of(report.solo)) texts.push_back(reports::screen_text(report, piece));
  const auto show = [&](std::size_t done) { show_progress("engraving", done, texts.size()); };
  show(0);
  return reports::html_report(report, engraved_systems(texts, longest_piece, show));
}

}  // namespace insideline::cli
