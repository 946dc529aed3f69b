// How figures are said: counts with their nouns, shares with their counts, lines that
// fit a page.
#pragma once

#include "analyzer/measures/results.hpp"
#include "reports/text/length.hpp"

#include <chrono>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace insideline::reports {

constexpr std::size_t page_width = 80;

/// "1 note", "3 notes", "no notes"; `plural` where it is not noun + "s".
std::string counted(int count, std::string_view noun, std::string_view plural = "");

/// The form of a verb that goes with `count` of many: "1 of 12 notes is", "3 of 12 notes are".
std::string_view agreeing(int count, std::string_view one, std::string_view many);

/// "64 %", rounded; "over 99 %" and "under 1 %" where rounding would say all or none.
std::string percent(double share);

/// "18 of 28 notes (64 %)", "18 of 28 (64 %)"; "no notes" of nothing.
std::string share_text(const Share& share, std::string_view noun = "");

/// A bar as long as `count` is of `of`, at most `width` columns; anything above nothing shows.
std::string gauge(int count, int of, std::string_view fill, std::size_t width);

/// "a", "a and b", "a, b and c".
std::string listed(const std::vector<std::string>& items);

/// "Bar 4" for "bar 4".
std::string with_capital(std::string text);

/// "2026-11-25".
std::string day_text(std::chrono::sys_days day);
/// What day_text writes, read again; none for "2026-02-30" and whatever else is no day.
std::optional<std::chrono::sys_days> parsed_day(std::string_view text);

/// "bar 4"; "bars 1, 3 and 7", each once; "the pickup and bar 4"; on the first page after the first eight "and 5 more",
/// never "and 1 more".
std::string in_bars(std::vector<int> bars, Length length = Length::first_page);

/// `text` in lines of at most the page width, each behind `indent` spaces.
std::string paragraph(std::string_view text, std::size_t indent = 2);

}  // namespace insideline::reports
