#include "analyzer/labels/score_table.hpp"

#include "analyzer/labels/fitted_values.hpp"

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
    {Row::early_mostly_over, "early, mostly heard over its chord", 2.0,
     "more of it sounds over its own chord than before it (OMT: syncopation)"},
    {Row::early_struck_again, "early, struck again", 6.0, "its chord arrives and the note is struck again (OMT, IMT)"},
    {Row::early_before_rest, "early, before a rest", 2.0, "it is the last word before the change (CP)"},
    {Row::early_unconfirmed, "early, left", -2.4, "the line leaves it before its chord arrives (CP)"},
    {Row::early_off_beat, "early, off the beat", 1.2, "pushes come off the beat (CP)"},
    {Row::early_tension, "early tension", -2.0, "a tension is pushed more rarely than a chord tone (CP)"},
    {Row::early_far, "early by a beat or more", -1.6, "the further from the change, the less it leans on it (CP)"},
    {Row::early_already_there, "early, but already there", -3.0,
     "the same note already stood against the old chord (CP)"},
    {Row::early_two_beats, "early by more than a beat", -1.5, "the chord is still far away (CP)"},
    {Row::early_left_by_step, "early, left by step", -0.6, "a step on may be plain motion (CP)"},
    {Row::early_goes_on, "early, and already there", 2.0, "the line is in the next chord already (CP)"},
    {Row::early_also_colour, "early, or a colour", -0.6, "it colours the sounding chord as well (CP)"},
    {Row::early_leads_in, "early, and the line goes on there", 1.0,
     "the next note is a tone of the next chord as well (CP)"},
    {Row::early_by_leap, "early, reached by leap", 0.2, "who leaps to it means the next chord (CP)"},
    {Row::hangs_over, "hangs over", 6.0, "prepared by the chord before and resolved by step (OMT, MT21C, IMT)"},
    {Row::carried_on, "carried on", -2.2, "a tone of the chord before, struck over the new one (CP)"},
    {Row::carried_struck_again, "carried on, struck again", 1.2, "the same note stood just before (CP)"},
    {Row::carried_late, "carried on for long", -1.0, "a beat after the change, the ear has moved on (CP)"},
    {Row::carried_goes_on, "carried on further", 2.4, "the line stays in the old chord (CP)"},
    {Row::carried_from_old_tone, "carried on from an old tone", 0.8, "the note before is a tone of the old chord (CP)"},
    {Row::carried_also_colour, "carried on, or a colour", -0.6, "it colours the new chord as well (CP)"},
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
    {Row::tension_asked_for, "tension of an altered chord", 1.6, "the symbol asks for it, whichever way it moves (CP)"},
    {Row::tension_blue, "blue tension", 0.4, "a blue third, fifth or seventh stands for its own sake (CP)"},
    {Row::tension_avoided, "avoided tension", -2.0,
     "it rubs against a chord tone a half step below (Hutchinson 31.10)"},
    {Row::tension_long, "tension of two beats", 0.8, "nobody stays that long on the way (CP)"},
    {Row::tension_brief, "brief tension", -0.6, "a sixteenth is gone before it colours (CP)"},
    {Row::tension_after_rest, "tension begins", 0.8, "the line starts on it (CP)"},
    {Row::tension_before_rest, "tension before a rest", 1.2, "nothing follows at once that would explain it (CP)"},
    {Row::tension_on_beat, "tension on the beat", 0.3, "the ear takes what stands on the beat (CP)"},
    {Row::tension_turns, "tension at a turn", 0.4, "the line turns there, so it is heard (CP)"},
    {Row::tension_goes_on, "tension in a scale", -0.6, "steps on both sides in one direction (CP)"},
    {Row::tension_half_step_on, "tension leads by half step", -0.8, "a half step pulls it on (CP)"},
    {Row::tension_repeated, "tension repeated", 1.0, "who repeats it means it (CP)"},
    {Row::tension_returns, "tension comes back", 0.8, "heard a moment ago and again: it is part of the sound (CP)"},
    {Row::tension_sixth_or_ninth, "sixth or ninth", 0.4, "the mildest colours (CP)"},
    {Row::tension_sixth, "sixth", 0.3, "the sixth is half a chord tone to players (CP)"},
    {Row::tension_blue_third, "blue third", 0.3,
     "the minor third over a dominant or a major chord is a sound of its own (CP)"},
    {Row::tension_riff, "tension in a riff", 0.8, "it comes three times and more around here (CP)"},
    {Row::tension_triplet, "tension off the grid of eighths", 0.0, "quick values ornament more than eighths do (CP)"},
    {Row::tension_down, "tension falls on", 0.0, "down by step is the way of resolutions (CP)"},
    {Row::tension_beside_tension, "tension beside tension", 0.6, "two colours by leap: a chord above the chord (CP)"},
    {Row::tension_slow, "tension longer than its neighbours", 0.8, "longer than what is around it (CP)"},
    {Row::tension_between_leaps, "tension between leaps", 0.6, "nothing leads in or out (CP)"},
    {Row::tension_steps_weak, "weak tension between steps", -0.8, "weak and by step it is motion (CP)"},
    {Row::tension_steps_strong, "strong tension between steps", 0.4, "by step, but where the ear listens (CP)"},
    {Row::tension_into_tone, "tension into a chord tone", -0.6, "a chord tone beside it takes over (CP)"},
    {Row::tension_on_downbeat, "tension on the downbeat", 0.2, "the place that is heard most (CP)"},
    {Row::tension_foreign, "tension out of the scale", -3.0, "no scale of the chord has it (CP)"},
    {Row::tension_eleventh, "eleventh", 0.0, "the boldest of the plain colours (CP)"},
    {Row::passing, "passes", 3.6, "step in and step out in one direction (OMT, MT21C, IMT)"},
    {Row::passing_unaccented, "passes unaccented", 0.6, "on a weaker place than its target (OMT)"},
    {Row::passing_accented, "passes accented", -0.8, "an accented passing tone is rarer (MT21C)"},
    {Row::passing_long, "passes slowly", -3.6, "held longer than its target, it no longer passes (CP)"},
    {Row::passing_chromatic, "passes by half steps", 0.6, "a half step on each side leaves no doubt (MT21C)"},
    {Row::passing_held, "passes for a beat", -1.0, "a beat is long for a note on its way (CP)"},
    {Row::passing_two_beats, "passes for two beats", -4.0, "a note of two beats does not pass (CP)"},
    {Row::passing_half_step, "passes on by half step", 0.4, "a half step leads on (CP)"},
    {Row::passing_brief, "passes quickly", 0.3, "quick notes pass (CP)"},
    {Row::on_its_way, "chord tone on its way", -5.0, "a chord tone is one first, even inside a run (CP)"},
    {Row::passing_before_rest, "passes into a rest", -1.6, "a rest breaks the motion (CP)"},
    {Row::passing_between_tones, "passes between chord tones", 0.8, "both ends stand (OMT, MT21C, IMT)"},
    {Row::passing_colour, "passes as a colour", 0.0, "the chord would take it as a colour (CP)"},
    {Row::passing_on_beat, "passes on the beat", -0.4, "the beat is for what stands (CP)"},
    {Row::neighbour, "neighbours", 3.6, "steps out and comes back to the same note (OMT, MT21C, IMT)"},
    {Row::neighbour_unaccented, "neighbours unaccented", 0.6, "mostly on a weak place (OMT)"},
    {Row::neighbour_accented, "neighbours accented", -0.8, "an accented neighbour is rarer (MT21C)"},
    {Row::neighbour_long, "neighbours slowly", -3.0, "held longer than its target, it is no ornament (CP)"},
    {Row::neighbour_held, "neighbour of a beat", -0.8, "a beat is long for an ornament (CP)"},
    {Row::neighbour_half_step, "neighbours by half step", 0.4, "a half step is heard as an ornament (CP)"},
    {Row::neighbour_before_rest, "neighbours over a rest", -1.6, "a rest breaks the motion (CP)"},
    {Row::neighbour_changed, "neighbours, the note changed", -1.6,
     "it comes back to the same letter, raised or lowered (CP)"},
    {Row::neighbour_colour, "neighbours as a colour", 0.0, "the chord would take it as a colour (CP)"},
    {Row::neighbour_on_beat, "neighbours on the beat", -0.4, "the beat is for what stands (CP)"},
    {Row::neighbour_below, "neighbours from below", 0.2, "lower neighbours are ornaments first (CP)"},
    {Row::double_neighbour, "double neighbour", 4.4, "both sides of a note that was just heard (OMT, MT21C, IMT)"},
    {Row::enclosure, "encloses", 3.4, "above and below the target, which follows (IMT, jazz pedagogy)"},
    {Row::enclosure_of_three, "encloses with three", 0.4, "three notes close in on the target (jazz pedagogy)"},
    {Row::enclosure_half_step, "encloses by half step", 0.4, "its last note leads by half step (jazz pedagogy)"},
    {Row::enclosure_lands_strong, "enclosure lands strong", 0.6,
     "its target stands on a stronger place (jazz pedagogy)"},
    {Row::enclosure_with_chord_tone, "encloses with a chord tone", -2.8, "one side is itself a chord tone (CP)"},
    {Row::enclosure_across_change, "encloses across the change", 1.2,
     "the chord tone belongs to the chord that is left (CP)"},
    {Row::enclosure_held, "encloses slowly", -1.0, "a beat is long for one side (CP)"},
    {Row::enclosure_on_beat, "encloses from the beat", -0.3, "closing in begins off the beat more often (CP)"},
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
    {Row::approach_held, "approaches for a beat", -0.8, "a beat is long for a note on its way (CP)"},
    {Row::approach_after_rest, "approach begins", 0.4, "the line starts on it (CP)"},
    {Row::approach_before_rest, "approaches over a rest", -1.4, "a rest breaks the motion (CP)"},
    {Row::double_approach, "double approach", 3.2, "two half steps in line into the target (jazz pedagogy)"},
    {Row::double_approach_from_stack, "double approach from a stack", -2.0,
     "its first note crowns an arpeggio and is heard as its colour (CP)"},
    {Row::appoggiatura, "leans", 0.4, "leap in, step out (OMT, MT21C, IMT)"},
    {Row::appoggiatura_accented, "leans on a strong place", 2.0, "stronger than its resolution (OMT)"},
    {Row::appoggiatura_longer, "leans long", 1.4, "longer than its resolution (OMT)"},
    {Row::appoggiatura_weak, "leans on a weak place", -0.8, "unaccented, schools differ (IMT allows it)"},
    {Row::appoggiatura_same_way, "leans on in the same direction", -0.6, "the step should turn back (OMT)"},
    {Row::appoggiatura_brief, "leans briefly", -1.6, "leaning needs a strong place or real length (CP)"},
    {Row::appoggiatura_held, "leans for a beat", 0.6, "real length (CP)"},
    {Row::appoggiatura_by_step, "leans after a step", -2.0, "reached by step it belongs to another figure (OMT)"},
    {Row::escape, "escapes", 1.8, "step in, leap back out (OMT, MT21C, IMT)"},
    {Row::escape_unaccented, "escapes unaccented", 0.6, "on a weak place (OMT)"},
    {Row::escape_accented, "escapes accented", -1.6, "an accented escape tone is hardly one (OMT)"},
    {Row::escape_same_way, "escapes onward", -3.6, "the leap should turn back (OMT)"},
    {Row::escape_held, "escapes slowly", -1.6, "held, it does not escape (CP)"},
    {Row::pedal_repeated, "pedal, repeated", 4.8, "the same note before and after while the chord moved (MT21C, IMT)"},
    {Row::pedal_in_bass, "pedal in the bass", -1.6, "a low note apart from the line is heard as a bass (IMT)"},
    {Row::unexplained, "unexplained", -4.2, "no figure explains it"},
    {Row::outside_goes_on, "outside goes on", 2.4, "its neighbour is outside as well: one event (CP)"},
    {Row::outside_colour, "outside, or a colour", -1.0, "the chord would take it as a colour (CP)"},
    {Row::outside_by_step, "outside between steps", -1.0, "steps on both sides are motion (CP)"},
    {Row::outside_by_leap, "outside between leaps", 0.6, "nothing leads in or out (CP)"},
    {Row::outside_held, "outside for a beat", 0.3, "held, it is meant (CP)"},
    {Row::outside_slips, "slips aside", 2.0,
     "with its neighbours it plays the chord a half step away (jazz pedagogy: side-slip)"},
    {Row::second_passing, "second passing tone", -0.4, "two in a row fill a fourth, more are rarer (IMT)"},
    {Row::lands_on_tension, "lands on a tension", -1.8, "figures lead to chord tones first (OMT)"},
    {Row::leads_to_motion, "leads to a note on its way", -2.4, "figures lead to a note that stands (OMT)"},
    {Row::starts_from_motion, "starts from a note on its way", -2.0, "figures start from a note that stands (OMT)"},
    {Row::goes_back_to_old_chord, "goes back to the old chord", -3.0, "once pushed, the line seldom turns back (CP)"},
}};

