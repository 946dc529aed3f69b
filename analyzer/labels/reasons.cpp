#include "analyzer/labels/reasons.hpp"

#include "analyzer/labels/score_table.hpp"
#include "analyzer/metre.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <string_view>

#include <fmt/format.h>

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
      case Motive::neighbour:
        return fmt::format("steps {} {} and comes back, {}", here_.in->semitones > 0 ? "up from" : "down from",
                           degree_of_note(target()), place());
      case Motive::double_neighbour:
        return fmt::format("one of the two notes around {}, which was just heard and comes again", target_name());
      case Motive::enclosure: return fmt::format("closes in on {} from {}", target_name(), side());
      case Motive::opening_enclosure:
      case Motive::closing_enclosure:
        return fmt::format("closes in on {} from {}, a chord tone takes the other side", target_name(), side());
      case Motive::approach: return fmt::format("{} {} {}, which follows", step_size(), side(), target_name());
      case Motive::double_approach:
        return fmt::format("{} of two half steps {} to {}", context_.reading.part == 0 ? "first" : "second",
                           here_.out->semitones > 0 ? "up" : "down", target_name());
      case Motive::appoggiatura: return fmt::format("leans on {} from {}, {}", target_name(), side(), place());
      case Motive::escape:
        return fmt::format("steps {} and leaps away, {}", here_.in->semitones > 0 ? "up" : "down", place());
      case Motive::pedal:
        return here_.same_before
                   ? fmt::format("stays while the harmony moves to {}", chord_name())
                   : fmt::format("a low note apart from the line, heard as a bass under {}", chord_name());
      case Motive::unexplained: return fmt::format("not in {}, and no figure leads it on", chord_name());
    }
    return {};
  }

 private:
  [[nodiscard]] const std::string& symbol(std::size_t chord) const {
    return context_.harmony.chords[chord].chord.symbol;
  }
  [[nodiscard]] const std::string& chord_name() const { return symbol(*label_.governor); }

  [[nodiscard]] std::string place() const {
    return fmt::format("on {}",
                       place_in_words(context_.solo.bars[bar_index_at(context_.solo, note_.onset)], note_.onset));
  }

  [[nodiscard]] std::string member() const { return to_string(label_.figure) + " of " + chord_name(); }

  [[nodiscard]] std::string chord_tone() const {
    if (here_.pickup) return member() + ", in the pickup";
    switch (label_.placement) {
      case Placement::in_place: return member() + ' ' + place();
      case Placement::anticipation: return member() + early();
      case Placement::suspension:
      case Placement::retardation: return member() + hanging_over();
    }
    return member();
  }

  [[nodiscard]] std::string early() const {
    const std::string_view after = here_.sounds_into_next       ? " and held into it"
                                   : here_.struck_again_on_next ? " and struck again there"
                                                                : "";
    return fmt::format(", {} before its chord{}", beats_in_words(here_.to_change), after);
  }

  [[nodiscard]] std::string hanging_over() const {
    const auto arriving = context_.reading.against == Against::previous ? here_.chord : here_.next;
    return fmt::format(", kept over into {} and resolving {} by step", symbol(*arriving),
                       label_.placement == Placement::suspension ? "down" : "up");
  }

  [[nodiscard]] std::string tension() const {
    if (here_.pickup) return member() + ", in the pickup";
    if (label_.placement == Placement::anticipation) return member() + early();
    const std::vector<Row> rows = rows_for(context_.reading, context_.chain, context_.index);
    for (const TensionWords& words : tension_words)
      if (std::ranges::find(rows, words.row) != rows.end()) return fmt::format("{}, {}", member(), words.words);
    return fmt::format("{}, a colour {}", member(), place());
  }

  [[nodiscard]] std::string passing() const {
    return fmt::format("passes {} by {} from {} to {}, {}", here_.out->semitones > 0 ? "up" : "down",
                       std::abs(here_.in->semitones) == 1 && std::abs(here_.out->semitones) == 1 ? "half step" : "step",
                       degree_of_note(before()), degree_of_note(target()), place());
  }

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
    return fmt::format("{} of {}", degree_of_note(target()), symbol(*label.governor));
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
  return fmt::format("{} beats", to_string(distance));
}

std::string reason_for(const ReasonContext& context) { return Sentence(context).text(); }

}  // namespace insideline
