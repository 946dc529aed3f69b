// Writes chord symbols as this program reads them, for comparison with other readers: one a line, the symbol,
// its root, what stands after the root, and the pitch classes of all its tones, ascending ("0 4 7 10").
#include "analyzer/harmony/chord_symbol.hpp"
#include "analyzer/harmony/tensions.hpp"

#include <cstdio>
#include <set>
#include <span>
#include <string>

#include <fmt/core.h>

namespace insideline::tests {
namespace {

constexpr const char* roots[] = {"C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"};
// With a change behind the kind: a root without an accidental, one with each, and one that a reader may take for "Dim".
constexpr const char* roots_of_changed[] = {"C", "D", "F#", "Bb"};
constexpr const char* qualities[] = {"",    "maj", "M",   "ma", "\u0394", "^",  "m",    "min",  "-",
                                     "dim", "o",   "aug", "+",  "\u00F8", "mM", "mMaj", "mmaj", "7sus4"};
constexpr const char* stacks[] = {"", "6", "69", "7", "9", "11", "13"};
constexpr const char* changes[] = {"",      "b5",    "#5",    "b9",    "#9",    "#11",      "b13",
                                   "b9b13", "#5#9",  "#5b9",  "b5b9",  "b5#9",  "b9#9",     "b9#11",
                                   "#9#11", "#9b13", "add9",  "add11", "sus4",  "sus",      "sus2",
                                   "alt",   "no5",   "omit3", "(b9)",  "(#11)", "(b9,b13)", "add6"};

// Spellings beyond those, from the dictionary of tonal.
constexpr const char* further_suffixes[] = {"5",
                                            "M7#5sus4",
                                            "7#5sus4",
                                            "+5",
                                            "M7b6",
                                            "^7b6",
                                            "maj7+5",
                                            "+maj7",
                                            "7+",
                                            "7aug",
                                            "Maj7",
                                            "dom",
                                            "add13",
                                            "67",
                                            "7add13",
                                            "7b6",
                                            "maj#4",
                                            "\u0394#4",
                                            "7#4",
                                            "7#11b13",
                                            "7b5b13",
                                            "m+",
                                            "mb6M7",
                                            "m/ma7",
                                            "m/maj7",
                                            "m/M7",
                                            "-\u0394"
                                            "7",
                                            "m\u0394",
                                            "-^7",
                                            "-maj7",
                                            "mi7",
                                            "mMaj7b6",
                                            "\u00B0",
                                            "oM7",
                                            "h7",
                                            "h",
                                            "\u00B0"
                                            "7",
                                            "o7M7",
                                            "4",
                                            "madd4",
                                            "m7add4",
                                            "+add#9",
                                            "7#9#5",
                                            "7#9b5",
                                            "7#9#11b13",
                                            "M9#5sus4",
                                            "sus24",
                                            "M#5add9",
                                            "Maj9#5",
                                            "9+",
                                            "2",
                                            "add2",
                                            "6/9",
                                            "Maj13",
                                            "M7add13",
                                            "9#5#11",
                                            "9+4",
                                            "9#4",
                                            "M13+4",
                                            "M13#4",
                                            "13+4",
                                            "13#4",
                                            "9#11b13",
                                            "9b5b13",
                                            "-^9",
                                            "mMaj9b6",
                                            "b9sus",
                                            "7b9sus",
                                            "7b9sus4",
                                            "7b9b13sus4",
                                            "alt7",
                                            "7b9#5",
                                            "Maddb9",
                                            "7#5b9#11",
                                            "7b9b5",
                                            "7b9b13#11",
                                            "7b9#11b13",
                                            "7b5b9b13",
                                            "mb6b9"};

std::string pitch_classes(const Chord& chord) {
  std::set<int> classes;
  for (const Degree& degree : spelled_out_tones(chord)) classes.insert(pitch_class(note_at(chord.root, degree)));
  std::string text;
  for (const int value : classes) text += (text.empty() ? "" : " ") + std::to_string(value);
  return text;
}

void write_symbol(const std::string& root, const std::string& suffix) {
  const auto reading = parse_chord_symbol(root + suffix);
  if (reading && *reading && to_string((*reading)->root) == root)
    fmt::print("{}\t{}\t{}\t{}\n", root + suffix, root, suffix, pitch_classes(**reading));
}

void write_all() {
  for (const char* quality : qualities)
    for (const char* stack : stacks)
      for (const char* change : changes)
        for (const char* root : *change == '\0' ? std::span<const char* const>(roots) : roots_of_changed)
          write_symbol(root, std::string(quality) + stack + change);
  for (const char* suffix : further_suffixes)
    for (const char* root : roots) write_symbol(root, suffix);
}

}  // namespace
}  // namespace insideline::tests

int main() {
  try {
    insideline::tests::write_all();
    return 0;
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 1;
  }
}
