// A score's XML, checked for everything that could hurt before anybody reads it:
// size, entities, stray text. Knows where each node stands in the text.
#pragma once

#include "io/source_text.hpp"

#include <pugixml.hpp>

#include <cstddef>
#include <string>
#include <string_view>

namespace insideline::io {

class ScoreDocument {
 public:
  /// `bytes` must outlive the document. Throws ReadError where they are not one whole MusicXML score.
  ScoreDocument(std::string_view bytes, std::string_view file_name);

  /// The whole text as UTF-8, in which all offsets count.
  [[nodiscard]] std::string_view text() const { return text_; }
  /// score-partwise or score-timewise.
  [[nodiscard]] pugi::xml_node root() const { return root_; }
  [[nodiscard]] Place place(std::ptrdiff_t offset_bytes) const;
  [[nodiscard]] Place place(const pugi::xml_node& node) const { return place(node.offset_debug()); }
  /// Where the text between the tags of `node` begins.
  [[nodiscard]] Place place_of_text(const pugi::xml_node& node) const;
  [[nodiscard]] const std::string& file_name() const { return file_name_; }

 private:
  std::string file_name_;
  std::string converted_;
  std::string_view text_;
  pugi::xml_document xml_;
  pugi::xml_node root_;
};

}  // namespace insideline::io
