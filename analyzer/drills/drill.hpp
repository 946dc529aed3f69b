// A practice sheet: a line over the changes that does what was asked of it, and where it could not, says so.
#pragma once

#include "analyzer/drills/drill_settings.hpp"
#include "analyzer/model/changes.hpp"
#include "analyzer/model/solo.hpp"

#include <cstddef>
#include <string>
#include <vector>

#include <tl/expected.hpp>

namespace insideline {

/// A change where two tones of the new chord are equally near: the line takes one, the player may take the other.
struct OpenChoice {
  std::size_t note = 0;  ///< into Solo::notes: the tone taken
  Pitch other;           ///< sounding
  friend bool operator==(const OpenChoice&, const OpenChoice&) = default;
};

struct Drill {
  Solo solo;
  Harmony harmony;
  std::vector<OpenChoice> open_choices;    ///< in order
  std::vector<std::size_t> figure_begins;  ///< into Solo::notes, in order: the first note of each figure
  std::vector<std::string> remarks;        ///< where a chord could not be given what was asked, each a sentence
  int cost = 0;                            ///< of the line, by drill_costs.hpp
};

/// The line over `settings.choruses` times the form. An error says in words why there is none.
tl::expected<Drill, std::string> drill_over(const Changes& changes, const DrillSettings& settings);

/// The changes where the other of two equally near tones would have done as well; none where the sheet is no line.
std::vector<OpenChoice> open_choices(const Drill& drill, const DrillSettings& settings);

/// The sheet's notes as the player of a transposing instrument reads them; sounding pitch stays.
void set_instrument(Solo& solo, const Instrument& instrument);

}  // namespace insideline
