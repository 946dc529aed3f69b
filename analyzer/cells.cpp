#include "analyzer/cells.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdlib>
#include <span>
#include <tuple>

namespace insideline {
namespace {

constexpr std::size_t longest_cell = 3;

/// A cell packed into a number, so that counting is sorting.
using CellKey = std::uint64_t;
constexpr int degree_bits = 8;
constexpr int alter_offset = 4;  // alterations run from -4 to 3
constexpr int alter_bits = 3;

CellKey packed(const Degree& degree) {
  return static_cast<CellKey>(degree.number << alter_bits) | static_cast<CellKey>(degree.alter + alter_offset);
}

Degree unpacked(CellKey key) {
  constexpr CellKey alter_mask = (1U << alter_bits) - 1;
  return {.number = static_cast<int>(key >> alter_bits), .alter = static_cast<int>(key & alter_mask) - alter_offset};
}

/// A chord's tones by pitch class, packed; 0 where there is no tone.
using ToneKeys = std::array<CellKey, pitch_classes>;

ToneKeys tone_keys(const Chord& chord) {
  ToneKeys keys{};
  const int root = pitch_class(chord.root);
  for (const Degree& tone : chord.tones)
    keys.at(static_cast<std::size_t>((root + pitch_class_above_root(tone)) % pitch_classes)) = packed(tone);
  return keys;
}

Direction direction_of(std::span<const HeardNote> notes) {
  bool up = true;
  bool down = true;
  for (std::size_t i = 1; i < notes.size(); ++i) {
    up = up && notes[i].midi > notes[i - 1].midi;
    down = down && notes[i].midi < notes[i - 1].midi;
  }
  if (up) return Direction::ascending;
  return down ? Direction::descending : Direction::mixed;
}

bool all_differ(std::span<const CellKey> tones) {
  for (std::size_t i = 0; i < tones.size(); ++i)
    for (std::size_t j = i + 1; j < tones.size(); ++j)
      if (tones[i] == tones[j]) return false;
  return true;
}

CellKey packed(std::span<const CellKey> tones, Direction direction, ChordQuality quality) {
  CellKey key = 0;
  for (const CellKey tone : tones) key = key << degree_bits | tone;
  key = key << degree_bits | static_cast<CellKey>(direction);
  return key << degree_bits | static_cast<CellKey>(quality);
}

Cell unpacked_cell(CellKey key, int count) {
  constexpr CellKey mask = (1U << degree_bits) - 1;
  Cell cell;
  cell.count = count;
  cell.quality = static_cast<ChordQuality>(key & mask);
  key >>= degree_bits;
  cell.direction = static_cast<Direction>(key & mask);
  for (key >>= degree_bits; key != 0; key >>= degree_bits) cell.degrees.push_back(unpacked(key & mask));
  std::ranges::reverse(cell.degrees);
  return cell;
}

/// 1-b7 and 5-6 are steps of a scale, not a shape of the chord.
bool is_step(const HeardNote& a, const HeardNote& b) {
  constexpr int whole_step = 2;
  return std::abs(a.midi - b.midi) <= whole_step;
}

bool same_place(const HeardNote& a, const HeardNote& b) { return a.stretch == b.stretch && a.phrase == b.phrase; }

std::vector<CellKey> all_cells(const HeardLine& line, const Harmony& harmony) {
  std::vector<ToneKeys> tones;
  std::vector<ChordQuality> qualities;
  for (const Stretch& stretch : line.stretches) {
    tones.push_back(tone_keys(harmony.chords[stretch.first].chord));
    qualities.push_back(quality(harmony.chords[stretch.first].chord));
  }
  std::vector<CellKey> cells;
  cells.reserve(2 * line.notes.size());
  for (std::size_t first = 0; first < line.notes.size(); ++first) {
    if (!line.notes[first].stretch) continue;
    const std::size_t stretch = *line.notes[first].stretch;
    std::array<CellKey, longest_cell> cell{};
    for (std::size_t size = 1; size <= longest_cell && first + size <= line.notes.size(); ++size) {
      const HeardNote& last = line.notes[first + size - 1];
      const CellKey tone = tones[stretch][static_cast<std::size_t>(last.pitch_class)];
      if (!same_place(line.notes[first], last) || tone == 0) break;
      if (size > 1 && is_step(line.notes[first + size - 2], last)) break;
      cell.at(size - 1) = tone;
      const auto here = std::span(cell).first(size);
      if (!all_differ(here)) break;
      const Direction direction = direction_of(std::span(line.notes).subspan(first, size));
      if (size > 1) cells.push_back(packed(here, direction, qualities[stretch]));
    }
  }
  return cells;
}

}  // namespace

std::vector<Cell> count_cells(const HeardLine& line, const Harmony& harmony) {
  std::vector<CellKey> keys = all_cells(line, harmony);
  std::ranges::sort(keys);
  std::vector<Cell> cells;
  for (std::size_t i = 0; i < keys.size();) {
    std::size_t end = i;
    while (end < keys.size() && keys[end] == keys[i]) ++end;
    cells.push_back(unpacked_cell(keys[i], static_cast<int>(end - i)));
    i = end;
  }
  std::ranges::stable_sort(cells, [](const Cell& a, const Cell& b) { return a.count > b.count; });
  return cells;
}

}  // namespace insideline
