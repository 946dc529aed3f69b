#include "analyzer/labels/score_table.hpp"

#include <array>
#include <cstdlib>

namespace insideline {
namespace {

// Sources of the rows: OMT = Open Music Theory (Shaffer, Hughes, Moseley et al.), MT21C = Hutchinson,
// Music Theory for the 21st-Century Classroom, IMT = Butterfield, Integrated Musicianship: Theory,
// CP = common practice, no source. The values are ours.
constexpr std::array<ScoreRow, static_cast<std::size_t>(Row::count)> score_table = {{
    {Row::early, "early", 0.6, "a tone of the next chord sounds before its chord (OMT, IMT)"},
    {Row::early_tied_over, "early, tied over", 6.0, "it is held into its chord: a push (OMT: syncopation)"},
    {Row::early_struck_again, "early, struck again", 6.0, "its chord arrives and the note is struck again (OMT, IMT)"},
    {Row::early_before_rest, "early, before a rest", 2.0, "it is the last word before the change (CP)"},
    {Row::early_unconfirmed, "early, left", -2.4, "the line leaves it before its chord arrives (CP)"},
    {Row::early_off_beat, "early, off the beat", 1.2, "pushes come off the beat (CP)"},
    {Row::early_tension, "early tension", -2.0, "a tension is pushed more rarely than a chord tone (CP)"},
    {Row::early_far, "early by a beat or more", -1.6, "the further from the change, the less it leans on it (CP)"},
    {Row::early_already_there, "early, but already there", -3.0,
     "the same note already stood against the old chord (CP)"},
    {Row::hangs_over, "hangs over", 6.0, "prepared by the chord before and resolved by step (OMT, MT21C, IMT)"},
    {Row::tension, "tension", -1.0, "a colour of the chord, less common than its tones (CP)"},
    {Row::tension_held, "tension held", 3.6, "it is held longer than what follows, so it is meant (CP)"},
    {Row::tension_ends_phrase, "tension ends the phrase", 3.0, "the line comes to rest on it (CP)"},
    {Row::tension_left_by_leap, "tension left by leap", 2.4, "it needs no resolution (CP)"},
    {Row::tension_reached_by_leap, "tension reached by leap", 1.2, "it is aimed at, not passed through (CP)"},
    {Row::tension_stacked, "tension stacked", 1.6, "a third above a chord tone: the stack is built further up (CP)"},
    {Row::tension_crowns, "tension crowns an arpeggio", 3.8, "thirds lead up to it one after the other (CP)"},
    {Row::tension_reached_by_step, "tension reached by step", -0.8, "a step in may be mere motion (CP)"},
    {Row::tension_steps_on, "tension steps on", -1.4, "a step out resolves it like a non-chord tone (CP)"},
    {Row::tension_on_strong_place, "tension on a strong place", 0.6, "the ear takes what stands on the beat (CP)"},
    {Row::tension_altered, "altered tension", -1.0, "the symbol does not ask for it (Hutchinson 31.10)"},
    {Row::tension_disputed, "disputed tension", -1.2,
     "schools differ about the thirteenth over minor (Nettles & Graf)"},
    {Row::passing, "passes", 3.6, "step in and step out in one direction (OMT, MT21C, IMT)"},
    {Row::passing_unaccented, "passes unaccented", 0.6, "on a weaker place than its target (OMT)"},
    {Row::passing_accented, "passes accented", -0.8, "an accented passing tone is rarer (MT21C)"},
    {Row::passing_long, "passes slowly", -3.6, "held longer than its target, it no longer passes (CP)"},
    {Row::passing_chromatic, "passes by half steps", 0.6, "a half step on each side leaves no doubt (MT21C)"},
    {Row::neighbour, "neighbours", 3.6, "steps out and comes back to the same note (OMT, MT21C, IMT)"},
    {Row::neighbour_unaccented, "neighbours unaccented", 0.6, "mostly on a weak place (OMT)"},
    {Row::neighbour_accented, "neighbours accented", -0.8, "an accented neighbour is rarer (MT21C)"},
    {Row::neighbour_long, "neighbours slowly", -3.0, "held longer than its target, it is no ornament (CP)"},
    {Row::double_neighbour, "double neighbour", 4.4, "both sides of a note that was just heard (OMT, MT21C, IMT)"},
    {Row::enclosure, "encloses", 3.4, "above and below the target, which follows (IMT, jazz pedagogy)"},
    {Row::enclosure_of_three, "encloses with three", 0.4, "three notes close in on the target (jazz pedagogy)"},
    {Row::enclosure_half_step, "encloses by half step", 0.4, "its last note leads by half step (jazz pedagogy)"},
    {Row::enclosure_lands_strong, "enclosure lands strong", 0.6,
     "its target stands on a stronger place (jazz pedagogy)"},
    {Row::enclosure_with_chord_tone, "encloses with a chord tone", -2.8, "one side is itself a chord tone (CP)"},
    {Row::approach, "approaches", 0.8,
     "steps into a chord tone from a leap or from nothing (OMT: incomplete neighbour)"},
    {Row::approach_half_step, "approaches by half step", 1.4, "a half step pulls hardest (jazz pedagogy)"},
    {Row::approach_whole_step, "approaches by whole step", -0.4, "a whole step pulls less (CP)"},
    {Row::approach_lands_strong, "approach lands strong", 0.8, "its target stands on a stronger place (OMT)"},
    {Row::approach_on_strong_place, "approach on a strong place", -1.8, "accented, it is an appoggiatura (OMT)"},
    {Row::approach_longer_than_target, "approach longer than its target", -1.8,
     "then it leans rather than leads (OMT)"},
    {Row::approach_by_step, "approach reached by step", -1.0, "a step in belongs to another figure (CP)"},
    {Row::approach_blue, "approach from a blue note", 3.4, "a blue third or fifth slides into its neighbour (CP)"},
    {Row::double_approach, "double approach", 3.2, "two half steps in line into the target (jazz pedagogy)"},
    {Row::double_approach_from_stack, "double approach from a stack", -2.0,
     "its first note crowns an arpeggio and is heard as its colour (CP)"},
    {Row::appoggiatura, "leans", 0.4, "leap in, step out (OMT, MT21C, IMT)"},
    {Row::appoggiatura_accented, "leans on a strong place", 2.0, "stronger than its resolution (OMT)"},
    {Row::appoggiatura_longer, "leans long", 1.4, "longer than its resolution (OMT)"},
    {Row::appoggiatura_weak, "leans on a weak place", -0.8, "unaccented, schools differ (IMT allows it)"},
    {Row::appoggiatura_same_way, "leans on in the same direction", -0.6, "the step should turn back (OMT)"},
    {Row::escape, "escapes", 1.8, "step in, leap back out (OMT, MT21C, IMT)"},
    {Row::escape_unaccented, "escapes unaccented", 0.6, "on a weak place (OMT)"},
    {Row::escape_accented, "escapes accented", -1.6, "an accented escape tone is hardly one (OMT)"},
    {Row::escape_same_way, "escapes onward", -3.6, "the leap should turn back (OMT)"},
    {Row::pedal_repeated, "pedal, repeated", 4.8, "the same note before and after while the chord moved (MT21C, IMT)"},
    {Row::pedal_in_bass, "pedal in the bass", -1.6, "a low note apart from the line is heard as a bass (IMT)"},
    {Row::unexplained, "unexplained", -5.2, "no figure explains it"},
    {Row::second_passing, "second passing tone", -0.4, "two in a row fill a fourth, more are rarer (IMT)"},
    {Row::lands_on_tension, "lands on a tension", -1.8, "figures lead to chord tones first (OMT)"},
    {Row::goes_back_to_old_chord, "goes back to the old chord", -3.0, "once pushed, the line seldom turns back (CP)"},
}};

constexpr bool table_is_in_order() {
  for (std::size_t i = 0; i < score_table.size(); ++i)
    if (static_cast<std::size_t>(score_table[i].row) != i) return false;
  return true;
}
static_assert(table_is_in_order(), "one row for each name, in the order of the names");

bool is_step(const std::optional<Motion>& motion) { return motion && motion->step; }
bool is_leap(const std::optional<Motion>& motion) { return motion && !motion->step; }
bool is_half_step(const std::optional<Motion>& motion) { return motion && std::abs(motion->semitones) == 1; }
bool goes_on(const NoteContext& here) {
  return here.in && here.out && (here.in->semitones > 0) == (here.out->semitones > 0);
}
bool is_long(const NoteContext& here) { return here.longer_than_next && (here.held || here.longer_than_before); }

/// Calls `visit` with each row that applies. The only place where rows are chosen.
template <typename Visit>
class RowChooser {
 public:
  RowChooser(const Chain& chain, std::size_t index, Visit& visit)
      : chain_(chain), index_(index), here_(chain[index]), visit_(visit) {}