constexpr bool table_is_in_order() {
  for (std::size_t i = 0; i < score_table.size(); ++i)
    if (static_cast<std::size_t>(score_table[i].row) != i) return false;
  return true;
}
static_assert(table_is_in_order(), "one row for each name, in the order of the names");

constexpr int downbeat = 4;  // of metrical_weight

// Semitones above the root.
constexpr int ninth = 2;
constexpr int minor_third = 3;
constexpr int fourth = 5;
constexpr int sixth = 9;

bool is_step(const std::optional<Motion>& motion) { return motion && motion->step; }
bool is_leap(const std::optional<Motion>& motion) { return motion && !motion->step; }
bool is_half_step(const std::optional<Motion>& motion) { return motion && std::abs(motion->semitones) == 1; }
bool goes_on(const NoteContext& here) {
  return here.in && here.out && (here.in->semitones > 0) == (here.out->semitones > 0);
}
bool turns(const NoteContext& here) { return here.in && here.out && !goes_on(here); }
bool is_long(const NoteContext& here) { return here.longer_than_next && (here.held || here.longer_than_before); }

/// Calls `visit` with each row that applies. The only place where rows are chosen.
template <typename Visit>
class RowChooser {
 public:
  RowChooser(const Chain& chain, std::size_t index, Visit& visit)
      : chain_(chain), index_(index), here_(chain[index]), visit_(visit) {}

