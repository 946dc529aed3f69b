#include "tests/io/musicxml/score_shorthand.hpp"

#include "io/file_bytes.hpp"
#include "io/read_result.hpp"
#include "tests/support/folders.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <stdexcept>
#include <vector>

namespace insideline::tests {
namespace {

constexpr int divisions = 12;

std::int64_t in_divisions(std::string_view quarters) {
  const auto beats = parse_beats(quarters);
  if (!beats || (*beats * divisions).denominator() != 1)
    throw std::invalid_argument(fmt::format("\"{}\" is not a length in twelfths of a quarter", quarters));
  return (*beats * divisions).numerator();
}

std::string pitch_xml(std::string_view text) {
  const auto pitch = parse_pitch(text);
  if (!pitch) throw std::invalid_argument(fmt::format("\"{}\" is not a pitch", text));
  return fmt::format("<pitch><step>{}</step><alter>{}</alter><octave>{}</octave></pitch>", text.substr(0, 1),
                     pitch->name.alter, pitch->octave);
}

std::string note_xml(std::string_view token) {
  const bool chord = token.starts_with('+');
  const bool tied_from = token.starts_with('~');
  if (chord || tied_from) token.remove_prefix(1);
  const bool tied_on = token.ends_with('~');
  if (tied_on) token.remove_suffix(1);
  const std::size_t at = token.find('@');
  const std::string_view voice = at == std::string_view::npos ? "1" : token.substr(at + 1);
  const std::string_view sound = token.substr(0, at);
  const std::size_t colon = sound.find(':');
  const std::string_view name = sound.substr(0, colon);
  const std::int64_t length = in_divisions(sound.substr(colon + 1));
  return fmt::format("<note>{}{}{}{}{}{}<voice>{}</voice></note>", length == 0 ? "<grace/>" : "",
                     chord ? "<chord/>" : "", name == "r" ? "<rest/>" : pitch_xml(name),
                     length == 0 ? "" : fmt::format("<duration>{}</duration>", length),
                     tied_from ? "<tie type=\"stop\"/>" : "", tied_on ? "<tie type=\"start\"/>" : "", voice);
}

std::string token_xml(std::string_view token) {
  if (token.starts_with("back:"))
    return fmt::format("<backup><duration>{}</duration></backup>", in_divisions(token.substr(5)));
  if (token.starts_with('{')) return std::string(token.substr(1, token.size() - 2));
  return note_xml(token);
}

std::string bar_xml(std::string_view bar) {
  std::string xml;
  while (true) {
    const std::size_t start = bar.find_first_not_of(" \n");
    if (start == std::string_view::npos) return xml;
    bar.remove_prefix(start);
    const std::size_t end = bar.starts_with('{') ? bar.find('}') + 1 : std::min(bar.find_first_of(" \n"), bar.size());
    xml += token_xml(bar.substr(0, end));
    bar.remove_prefix(end);
  }
}

template <typename Items, typename Text>
std::string joined(const Items& items, std::string_view between, Text text) {
  std::string line;
  for (const auto& item : items) line += (line.empty() ? std::string() : std::string(between)) + text(item);
  return line;
}

}  // namespace

std::string part_xml(std::string_view line, std::string_view id) {
  const std::string attributes = fmt::format(
      "<attributes><divisions>{}</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes>",
      divisions);
  std::string xml = fmt::format("<part id=\"{}\">", id);
  for (int number = 1;; ++number) {
    const std::size_t bar = line.find('|');
    xml += fmt::format("<measure number=\"{}\">{}{}</measure>", number, number == 1 ? attributes : "",
                       bar_xml(line.substr(0, bar)));
    if (bar == std::string_view::npos) return xml + "</part>";
    line.remove_prefix(bar + 1);
  }
}

std::string score_of_parts(std::string_view parts, std::initializer_list<std::string_view> names) {
  std::string list;
  int number = 0;
  for (const std::string_view name : names)
    list += fmt::format("<score-part id=\"P{}\"><part-name>{}</part-name></score-part>", ++number, name);
  return fmt::format("<score-partwise version=\"4.0\"><part-list>{}</part-list>{}</score-partwise>", list, parts);
}

std::string score_xml(std::string_view line) { return score_of_parts(part_xml(line), {"Solo"}); }

io::ReadResult read_line(std::string_view line, const io::ReadOptions& options) {
  return io::parse_musicxml(score_xml(line), "line.musicxml", options);
}

std::string notes_of(const io::ReadResult& score) {
  return joined(score.solo.notes, " ", [](const Note& note) {
    const std::string at = to_string(note.pitch) + '@' + to_string(note.onset);
    return note.grace ? at : at + ':' + to_string(note.duration);
  });
}

std::string chords_of(const io::ReadResult& score) {
  if (!score.changes) return "none";
  return joined(score.changes->spans, " ", [](const ChordSpan& span) {
    return fmt::format("{}@{}:{}", span.chord ? span.chord->symbol : "N.C.", to_string(span.onset),
                       to_string(span.duration));
  });
}

std::string bars_of(const io::ReadResult& score) {
  return joined(score.solo.bars, " ", [](const Bar& bar) {
    return fmt::format("{}@{}:{}", bar.number, to_string(bar.onset), to_string(bar.length));
  });
}

std::string written_bars_of(const io::ReadResult& score) {
  return joined(score.solo.notes, " ", [](const Note& note) { return note.place.bar; });
}

std::string warning_lines(const io::ReadResult& score) {
  return joined(score.warnings, "\n", [](const io::Warning& warning) { return io::to_string(warning); });
}

std::string refusal_of(std::string_view bytes, const io::ReadOptions& options) {
  try {
    io::parse_musicxml(bytes, "solo.musicxml", options);
  } catch (const io::ReadError& error) {
    return error.what();
  }
  return {};
}

std::string test_file(std::string_view name) {
  constexpr std::size_t limit = std::size_t{64} << 20U;
  return io::read_bytes(std::filesystem::path(INSIDELINE_TESTS) / name, limit);
}

}  // namespace insideline::tests