  void choose(const Reading& reading) {
    if (reading.placement == Placement::anticipation && !here_.pickup) early(reading);
    if (reading.against == Against::previous) visit_(Row::hangs_over);
    switch (reading.motive) {
      case Motive::chord_tone:
      case Motive::no_chord: break;
      case Motive::tension: tension(reading); break;
      case Motive::passing: passing(); break;
      case Motive::neighbour: neighbour(); break;
      case Motive::double_neighbour: visit_(Row::double_neighbour); break;
      case Motive::enclosure: enclosure(reading); break;
      case Motive::opening_enclosure:
      case Motive::closing_enclosure: half_enclosure(reading); break;
      case Motive::approach: approach(); break;
      case Motive::double_approach: double_approach(reading); break;
      case Motive::appoggiatura: appoggiatura(); break;
      case Motive::escape: escape(); break;
      case Motive::pedal: visit_(here_.same_before ? Row::pedal_repeated : Row::pedal_in_bass); break;
      case Motive::unexplained: visit_(Row::unexplained); break;
    }
  }

 private:
  void when(bool applies, Row row) {
    if (applies) visit_(row);
  }

  [[nodiscard]] bool stronger_than_next() const { return here_.weight > here_.next_weight; }
  [[nodiscard]] bool weaker_than_next() const { return here_.weight < here_.next_weight; }

