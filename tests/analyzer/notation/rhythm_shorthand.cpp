#include "tests/analyzer/notation/rhythm_shorthand.hpp"

namespace insideline::tests {
namespace {

std::string text_of(const WrittenSymbol& symbol) {
  return std::string(symbol.grace_notes.size(), 'g') + (symbol.note ? "" : "r") + std::to_string(symbol.value.divisor) +
         std::string(static_cast<std::size_t>(symbol.value.dots), '.') + (symbol.tied ? "~" : " ");
}

std::string text_of(const WrittenGroup& group) {
  std::string text;
  for (const WrittenSymbol& symbol : group.symbols) text += text_of(symbol);
  if (group.notes == group.in_time_of) return text;
  if (text.back() == ' ') text.pop_back();
  return std::to_string(group.notes) + ":" + std::to_string(group.in_time_of) + "(" + text + ") ";
}

}  // namespace

std::string text_of(std::span<const WrittenBar> bars) {
  std::string text;
  for (const WrittenBar& bar : bars) {
    if (!text.empty()) text += "| ";
    if (bar.groups.empty()) text += "silent ";
    for (const WrittenGroup& group : bar.groups) text += text_of(group);
  }
  if (!text.empty() && text.back() == ' ') text.pop_back();
  return text;
}

}  // namespace insideline::tests
