// The printed summary: what can be said about the solo, with figures. Plain
// text in UTF-8, at most 80 columns wide, that stands on its own without a manual.
#pragma once

#include "reports/report.hpp"
#include "reports/text/ink.hpp"
#include "reports/text/length.hpp"

#include <cstdint>
#include <string>

namespace insideline::reports {

enum class BarByBar : std::uint8_t { left_out, shown };

struct TextOptions {
  Colour colour = Colour::off;
  BarByBar bar_by_bar = BarByBar::left_out;
  Length length = Length::first_page;
};

std::string text_report(const Report& report, const TextOptions& options = {});

}  // namespace insideline::reports
