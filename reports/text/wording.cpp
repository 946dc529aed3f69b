#include "reports/text/wording.hpp"

#include "reports/text/display_width.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

namespace insideline::reports {

std::string counted(int count, std::string_view noun, std::string_view plural) {
  if (count == 1) return fmt::format("1 {}", noun);
  const std::string many = plural.empty() ? fmt::format("{}s", noun) : std::string(plural);
  return count == 0 ? "no " + many : fmt::format("{} {}", count, many);
}

std::string_view agreeing(int count, std::string_view one, std::string_view many) { return count == 1 ? one : many; }

std::string percent(double share) {
  constexpr double half_a_percent = 0.005;
  if (share > 0.0 && share < half_a_percent) return "under 1 %";
  if (share < 1.0 && share >= 1.0 - half_a_percent) return "over 99 %";
  return fmt::format("{:.0f} %", std::floor(share * 100.0 + 0.5));
}

std::string share_text(const Share& share, std::string_view noun) {
  const std::string of = noun.empty() ? std::to_string(share.of) : counted(share.of, noun);
  const auto value = ratio(share);
  return value ? fmt::format("{} of {} ({})", share.count, of, percent(*value)) : of;
}

std::string gauge(int count, int of, std::string_view fill, std::size_t width) {
  if (count <= 0 || of <= 0) return {};
  const double exact = static_cast<double>(width) * count / of;
  const auto columns = std::max<std::size_t>(1, static_cast<std::size_t>(std::floor(exact + 0.5)));
  std::string text;
  for (std::size_t i = 0; i < std::min(columns, width); ++i) text += fill;
  return text;
}

std::string listed(const std::vector<std::string>& items) {
  std::string text;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (i > 0) text += i + 1 == items.size() ? " and " : ", ";
    text += items[i];
  }
  return text;
}

std::string with_capital(std::string text) {
  if (!text.empty() && text.front() >= 'a' && text.front() <= 'z')
    text.front() = static_cast<char>(text.front() - 'a' + 'A');
  return text;
}

std::string day_text(std::chrono::sys_days day) {
  const std::chrono::year_month_day date(day);
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()));
}

std::optional<std::chrono::sys_days> parsed_day(std::string_view text) {
  constexpr std::string_view form = "0000-00-00";  // a digit where it has one
  const auto is_digit = [](char character) { return character >= '0' && character <= '9'; };
  const auto fits = [&](char asked, char given) { return asked == '0' ? is_digit(given) : given == asked; };
  if (!std::ranges::equal(form, text, fits)) return std::nullopt;
  const auto number = [&](std::size_t first, std::size_t count) {
    unsigned value = 0;
    std::from_chars(text.data() + first, text.data() + first + count, value);
    return value;
  };
  const std::chrono::year_month_day date{std::chrono::year(static_cast<int>(number(0, 4))),
                                         std::chrono::month(number(5, 2)), std::chrono::day(number(8, 2))};
  if (!date.ok()) return std::nullopt;
  return std::chrono::sys_days(date);
}

std::string in_bars(std::vector<int> bars, Length length) {
  constexpr std::size_t most = 8;
  std::ranges::sort(bars);
  bars.erase(std::unique(bars.begin(), bars.end()), bars.end());
  const bool has_pickup = !bars.empty() && bars.front() < 1;
  if (has_pickup) bars.erase(bars.begin());
  if (bars.empty()) return "the pickup";
  const bool all_named = length == Length::whole || bars.size() <= most + 1;
  const std::size_t named = all_named ? bars.size() : most;
  std::vector<std::string> names;
  for (std::size_t i = 0; i < named; ++i) names.push_back(std::to_string(bars[i]));
  if (!all_named) names.push_back(fmt::format("{} more", bars.size() - named));
  return (has_pickup ? "the pickup and " : "") + (bars.size() == 1 ? "bar " + names.front() : "bars " + listed(names));
}

std::string paragraph(std::string_view text, std::size_t indent) {
  std::string lines;
  lines.reserve(text.size() + text.size() / 16 + indent + 1);
  std::size_t columns = 0;  // that the words of the last line take
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    const std::string_view word = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    if (word.empty()) continue;
    const std::size_t word_columns = display_width(word);
    if (!lines.empty() && indent + columns + 1 + word_columns <= page_width) {
      lines += ' ';
      ++columns;
    } else {
      if (!lines.empty()) lines += '\n';
      lines.append(indent, ' ');
      columns = 0;
    }
    lines += word;
    columns += word_columns;
  }
  if (!lines.empty()) lines += '\n';
  return lines;
}

}  // namespace insideline::reports
