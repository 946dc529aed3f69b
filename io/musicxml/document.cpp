#include "io/musicxml/document.hpp"

#include "io/musicxml/encoding.hpp"
#include "io/read_result.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace insideline::io {
namespace {

constexpr std::size_t largest_xml_bytes = std::size_t{32} << 20U;
// A text is kept in its element instead of a node of its own: fewer nodes to make, to visit and to free.
constexpr unsigned how_to_parse =
    pugi::parse_cdata | pugi::parse_escapes | pugi::parse_doctype | pugi::parse_embed_pcdata;
constexpr std::size_t most_tags = 4'000'000;

/// What pugixml calls an error, in words for somebody who exported a score.
std::string_view parse_problem(pugi::xml_parse_status status) {
  switch (status) {
    case pugi::status_end_element_mismatch: return "a closing tag does not match the tag it should close";
    case pugi::status_bad_start_element:
    case pugi::status_bad_end_element:
    case pugi::status_bad_attribute: return "a tag is not well formed";
    case pugi::status_bad_comment: return "a comment is not closed";
    case pugi::status_bad_cdata:
    case pugi::status_bad_pcdata: return "the text breaks off";
    case pugi::status_bad_pi:
    case pugi::status_bad_doctype: return "the declaration at the top is not well formed";
    case pugi::status_no_document_element: return "there is no XML element";
    case pugi::status_unrecognized_tag: return "this is not a tag";
    case pugi::status_ok:
    case pugi::status_file_not_found:
    case pugi::status_io_error:
    case pugi::status_out_of_memory:
    case pugi::status_internal_error:
    case pugi::status_append_invalid_root: break;
  }
  return "the XML cannot be read";
}

}  // namespace

Place ScoreDocument::place(std::ptrdiff_t offset_bytes) const {
  return offset_bytes < 0 ? place_of(file_name_) : place_in(file_name_, text_, static_cast<std::size_t>(offset_bytes));
}

Place ScoreDocument::place_of_text(const pugi::xml_node& node) const {
  const std::ptrdiff_t name = node.offset_debug();
  if (name < 0) return place(name);
  const std::size_t tag_end = text_.find('>', static_cast<std::size_t>(name));
  return place(tag_end == std::string_view::npos ? name : static_cast<std::ptrdiff_t>(tag_end + 1));
}

namespace {

bool is_blank_text(std::string_view text) { return text.find_first_not_of(" \t\r\n") == std::string_view::npos; }

/// Before anything is made of it: every element costs memory. How deep they are nested costs nothing, as neither
/// the parser nor any walk here recurses.
void check_number_of_tags(std::string_view text, std::string_view file_name) {
  constexpr std::size_t shortest_tag = 3;  // <a>: a text this short needs no counting
  if (text.size() < shortest_tag * most_tags || std::ranges::count(text, '<') <= static_cast<std::ptrdiff_t>(most_tags))
    return;
  throw ReadError(place_of(file_name),
                  fmt::format("the score has more than {} XML tags; export the solo alone", most_tags));
}

/// Entities declared in the file itself are how small files grow without end; scores need none.
void check_doctype(const pugi::xml_document& xml, const ScoreDocument& document) {
  for (const pugi::xml_node node : xml.children())
    if (node.type() == pugi::node_doctype && std::string_view(node.value()).find('[') != std::string_view::npos)
      throw ReadError(
          document.place(node.offset_debug()),
          "the DOCTYPE declares entities of its own, which are not read; remove everything between [ and ]");
}

pugi::xml_node only_element(const pugi::xml_document& xml, const ScoreDocument& document) {
  pugi::xml_node root;
  for (const pugi::xml_node node : xml.children()) {
    if (node.type() != pugi::node_element) continue;
    if (root) throw ReadError(document.place(node), "a second document begins here; a score is one XML document");
    root = node;
  }
  return root;
}

void check_root_name(const pugi::xml_node& root, const ScoreDocument& document) {
  const std::string_view name = root.name();
  if (name == "score-partwise" || name == "score-timewise") return;
  if (name == "opus")
    throw ReadError(document.place(root), "this is an opus, a list of scores; name one of the scores it lists");
  throw ReadError(document.place(root),
                  fmt::format("this is XML but not MusicXML: <{}> where <score-partwise> is expected; "
                              "export the score as MusicXML",
                              name.substr(0, 40)));
}

}  // namespace

ScoreDocument::ScoreDocument(std::string_view bytes, std::string_view file_name)
    : file_name_(file_name), text_(as_utf8(bytes, file_name, converted_)) {
  if (text_.size() > largest_xml_bytes)
    throw ReadError(place_of(file_name_), "the score has more than 32 MiB of XML; export the solo alone");
  const std::size_t first = text_.find_first_not_of(" \t\r\n");
  if (first == std::string_view::npos || text_[first] != '<')
    throw ReadError(place(static_cast<std::ptrdiff_t>(first == std::string_view::npos ? 0 : first)),
                    "this is not XML; export the score as MusicXML (.musicxml, .xml or .mxl)");
  check_number_of_tags(text_, file_name_);
  const pugi::xml_parse_result parsed = xml_.load_buffer(text_.data(), text_.size(), how_to_parse, pugi::encoding_utf8);
  if (!parsed)
    throw ReadError(place(parsed.offset),
                    fmt::format("{}; the file is damaged or cut short, export it again", parse_problem(parsed.status)));
  root_ = only_element(xml_, *this);
  if (const std::size_t last = text_.rfind('>'); !is_blank_text(text_.substr(last + 1)))
    throw ReadError(place(static_cast<std::ptrdiff_t>(last + 1)),
                    "there is text after the end of the score; remove it");
  check_doctype(xml_, *this);
  check_root_name(root_, *this);
}

}  // namespace insideline::io
