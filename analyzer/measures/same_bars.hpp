// The same bars of two lines against each other, note by note: where they agree, where they part, and by how much. Our
// own measure, no source. A note's partner is the note that the other line strikes at the same moment of the bar, a
// sixth of a quarter early or late. A note counts a half where its partner has another pitch, a half where its partner
// is heard in another role, and whole where it has none; a bar's difference is the mean over all notes of both lines.
#pragma once

#include "analyzer/analysis.hpp"

#include <cstdint>
#include <span>
#include <vector>

namespace insideline {

/// Bars at the same place are the same bar.
struct PlacedBar {
  std::size_t bar = 0;  ///< index into Solo::bars
  Beats place;          ///< a bar number, or a time from where the form begins; alike in all lines
};

/// A line as it is laid beside another. Solo and labels must outlive it.
struct LaidLine {
  const Solo* solo = nullptr;
  std::span<const NoteLabel> labels;  ///< parallel to Solo::notes
  std::vector<PlacedBar> bars;        ///< by place, each place once
};

/// Every bar of a solo, by its number.
std::vector<PlacedBar> bars_by_number(const Solo& solo);

/// `bars` of a solo whose changes go round, by the time from the beginning of their chorus; a pickup is before it.
std::vector<PlacedBar> bars_by_form(const Solo& solo, const Harmony& harmony, std::span<const std::size_t> bars);

enum class NoteDifference : std::uint8_t { none, pitch, role, pitch_and_role, alone };

/// 0, a half or 1.
double weight_of(NoteDifference difference);

struct NoteBeside {
  std::size_t note = 0;  ///< index into Solo::notes
  NoteDifference difference = NoteDifference::none;
};

/// A bar that both lines have. Grace notes are left out.
struct SameBar {
  std::size_t first_bar = 0;  ///< index into the bars of the first solo
  std::size_t other_bar = 0;
  std::vector<NoteBeside> first;
  std::vector<NoteBeside> other;
  double difference = 0.0;  ///< 0 (note for note the same, or two rests) to 1
};

struct SameBars {
  std::vector<SameBar> bars;               ///< by place
  std::vector<std::size_t> by_difference;  ///< indices into `bars`, the most different first
  std::vector<std::size_t> to_talk_about;  ///< at most three of these: bars that differ and in which both play
};

/// Where bars differ equally much, those in which both play more come first, then the earlier ones.
SameBars same_bars(const LaidLine& first, const LaidLine& other);

}  // namespace insideline
