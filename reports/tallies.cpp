#include "reports/tallies.hpp"

#include "analyzer/harmony/symbol_words.hpp"

#include <algorithm>
#include <cstdlib>
#include <map>
#include <string_view>

namespace insideline::reports {
namespace {

void count(std::vector<Tally>& tallies, const std::string& name, std::size_t index) {
  const auto found = std::ranges::find(tallies, name, &Tally::name);
  if (found == tallies.end())
    tallies.push_back({name, {index}});
  else
    found->where.push_back(index);
}

void sort_by_count(std::vector<Tally>& tallies) {
  std::ranges::stable_sort(tallies, std::ranges::greater{}, [](const Tally& tally) { return tally.where.size(); });
}

/// `symbol` is one of our own making.
bool on_another_root(std::string_view symbol, const NoteName& root) {
  const auto own = take_symbol_note(symbol);
  return own && pitch_class(*own) != pitch_class(root);
}

/// "a half step above", "a whole step below".
std::string slip_in_words(int semitones) {
  return std::string(std::abs(semitones) == 1 ? "a half step " : "a whole step ") + (semitones > 0 ? "above" : "below");
}

/// "Em over D7: 9 11 13"; "Eb7 over D7, a half step above".
std::string named_over(const Arpeggio& arpeggio, const Chord& chord) {
  std::string name = arpeggio.spells + " over " + chord.symbol;
  if (arpeggio.slipped) return name + ", " + slip_in_words(*arpeggio.slipped);
  std::vector<Degree> degrees = arpeggio.degrees;
  std::ranges::sort(degrees);
  degrees.erase(std::unique(degrees.begin(), degrees.end()), degrees.end());
  name += ':';
  for (const Degree& degree : degrees) name += ' ' + to_string(degree);
  return name;
}

}  // namespace

bool shares_first_note(std::span<const Arpeggio> arpeggios, std::size_t index) {
  return index > 0 && arpeggios[index - 1].notes.back() == arpeggios[index].notes.front();
}

std::vector<Tally> arpeggio_shapes(std::span<const Arpeggio> arpeggios) {
  std::vector<Tally> tallies;
  for (std::size_t i = 0; i < arpeggios.size(); ++i) {
    std::string shape;
    for (const Degree& degree : arpeggios[i].degrees) shape += (shape.empty() ? "" : " ") + to_string(degree);
    count(tallies, shape, i);
  }
  sort_by_count(tallies);
  return tallies;
}

std::vector<Tally> arpeggio_inversions(std::span<const Arpeggio> arpeggios) {
  constexpr Inversion order[] = {Inversion::root_position, Inversion::first, Inversion::second, Inversion::third,
                                 Inversion::none};
  std::vector<Tally> tallies;
  for (const Inversion inversion : order)
    for (std::size_t i = 0; i < arpeggios.size(); ++i)
      if (arpeggios[i].inversion == inversion) count(tallies, to_string(inversion), i);
  return tallies;
}

std::vector<Tally> borrowed_chords(const Analysis& analysis) {
  std::vector<Tally> tallies;
  for (std::size_t i = 0; i < analysis.arpeggios.size(); ++i) {
    const Arpeggio& arpeggio = analysis.arpeggios[i];
    const Chord& chord = analysis.harmony.chords[arpeggio.governor].chord;
    if (!arpeggio.spells.empty() && on_another_root(arpeggio.spells, chord.root))
      count(tallies, named_over(arpeggio, chord), i);
  }
  sort_by_count(tallies);
  return tallies;
}

std::vector<Tally> tensions_by_degree(const Solo& solo, std::span<const NoteLabel> labels) {
  std::map<Degree, std::vector<std::size_t>> found;
  for (std::size_t i = 0; i < labels.size(); ++i)
    if (labels[i].role == Role::tension && labels[i].degree && !solo.notes[i].grace)
      found[*labels[i].degree].push_back(i);
  std::vector<Tally> tallies;
  for (const auto& [degree, notes] : found) tallies.push_back({to_string(degree), notes});
  return tallies;
}

}  // namespace insideline::reports
