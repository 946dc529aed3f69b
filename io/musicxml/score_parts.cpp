#include "io/musicxml/score_parts.hpp"

#include "io/musicxml/numbers.hpp"
#include "io/read_result.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>

namespace insideline::io {
namespace {

std::string one_line(std::string_view text) {
  std::string line(stripped(text));
  std::ranges::replace_if(
      line, [](char c) { return static_cast<unsigned char>(c) < 0x20U; }, ' ');
  return line;
}

std::string title_in_credits(const pugi::xml_node& root) {
  for (const pugi::xml_node credit : root.children("credit"))
    if (stripped(credit.child_value("credit-type")) == "title") return one_line(credit.child_value("credit-words"));
  return {};
}

std::string title_of(const pugi::xml_node& root) {
  std::string title = one_line(root.child("work").child_value("work-title"));
  if (title.empty()) title = one_line(root.child_value("movement-title"));
  return title.empty() ? title_in_credits(root) : title;
}

std::size_t count_notes(const pugi::xml_node& content) {
  std::size_t count = 0;
  for (pugi::xml_node note = content.child("note"); note; note = note.next_sibling("note")) ++count;
  return count;
}

PartSource& part_with_id(std::vector<PartSource>& parts, std::string_view id) {
  const auto found = std::ranges::find(parts, id, &PartSource::id);
  if (found != parts.end()) return *found;
  return parts.emplace_back(PartSource{std::string(id), {}, {}});
}

/// The parts in the order of the part list, which is also how a reader counts them.
std::vector<PartSource> listed_parts(const pugi::xml_node& root) {
  std::vector<PartSource> parts;
  for (const pugi::xml_node listed : root.child("part-list").children("score-part")) {
    std::string name = one_line(listed.child_value("part-name"));
    if (name.empty()) name = one_line(listed.child("part-name-display").child_value("display-text"));
    parts.push_back({listed.attribute("id").as_string(), std::move(name), {}});
  }
  return parts;
}

void collect_partwise(const pugi::xml_node& root, std::vector<PartSource>& parts) {
  std::size_t notes = 0;
  for (pugi::xml_node part = root.child("part"); part;) {
    const pugi::xml_node next = part.next_sibling("part");
    PartSource& source = part_with_id(parts, part.attribute("id").as_string());
    std::optional<std::size_t> first_note = notes;
    for (pugi::xml_node measure = part.child("measure"); measure; measure = measure.next_sibling("measure")) {
      source.measures.push_back({measure, measure, first_note});
      if (next) notes += count_notes(measure);
      first_note.reset();
    }
    part = next;
  }
}

void collect_timewise(const pugi::xml_node& root, std::vector<PartSource>& parts) {
  std::size_t notes = 0;
  for (const pugi::xml_node measure : root.children("measure"))
    for (const pugi::xml_node part : measure.children("part")) {
      part_with_id(parts, part.attribute("id").as_string()).measures.push_back({measure, part, notes});
      notes += count_notes(part);
    }
}

}  // namespace

ScoreParts find_parts(const ScoreDocument& document) {
  const pugi::xml_node root = document.root();
  ScoreParts score{title_of(root), !root.child("defaults").child("concert-score").empty(), listed_parts(root)};
  if (std::string_view(root.name()) == "score-timewise")
    collect_timewise(root, score.parts);
  else
    collect_partwise(root, score.parts);
  std::erase_if(score.parts, [](const PartSource& part) { return part.measures.empty(); });
  if (score.parts.empty())
    throw ReadError(document.place(root), "the score has no part with a measure in it; export it again with the solo");
  for (std::size_t i = 0; i < score.parts.size(); ++i)
    if (score.parts[i].name.empty()) score.parts[i].name = fmt::format("part {}", i + 1);
  return score;
}

}  // namespace insideline::io