  void choose(const Reading& reading) {
    if (reading.placement == Placement::anticipation && !here_.pickup) early(reading);
    if (reading.against == Against::previous) carried(reading);
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
      case Motive::unexplained: unexplained(); break;
    }
  }

 private:
  void when(bool applies, Row row) {
    if (applies) visit_(row);
  }

  [[nodiscard]] bool stronger_than_next() const { return here_.weight > here_.next_weight; }
  [[nodiscard]] bool weaker_than_next() const { return here_.weight < here_.next_weight; }

  [[nodiscard]] bool has_ordinary_colour() const { return here_.colour && *here_.colour != Colour::foreign; }
  [[nodiscard]] bool goes_on_in_next() const {
    if (index_ + 1 == chain_.size()) return false;
    const NoteContext& after = chain_[index_ + 1];
    return after.chord == here_.next ? after.is_tone : after.next == here_.next && after.is_tone_of_next;
  }

  void early(const Reading& reading) {
    const bool confirmed = here_.sounds_into_next || here_.struck_again_on_next;
    visit_(Row::early);
    when(here_.sounds_into_next, Row::early_tied_over);
    when(here_.sounds_mostly_over_next, Row::early_mostly_over);
    when(!here_.sounds_into_next && here_.struck_again_on_next, Row::early_struck_again);
    when(!confirmed && here_.rest_after, Row::early_before_rest);
    when(!confirmed && !here_.rest_after, Row::early_unconfirmed);
    when(!here_.on_beat, Row::early_off_beat);
    when(reading.motive == Motive::tension, Row::early_tension);
    when(here_.to_change >= here_.beat, Row::early_far);
    when(here_.to_change > here_.beat, Row::early_two_beats);
    when(!confirmed && is_step(here_.out), Row::early_left_by_step);
    when(here_.same_before && chain_[index_ - 1].next == here_.next, Row::early_already_there);
    when(is_leap(here_.in), Row::early_by_leap);
    when(has_ordinary_colour(), Row::early_also_colour);
    when(!confirmed && goes_on_in_next(), Row::early_leads_in);
  }

  void carried(const Reading& reading) {
    const bool resolves = here_.same_before && is_step(here_.out) && here_.since_change < here_.beat;
    if (resolves) return visit_(Row::hangs_over);
    visit_(Row::carried_on);
    when(here_.same_before, Row::carried_struck_again);
    when(here_.since_change >= here_.beat, Row::carried_late);
    when(index_ > 0 && chain_[index_ - 1].chord == here_.previous && chain_[index_ - 1].is_tone,
         Row::carried_from_old_tone);
    when(has_ordinary_colour() && reading.motive == Motive::chord_tone, Row::carried_also_colour);
  }

  /// What follows then follows a tone of the next chord, and says nothing of a colour of this one.
  [[nodiscard]] bool becomes_tone() const { return here_.sounds_into_next && here_.is_tone_of_next; }

  void tension(const Reading& reading) {
    visit_(Row::tension);
    when(here_.held && !becomes_tone() && (here_.longer_than_next || here_.rest_after), Row::tension_held);
    when(here_.two_beats && !becomes_tone(), Row::tension_long);
    when(here_.brief, Row::tension_brief);
    when(here_.longer_than_next && here_.longer_than_before, Row::tension_slow);
    when(here_.phrase_end && !becomes_tone(), Row::tension_ends_phrase);
    when(here_.rest_after && !becomes_tone(), Row::tension_before_rest);
    when(here_.weight >= downbeat, Row::tension_on_downbeat);
    when(here_.phrase_start, Row::tension_after_rest);
    tension_motion();
    when(here_.out && stronger_than_next(), Row::tension_on_strong_place);
    when(here_.on_beat, Row::tension_on_beat);
    when(reading.colour == Colour::listed && (here_.above_root == ninth || here_.above_root == sixth),
         Row::tension_sixth_or_ninth);
    when(reading.colour == Colour::listed && here_.above_root == sixth, Row::tension_sixth);
    when(here_.above_root == minor_third, Row::tension_blue_third);
    when(here_.above_root == fourth, Row::tension_eleventh);
    when(here_.riff, Row::tension_riff);
    when(here_.weight == 0, Row::tension_triplet);
    when(is_step(here_.out) && here_.out->semitones < 0, Row::tension_down);
    tension_colour(reading.colour);
  }

  [[nodiscard]] bool leads_into_tone() const {
    return is_step(here_.out) && !here_.same_after && chain_[index_ + 1].is_tone;
  }
  [[nodiscard]] bool comes_from_tone() const {
    return is_step(here_.in) && !here_.same_before && chain_[index_ - 1].is_tone;
  }

  void tension_motion() {
    const bool steps = is_step(here_.in) && is_step(here_.out);
    when(is_leap(here_.in) && is_leap(here_.out) && !becomes_tone(), Row::tension_between_leaps);
    when(steps && weaker_than_next(), Row::tension_steps_weak);
    when(steps && stronger_than_next(), Row::tension_steps_strong);
    when(leads_into_tone(), Row::tension_into_tone);
    when(is_leap(here_.out) && !becomes_tone(), Row::tension_left_by_leap);
    when(is_leap(here_.in), Row::tension_reached_by_leap);
    when(here_.stacked, Row::tension_stacked);
    when(here_.crowns, Row::tension_crowns);
    when(is_step(here_.in), Row::tension_reached_by_step);
    when(is_step(here_.out), Row::tension_steps_on);
    when(is_half_step(here_.out), Row::tension_half_step_on);
    when(turns(here_), Row::tension_turns);
    when(goes_on(here_) && is_step(here_.in) && is_step(here_.out), Row::tension_goes_on);
    when(here_.same_before || here_.same_after, Row::tension_repeated);
    when(here_.returns, Row::tension_returns);
  }

  void tension_colour(Colour colour) {
    switch (colour) {
      case Colour::listed: break;
      case Colour::asked_for: visit_(Row::tension_asked_for); break;
      case Colour::altered: visit_(Row::tension_altered); break;
      case Colour::disputed: visit_(Row::tension_disputed); break;
      case Colour::blue: visit_(Row::tension_blue); break;
      case Colour::avoided: visit_(Row::tension_avoided); break;
      case Colour::foreign: visit_(Row::tension_foreign); break;
    }
  }

  void passing() {
    visit_(Row::passing);
    when(here_.is_tone, Row::on_its_way);
    when(weaker_than_next(), Row::passing_unaccented);
    when(stronger_than_next(), Row::passing_accented);
    when(is_long(here_), Row::passing_long);
    when(here_.held, Row::passing_held);
    when(here_.two_beats, Row::passing_two_beats);
    when(here_.brief, Row::passing_brief);
    when(here_.rest_after, Row::passing_before_rest);
    when(is_half_step(here_.out), Row::passing_half_step);
    when(leads_into_tone() && comes_from_tone(), Row::passing_between_tones);
    when(here_.colour == Colour::listed, Row::passing_colour);
    when(here_.on_beat, Row::passing_on_beat);
    when(is_half_step(here_.in) && is_half_step(here_.out), Row::passing_chromatic);
  }

  void neighbour() {
    visit_(Row::neighbour);
    when(here_.is_tone, Row::on_its_way);
    when(weaker_than_next(), Row::neighbour_unaccented);
    when(stronger_than_next(), Row::neighbour_accented);
    when(is_long(here_), Row::neighbour_long);
    when(here_.held, Row::neighbour_held);
    when(here_.rest_after, Row::neighbour_before_rest);
    when(is_half_step(here_.out), Row::neighbour_half_step);
    when(here_.in->semitones != -here_.out->semitones, Row::neighbour_changed);
    when(here_.colour == Colour::listed, Row::neighbour_colour);
    when(here_.on_beat, Row::neighbour_on_beat);
    when(here_.in->semitones < 0, Row::neighbour_below);
  }

  void enclosure(const Reading& reading) {
    const bool last = reading.part + 1 == reading.parts && reading.motive != Motive::opening_enclosure;
    visit_(Row::enclosure);
    when(reading.parts == 3, Row::enclosure_of_three);
    when(last && is_half_step(here_.out), Row::enclosure_half_step);
    when(last && weaker_than_next(), Row::enclosure_lands_strong);
    when(here_.held, Row::enclosure_held);
    when(here_.on_beat, Row::enclosure_on_beat);
  }

  void half_enclosure(const Reading& reading) {
    enclosure(reading);
    visit_(Row::enclosure_with_chord_tone);
    const bool opens = reading.motive == Motive::opening_enclosure;
    const std::size_t side = opens ? index_ + 1 : index_ - 1;
    const std::size_t target = opens ? index_ + 2 : index_ + 1;
    when(chain_[side].chord != chain_[target].chord && chain_[side].next != chain_[target].next,
         Row::enclosure_across_change);
  }

  void approach() {
    visit_(Row::approach);
    visit_(is_half_step(here_.out) ? Row::approach_half_step : Row::approach_whole_step);
    when(weaker_than_next(), Row::approach_lands_strong);
    when(stronger_than_next(), Row::approach_on_strong_place);
    when(here_.longer_than_next, Row::approach_longer_than_target);
    when(is_step(here_.in), Row::approach_by_step);
    when(here_.held, Row::approach_held);
    when(here_.phrase_start, Row::approach_after_rest);
    when(here_.rest_after, Row::approach_before_rest);
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
    when(here_.length < here_.beat, Row::appoggiatura_brief);
    when(here_.held, Row::appoggiatura_held);
    when(is_step(here_.in), Row::appoggiatura_by_step);
    when(goes_on(here_), Row::appoggiatura_same_way);
  }

  void escape() {
    visit_(Row::escape);
    when(!stronger_than_next(), Row::escape_unaccented);
    when(stronger_than_next(), Row::escape_accented);
    when(goes_on(here_), Row::escape_same_way);
    when(here_.held, Row::escape_held);
  }

  void unexplained() {
    visit_(Row::unexplained);
    when(has_ordinary_colour(), Row::outside_colour);
    when(here_.held, Row::outside_held);
    when(here_.slips != 0, Row::outside_slips);
    when(is_step(here_.in) && is_step(here_.out), Row::outside_by_step);
    when(!is_step(here_.in) && !is_step(here_.out), Row::outside_by_leap);
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
  const bool one_figure = to.part > 0 || (from == to && here.same_before);
  if (one_figure) return;
  if (from.motive == Motive::passing && to.motive == Motive::passing)
    visit(Row::second_passing);
  else if (needs_target(from) && !is_stable(to))
    visit(Row::leads_to_motion);
  else if (needs_start(to) && !is_stable(from))
    visit(Row::starts_from_motion);
  if (needs_target(from) && to.motive == Motive::tension) visit(Row::lands_on_tension);
  if (from.motive == Motive::tension && to.motive == Motive::tension && is_leap(here.in))
    visit(Row::tension_beside_tension);
  if (from.motive == Motive::unexplained && to.motive == Motive::unexplained) visit(Row::outside_goes_on);
  const bool still_the_old_chord = before.next == here.next;
  if (from.against == Against::next && still_the_old_chord) {
    if (to.against == Against::sounding) visit(Row::goes_back_to_old_chord);
    if (to.against == Against::next) visit(Row::early_goes_on);
  }
  if (from.against == Against::previous && to.against == Against::previous) visit(Row::carried_goes_on);
}

