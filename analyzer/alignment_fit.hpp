// How well a line fits a chart at one place or another. Each note counts by what it is over the chord that would sound
// there: a chord tone for the place, a foreign or altered note against it, a colour neither. Notes on a beat and long
// notes weigh more, since players land on chord tones there (common practice, no source).
#pragma once

#include "analyzer/heard_line.hpp"
#include "analyzer/measures/results.hpp"
#include "analyzer/model/changes.hpp"
#include "analyzer/model/solo.hpp"

#include <array>
#include <compare>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace insideline {

/// A place where the chart could lie. The default is where it lies.
struct ChartPlace {
  int cells = 0;      ///< the chart is moved so many half beats later
  int semitones = 0;  ///< the line is moved so much up, 0 .. 11
  friend auto operator<=>(const ChartPlace&, const ChartPlace&) = default;
};

/// What a note's fit is held against.
enum class FitAgainst : std::uint8_t {
  nothing,
  the_line  ///< what a note of this line gets there on average: a line in one key lies as well anywhere in it
};

/// The chart with a bar too many or too few.
struct FormSlip {
  int by = 1;  ///< 1: a bar is missing, -1: there is one too many
  int at = 0;  ///< which bar, from 0: missing before it, or the one that is too many
};

/// A chart with bars of one length, and the line over it, both cut into half beats.
class LineOverChart {
 public:
  static constexpr int chord_tone_points = 480;
  using Sums = std::vector<std::int64_t>;  ///< one a bar of the solo that has notes

  /// `changes` must loop; all its bars have one length. `first_bar` is where its bar 1 falls.
  LineOverChart(const Changes& changes, const Solo& solo, const Beats& first_bar);

  [[nodiscard]] int form_bars() const { return form_cells_ / bar_cells_; }
  [[nodiscard]] int bar_cells() const { return bar_cells_; }
  [[nodiscard]] const Beats& cell() const { return cell_; }
  [[nodiscard]] std::size_t notes() const { return notes_.size(); }
  [[nodiscard]] std::size_t groups() const { return form_bar_of_group_.size(); }
  /// The bar of the form, from 0, over which the notes of this bar of the solo lie.
  [[nodiscard]] std::size_t form_bar_of(std::size_t group) const { return form_bar_of_group_[group]; }

  /// How well it fits there, bar after bar of the solo; a chord tone on an eighth makes `chord_tone_points`.
  [[nodiscard]] Sums fit(const ChartPlace& place, FitAgainst against) const;
  [[nodiscard]] Sums fit(const FormSlip& slip) const;

  /// Chord tones among the notes over a chord, strictly.
  [[nodiscard]] Share chord_tones(const ChartPlace& place) const;
  [[nodiscard]] Share chord_tones(const FormSlip& slip) const;

  /// The slip of this kind that fits best, and the first and last bar where it fits nearly as well.
  struct LikelySlip {
    FormSlip slip;
    int first = 0;
    int last = 0;
  };
  [[nodiscard]] LikelySlip best_slip(int by) const;

 private:
  /// For each pitch class, twice over, so that a moved line needs no division.
  struct Row {
    std::array<std::int16_t, 24> weights{};
    std::array<std::int16_t, 12> above_the_line{};
    PitchClassSet tones = 0;
    bool sounds = false;
  };
  struct PlacedNote {
    int bar = 0;        ///< counted from bar 1 of the chart, before it below 0
    int into_bar = 0;   ///< cells
    int form_cell = 0;  ///< 0 .. form_cells_ - 1
    int pitch_class = 0;
    int weight = 1;
    std::size_t group = 0;
  };

  void fill_rows(const Changes& changes);
  void hold_rows_against_the_line();
  void place_notes(const Solo& solo, const Beats& first_bar);
  [[nodiscard]] const Row* row_of(const PlacedNote& note, const ChartPlace& place) const;
  [[nodiscard]] const Row* row_of(const PlacedNote& note, const FormSlip& slip) const;
  template <typename Place>
  [[nodiscard]] Share counted(const Place& place, int semitones) const;

  Beats cell_;
  int bar_cells_ = 1;
  int form_cells_ = 1;
  std::vector<std::size_t> form_bar_of_group_;
  std::vector<Row> rows_;
  std::vector<PlacedNote> notes_;
};

/// How well the line lies there: the logarithm of how much likelier its chord tones make the place.
double weight_of_fit(const LineOverChart& line, const ChartPlace& place);

}  // namespace insideline
