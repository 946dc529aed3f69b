#include "io/musicxml/harmony_writer.hpp"

namespace insideline::io {
namespace {

void append_text(pugi::xml_node parent, const char* name, const std::string& text) {
  parent.append_child(name).text().set(text.c_str());
}

/// root or bass.
void append_name(pugi::xml_node harmony, const std::string& what, const NoteName& name) {
  pugi::xml_node element = harmony.append_child(what.c_str());
  append_text(element, (what + "-step").c_str(), to_string(name).substr(0, 1));
  if (name.alter != 0) append_text(element, (what + "-alter").c_str(), std::to_string(name.alter));
}

}  // namespace

void append_harmony(pugi::xml_node parent, const MusicxmlChord& chord, const std::string& offset) {
  pugi::xml_node harmony = parent.append_child("harmony");
  append_name(harmony, "root", chord.root);
  pugi::xml_node kind = harmony.append_child("kind");
  kind.text().set(chord.kind.c_str());
  if (!chord.text.empty()) kind.append_attribute("text") = chord.text.c_str();
  if (chord.bass) append_name(harmony, "bass", *chord.bass);
  for (const KindDegree& degree : chord.degrees) {
    pugi::xml_node element = harmony.append_child("degree");
    element.append_attribute("print-object") = "no";
    append_text(element, "degree-value", std::to_string(degree.value));
    append_text(element, "degree-alter", std::to_string(degree.alter));
    append_text(element, "degree-type",
                degree.change == DegreeChange::add     ? "add"
                : degree.change == DegreeChange::alter ? "alter"
                                                       : "subtract");
  }
  if (!offset.empty()) append_text(harmony, "offset", offset);
}

}  // namespace insideline::io