template <typename Choose>
int sum_of(Choose choose) {
  int sum = 0;
  auto add = [&sum](Row row) { sum += score_value(row); };
  choose(add);
  return sum;
}

}  // namespace

int score_value(Row row) { return fitted_values[static_cast<std::size_t>(row)]; }

const ScoreRow& score_row(Row row) { return score_table.at(static_cast<std::size_t>(row)); }

std::vector<Row> rows_for(const Reading& reading, const Chain& chain, std::size_t index) {
  std::vector<Row> rows;
  auto keep = [&rows](Row row) { rows.push_back(row); };
  RowChooser(chain, index, keep).choose(reading);
  return rows;
}

int reading_score(const Reading& reading, const Chain& chain, std::size_t index) {
  return sum_of([&](auto& add) { RowChooser(chain, index, add).choose(reading); });
}

std::vector<Row> rows_between(const Reading& from, const Reading& to, const Chain& chain, std::size_t index) {
  std::vector<Row> rows;
  auto keep = [&rows](Row row) { rows.push_back(row); };
  visit_between(from, to, chain, index, keep);
  return rows;
}

int transition_score(const Reading& from, const Reading& to, const Chain& chain, std::size_t index) {
  const bool plain = from.motive == Motive::chord_tone && from.against == Against::sounding;
  if (plain) return 0;  // no row speaks of what follows a chord tone in place
  return sum_of([&](auto& add) { visit_between(from, to, chain, index, add); });
}

}  // namespace insideline