  void early(const Reading& reading) {
    const bool confirmed = here_.sounds_into_next || here_.struck_again_on_next;
    visit_(Row::early);
    when(here_.sounds_into_next, Row::early_tied_over);
    when(!here_.sounds_into_next && here_.struck_again_on_next, Row::early_struck_again);
    when(!confirmed && here_.rest_after, Row::early_before_rest);
    when(!confirmed && !here_.rest_after, Row::early_unconfirmed);
    when(!here_.on_beat, Row::early_off_beat);
    when(reading.motive == Motive::tension, Row::early_tension);
    when(here_.to_change >= Beats(1), Row::early_far);
    when(here_.same_before && chain_[index_ - 1].next == here_.next, Row::early_already_there);
  }

  void tension(const Reading& reading) {
    visit_(Row::tension);
    const bool becomes_tone = here_.sounds_into_next && here_.is_tone_of_next;
    when(here_.held && !becomes_tone && (here_.longer_than_next || here_.rest_after), Row::tension_held);
    when(!here_.out, Row::tension_ends_phrase);
    when(is_leap(here_.out), Row::tension_left_by_leap);
    when(is_leap(here_.in), Row::tension_reached_by_leap);
    when(here_.stacked, Row::tension_stacked);
    when(here_.crowns, Row::tension_crowns);
    when(is_step(here_.in), Row::tension_reached_by_step);
    when(is_step(here_.out), Row::tension_steps_on);
    when(here_.out && stronger_than_next(), Row::tension_on_strong_place);
    when(reading.colour == Colour::altered, Row::tension_altered);
    when(reading.colour == Colour::disputed, Row::tension_disputed);
  }

  void passing() {
    visit_(Row::passing);
    when(weaker_than_next(), Row::passing_unaccented);
    when(stronger_than_next(), Row::passing_accented);
    when(is_long(here_), Row::passing_long);
    when(is_half_step(here_.in) && is_half_step(here_.out), Row::passing_chromatic);
  }

