#include "analyzer/labels/reasons.hpp"

#include "analyzer/labels/row_choice.hpp"
#include "analyzer/labels/score_table.hpp"
#include "analyzer/labels/side_slips.hpp"
#include "analyzer/metre.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <initializer_list>
#include <string_view>

namespace insideline {
namespace {

/// A positive row of the table in a student's words, after "thirteenth of G7, ".
struct TensionWords {
  Row row;
  std::string_view words;
};
constexpr std::array<TensionWords, 7> tension_words = {{
    {Row::tension_held, "held"},
    {Row::tension_ends_phrase, "where the phrase comes to rest"},
    {Row::tension_crowns, "on top of an arpeggio"},
    {Row::tension_left_by_leap, "left by leap"},
    {Row::tension_stacked, "stacked a third from a chord tone"},
    {Row::tension_reached_by_leap, "reached by leap"},
    {Row::tension_on_strong_place, "on a strong place"},
}};

/// One string of the whole: a sentence is said about every note.
std::string joined(std::initializer_list<std::string_view> parts) {
  std::size_t length = 0;
  for (const std::string_view part : parts) length += part.size();
  std::string text;
  text.reserve(length);
  for (const std::string_view part : parts) text += part;
  return text;
}

class Sentence {
 public:
  explicit Sentence(const ReasonContext& context)
      : context_(context),
        here_(context.chain[context.index]),
        label_(context.labels[here_.note]),
        note_(context.solo.notes[here_.note]) {}

  [[nodiscard]] std::string text() const {
    switch (context_.reading.motive) {
      case Motive::no_chord: return "no chord sounds here";
      case Motive::chord_tone: return chord_tone();
      case Motive::tension: return tension();
      case Motive::passing: return passing();
      case Motive::neighbour: return neighbour();
      case Motive::double_neighbour:
        return joined({"one of the two notes around ", target_name(), ", which was just heard and comes again"});
      case Motive::enclosure: return joined({"closes in on ", target_name(), " from ", side()});
      case Motive::opening_enclosure:
      case Motive::closing_enclosure:
        return joined({"closes in on ", target_name(), " from ", side(), ", a chord tone takes the other side"});
      case Motive::approach: return joined({step_size(), " ", side(), " ", target_name(), ", which follows"});
      case Motive::double_approach:
        return joined(
            {context_.reading.part == 0 ? "first" : "second", " of two half steps ", way_out(), " to ", target_name()});
      case Motive::appoggiatura: return joined({"leans on ", target_name(), " from ", side(), ", ", place()});
      case Motive::escape:
        return joined({"steps ", here_.in->semitones > 0 ? "up" : "down", " and leaps away, ", place()});
      case Motive::pedal:
        return joined({here_.same_before || (here_.same_after && !here_.from_below)
                           ? "stays while the harmony moves to "
                           : "a low note apart from the line, heard as a bass under ",
                       chord_name()});
      case Motive::unexplained: return outside();
    }
    return {};
  }

 private:
  [[nodiscard]] const std::string& symbol(std::size_t chord) const {
    return context_.harmony.chords[chord].chord.symbol;
  }
  [[nodiscard]] const std::string& chord_name() const { return symbol(*label_.governor); }

  [[nodiscard]] std::string place() const {
    return "on " + place_in_words(context_.solo.bars[bar_index_at(context_.solo, note_.onset)], note_.onset);
  }

  /// "third of Dm7", and what there is to say about it.
  [[nodiscard]] std::string member(std::string_view then, std::string_view more = "") const {
    return joined({to_string(label_.figure), " of ", chord_name(), then, more});
  }

  [[nodiscard]] std::string chord_tone() const {
    if (here_.pickup) return member(", in the pickup");
    switch (label_.placement) {
      case Placement::in_place: return member(" ", place());
      case Placement::anticipation: return member(early());
      case Placement::suspension:
      case Placement::retardation: return member(hanging_over());
    }
    return member("");
  }

  [[nodiscard]] std::string early() const {
    const std::string_view after = here_.sounds_into_next       ? " and held into it"
                                   : here_.struck_again_on_next ? " and struck again there"
                                                                : "";
    return joined({", ", beats_in_words(Beats(here_.to_change, here_.beat)), " before its chord", after});
  }

