// What the words of a symbol add up to, before it is a chord: a triad, how far thirds are
// stacked on it, and what is altered, added and left out.
#pragma once

#include "analyzer/model/pitch.hpp"

#include <vector>

namespace insideline {

struct ChordRecipe {
  int third_alter = 0;              ///< -1 minor
  int fifth_alter = 0;              ///< -1 diminished, +1 augmented
  int seventh_alter = -1;           ///< what a stacked seventh is: 0 major, -1 minor, -2 diminished
  int stack = 0;                    ///< 0 triad, 5 power chord, 6, 7, 9, 11, 13
  std::vector<Degree> suspensions;  ///< in place of the third
  std::vector<Degree> alterations;  ///< take the place of the natural degree of the stack
  std::vector<Degree> stacked;      ///< further plain numbers: the 9 of 69; an alteration takes their place too
  std::vector<Degree> additions;    ///< stand beside everything else
  std::vector<int> omissions;       ///< numbers; they take nothing of what is added
  bool altered_dominant = false;    ///< `alt`
};

/// The tones the recipe makes, root included, in no order. Where usage differs: an 11th stacked on a
/// major third leaves the third out (unless the 11th is raised), a 13th leaves the 11th out.
std::vector<Degree> tones_of(const ChordRecipe& recipe);

}  // namespace insideline
