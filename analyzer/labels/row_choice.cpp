#include "analyzer/labels/row_choice.hpp"

#include "analyzer/labels/fitted_values.hpp"

#include <cstdlib>
#include <optional>

namespace insideline {
namespace {

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
bool falls(const std::optional<Motion>& motion) { return is_step(motion) && motion->semitones < 0; }
bool is_third_or_more(const std::optional<Motion>& motion) {
  return motion && std::abs(motion->semitones) >= minor_third;
}
bool lingers(const NoteContext& here) { return here.length * 3 >= here.beat * 2; }
bool is_long(const NoteContext& here) { return here.longer_than_next && (here.held || here.longer_than_before); }

/// Calls `visit` with each row that applies.
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

  [[nodiscard]] bool is_mild_colour() const {
    return here_.colour == Colour::listed && (here_.above_root == ninth || here_.above_root == sixth);
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
    when(!confirmed && here_.length * 2 >= here_.to_change, Row::early_waits);
    when(here_.pushes, Row::early_push);
    when(is_mild_colour(), Row::early_mild);
    when(here_.is_root_of_next, Row::early_root);
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
    when(here_.longer_than_next && here_.longer_than_before && !becomes_tone(), Row::tension_slow);
    when(here_.phrase_end && !becomes_tone(), Row::tension_ends_phrase);
    when(here_.rest_after && !becomes_tone(), Row::tension_before_rest);
    when(here_.weight >= downbeat, Row::tension_on_downbeat);
    when(here_.phrase_start, Row::tension_after_rest);
    tension_motion();
    when(here_.out && stronger_than_next(), Row::tension_on_strong_place);
    when(here_.on_beat, Row::tension_on_beat);
    when(is_mild_colour(), Row::tension_sixth_or_ninth);
    when(reading.colour == Colour::listed && here_.above_root == sixth, Row::tension_sixth);
    when(here_.above_root == minor_third, Row::tension_blue_third);
    when(here_.above_root == fourth, Row::tension_eleventh);
    when(here_.riff, Row::tension_riff);
    when(here_.weight == 0, Row::tension_triplet);
    when(falls(here_.out), Row::tension_down);
    when(here_.longer_than_before && !becomes_tone(), Row::tension_slows);
    when(here_.is_tone_of_previous, Row::tension_was_tone);
    when(falls_from_fourth_to_third(), Row::tension_fourth_to_third);
    tension_colour(reading.colour);
  }

  /// A natural fourth and right after it the major third below it, over one chord.
  [[nodiscard]] bool falls_from_fourth_to_third() const {
    if (here_.above_root != fourth || here_.same_after || !here_.out || here_.out->semitones != -1) return false;
    const NoteContext& after = chain_[index_ + 1];
    return after.chord == here_.chord && after.is_tone;
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
    when(lingers(here_), Row::passing_lingers);
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
    when(!here_.same_before && chain_[index_ - 1].is_tone && chain_[index_ - 1].next == here_.next,
         Row::neighbour_of_tone);
    when(here_.two_beats && here_.longer_than_next, Row::neighbour_two_beats);
  }

  void enclosure(const Reading& reading) {
    const bool last = reading.part + 1 == reading.parts && reading.motive != Motive::opening_enclosure;
    visit_(Row::enclosure);
    when(reading.parts == 3, Row::enclosure_of_three);
    when(last && is_half_step(here_.out), Row::enclosure_half_step);
    when(last && weaker_than_next(), Row::enclosure_lands_strong);
    when(here_.held, Row::enclosure_held);
    when(here_.on_beat && reading.part == 0, Row::enclosure_on_beat);
    when(last && is_third_or_more(here_.in), Row::enclosure_wide);
    const bool from_above = last && closes_in_from_above(reading);
    when(from_above, Row::enclosure_from_above);
    when(from_above && reading.parts == 3 && is_half_step(here_.in), Row::enclosure_above_and_two_below);
  }

  /// On a chord tone, or one of the next chord less than a beat before it: the last side lies a half step below, and
  /// none takes a beat or is longer than the one before it.
  [[nodiscard]] bool closes_in_from_above(const Reading& reading) const {
    if (here_.out->semitones != 1) return false;
    if (!stands(chain_[index_ + 1])) return false;
    const std::size_t before = reading.motive == Motive::closing_enclosure ? 1 : reading.part;
    for (std::size_t i = index_ - before; i < index_; ++i)
      if (chain_[i].length >= chain_[i].beat || chain_[i + 1].length > chain_[i].length) return false;
    return true;
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
    when(here_.out->semitones < 0, Row::approach_from_above);
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
    when(here_.previous && here_.since_change == 0, Row::appoggiatura_at_change);
    when(falls_from_fourth_to_third(), Row::appoggiatura_fourth_to_third);
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
    when(here_.in && std::abs(here_.in->semitones) >= fourth, Row::outside_wide_leap);
    when(is_step(here_.in) && is_step(here_.out), Row::outside_by_step);
    when(!is_step(here_.in) && !is_step(here_.out), Row::outside_by_leap);
  }

  const Chain& chain_;
  std::size_t index_;
  const NoteContext& here_;
  Visit& visit_;
};

template <typename Choose>
int sum_of(Choose choose) {
  int sum = 0;
  auto add = [&sum](Row row) { sum += fitted_values[static_cast<std::size_t>(row)]; };
  choose(add);
  return sum;
}

}  // namespace

std::vector<Row> rows_for(const Reading& reading, const Chain& chain, std::size_t index) {
  constexpr std::size_t usual_rows = 32;
  std::vector<Row> rows;
  rows.reserve(usual_rows);
  auto keep = [&rows](Row row) { rows.push_back(row); };
  RowChooser(chain, index, keep).choose(reading);
  return rows;
}

int reading_score(const Reading& reading, const Chain& chain, std::size_t index) {
  return sum_of([&](auto& add) { RowChooser(chain, index, add).choose(reading); });
}

}  // namespace insideline
