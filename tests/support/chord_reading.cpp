#include "tests/support/chord_reading.hpp"

#include "analyzer/harmony/chord_symbol.hpp"

#include <algorithm>
#include <fstream>
#include <set>
#include <sstream>
#include <stdexcept>

namespace insideline::tests {

Chord chord_from(std::string_view symbol) {
  const auto reading = parse_chord_symbol(symbol);
  if (!reading) throw std::invalid_argument(std::string(symbol) + ": " + reading.error().message);
  if (!*reading) throw std::invalid_argument(std::string(symbol) + " is no chord");
  return **reading;
}

std::string spelled(std::span<const Degree> degrees) {
  std::string text;
  for (const Degree& degree : degrees) text += (text.empty() ? "" : " ") + to_string(degree);
  return text;
}

std::vector<Degree> degrees_from(std::string_view text) {
  std::vector<Degree> degrees;
  std::istringstream words{std::string(text)};
  for (std::string word; words >> word;) {
    const auto degree = parse_degree(word);
    if (!degree) throw std::invalid_argument("not a degree: " + word);
    degrees.push_back(*degree);
  }
  return degrees;
}

std::string note_names(const Chord& chord, std::span<const Degree> degrees) {
  std::string text;
  for (const Degree& degree : degrees) text += (text.empty() ? "" : " ") + to_string(note_at(chord.root, degree));
  return text;
}

std::string pitch_classes(const Chord& chord) {
  std::set<int> classes;
  for (const Degree& degree : chord.tones) classes.insert(pitch_class(note_at(chord.root, degree)));
  std::string text;
  for (const int value : classes) text += (text.empty() ? "" : " ") + std::to_string(value);
  return text;
}

std::vector<std::vector<std::string>> table_rows(const std::string& file_name) {
  std::ifstream file(file_name);
  if (!file) throw std::invalid_argument("no such table: " + file_name);
  std::vector<std::vector<std::string>> rows;
  for (std::string line; std::getline(file, line);) {
    if (line.starts_with("# ")) continue;
    std::vector<std::string> fields;
    std::istringstream parts(line);
    for (std::string field; std::getline(parts, field, '\t');) fields.push_back(field);
    rows.push_back(fields);
  }
  return rows;
}

}  // namespace insideline::tests