  void neighbour() {
    visit_(Row::neighbour);
    when(weaker_than_next(), Row::neighbour_unaccented);
    when(stronger_than_next(), Row::neighbour_accented);
    when(is_long(here_), Row::neighbour_long);
  }

  void enclosure(const Reading& reading) {
    const bool last = reading.part + 1 == reading.parts && reading.motive != Motive::opening_enclosure;
    visit_(Row::enclosure);
    when(reading.parts == 3, Row::enclosure_of_three);
    when(last && is_half_step(here_.out), Row::enclosure_half_step);
    when(last && weaker_than_next(), Row::enclosure_lands_strong);
  }

  void half_enclosure(const Reading& reading) {
    enclosure(reading);
    visit_(Row::enclosure_with_chord_tone);
  }

  void approach() {
    visit_(Row::approach);
    visit_(is_half_step(here_.out) ? Row::approach_half_step : Row::approach_whole_step);
    when(weaker_than_next(), Row::approach_lands_strong);
    when(stronger_than_next(), Row::approach_on_strong_place);
    when(here_.longer_than_next, Row::approach_longer_than_target);
    when(is_step(here_.in), Row::approach_by_step);
    when(here_.blue && !is_step(here_.in), Row::approach_blue);
  }

  void double_approach(const Reading& reading) {
    visit_(Row::double_approach);
    when(chain_[index_ - reading.part].crowns, Row::double_approach_from_stack);
  }

  void appoggiatura() {
    visit_(Row::appoggiatura);
    when(stronger_than_next(), Row::appoggiatura_accented);
    when(here_.longer_than_next, Row::appoggiatura_longer);
    when(!stronger_than_next() && !here_.longer_than_next, Row::appoggiatura_weak);
    when(goes_on(here_), Row::appoggiatura_same_way);
  }

  void escape() {
    visit_(Row::escape);
    when(!stronger_than_next(), Row::escape_unaccented);
    when(stronger_than_next(), Row::escape_accented);
    when(goes_on(here_), Row::escape_same_way);
  }

  const Chain& chain_;
  std::size_t index_;
  const NoteContext& here_;
  Visit& visit_;
};

template <typename Visit>
void visit_between(const Reading& from, const Reading& to, const Chain& chain, std::size_t index, Visit& visit) {
  const NoteContext& before = chain[index - 1];
  const NoteContext& here = chain[index];
  if (from.motive == Motive::passing && to.motive == Motive::passing && !here.same_before) visit(Row::second_passing);
  if (needs_target(from) && to.motive == Motive::tension) visit(Row::lands_on_tension);
  const bool still_the_old_chord = before.next == here.next;
  if (from.against == Against::next && to.against == Against::sounding && still_the_old_chord)
    visit(Row::goes_back_to_old_chord);
}

}  // namespace

const ScoreRow& score_row(Row row) { return score_table.at(static_cast<std::size_t>(row)); }

std::vector<Row> rows_for(const Reading& reading, const Chain& chain, std::size_t index) {
  std::vector<Row> rows;
  auto keep = [&rows](Row row) { rows.push_back(row); };
  RowChooser(chain, index, keep).choose(reading);
  return rows;
}

double reading_score(const Reading& reading, const Chain& chain, std::size_t index) {
  double sum = 0.0;
  auto add = [&sum](Row row) { sum += score_table[static_cast<std::size_t>(row)].value; };
  RowChooser(chain, index, add).choose(reading);
  return sum;
}

std::vector<Row> rows_between(const Reading& from, const Reading& to, const Chain& chain, std::size_t index) {
  std::vector<Row> rows;
  auto keep = [&rows](Row row) { rows.push_back(row); };
  visit_between(from, to, chain, index, keep);
  return rows;
}

double transition_score(const Reading& from, const Reading& to, const Chain& chain, std::size_t index) {
  double sum = 0.0;
  auto add = [&sum](Row row) { sum += score_table[static_cast<std::size_t>(row)].value; };
  visit_between(from, to, chain, index, add);
  return sum;
}

}  // namespace insideline