  [[nodiscard]] std::string hanging_over() const {
    const bool struck = context_.reading.against == Against::previous;
    const auto arriving = struck ? here_.chord : here_.hangs_into;
    const bool resolves = here_.out && here_.out->step && !here_.same_after && (!struck || here_.same_before);
    if (!resolves) return joined({", carried on over ", symbol(*arriving)});
    return joined({", kept over into ", symbol(*arriving), " and resolving ",
                   label_.placement == Placement::suspension ? "down" : "up", " by step"});
  }

  [[nodiscard]] std::string tension() const {
    if (here_.pickup) return member(", in the pickup");
    if (label_.placement == Placement::anticipation) return member(early());
    const std::vector<Row> rows = rows_for(context_.reading, context_.chain, context_.index);
    for (const TensionWords& words : tension_words)
      if (std::ranges::find(rows, words.row) != rows.end()) return member(", ", words.words);
    return member(", a colour ", place());
  }

  [[nodiscard]] std::string passing() const {
    const bool half_steps = std::abs(here_.in->semitones) == 1 && std::abs(here_.out->semitones) == 1;
    return joined({"passes ", way_out(), " by ", half_steps ? "half step" : "step", " from ", degree_of_note(before()),
                   " to ", degree_of_note(target()), ", ", place()});
  }

  [[nodiscard]] std::string neighbour() const {
    const std::string out =
        joined({"steps ", here_.in->semitones > 0 ? "up from " : "down from ", degree_of_note(before())});
    if (context_.chain[before()].midi == context_.chain[target()].midi)
      return joined({out, " and comes back, ", place()});
    return joined({out, " and turns back to ", degree_of_note(target()), ", ", place()});
  }

  [[nodiscard]] std::string outside() const {
    if (here_.slips == 0) return joined({"not in ", chord_name(), ", and no figure leads it on"});
    const Chord& sounding = context_.harmony.chords[*label_.governor].chord;
    return joined({"outside: with its neighbours it plays ", chord_aside(sounding, here_.slips).symbol, ", ",
                   way_aside(here_.slips), " ", sounding.symbol});
  }

  [[nodiscard]] std::string_view way_out() const { return here_.out->semitones > 0 ? "up" : "down"; }

  [[nodiscard]] std::string_view step_size() const {
    return std::abs(here_.out->semitones) == 1 ? "a half step" : "a step";
  }

  [[nodiscard]] std::string_view side() const { return here_.midi > context_.chain[target()].midi ? "above" : "below"; }

  /// Index in the chain of the last different pitch.
  [[nodiscard]] std::size_t before() const {
    std::size_t index = context_.index;
    while (index > 0 && context_.chain[index].midi == here_.midi) --index;
    return index;
  }

  /// Index in the chain of the note this one leads to.
  [[nodiscard]] std::size_t target() const {
    std::size_t index = context_.index + notes_to_target(context_.reading).value_or(0);
    while (index + 1 < context_.chain.size() && context_.chain[index].midi == here_.midi) ++index;
    return index;
  }

  [[nodiscard]] std::string degree_of_note(std::size_t index) const {
    const NoteLabel& label = context_.labels[context_.chain[index].note];
    return label.degree ? to_string(*label.degree)
                        : to_string(context_.solo.notes[context_.chain[index].note].pitch.name);
  }

  /// "3 of Cmaj7".
  [[nodiscard]] std::string target_name() const {
    const NoteLabel& label = context_.labels[context_.chain[target()].note];
    if (!label.governor) return degree_of_note(target());
    return joined({degree_of_note(target()), " of ", symbol(*label.governor)});
  }

  const ReasonContext& context_;
  const NoteContext& here_;
  const NoteLabel& label_;
  const Note& note_;
};

}  // namespace

std::string beats_in_words(const Beats& distance) {
  if (distance == Beats(1)) return "a beat";
  if (distance == Beats(1, 2)) return "half a beat";
  if (distance == Beats(1, 3)) return "a third of a beat";
  if (distance == Beats(2, 3)) return "two thirds of a beat";
  if (distance == Beats(1, 4)) return "a quarter of a beat";
  return to_string(distance) + " beats";
}

std::string reason_for(const ReasonContext& context) { return Sentence(context).text(); }

}  // namespace insideline
