#include "io/audio/heard_line.hpp"

#include "io/audio/attack_evidence.hpp"
#include "io/audio/count_in.hpp"
#include "io/audio/moments.hpp"
#include "io/audio/note_path.hpp"
#include "io/audio/raw_notes.hpp"
#include "io/read_result.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <deque>
#include <numbers>

namespace insideline::io {
namespace {

constexpr std::size_t warm_up =
    5'000;  // moments, some 30 s, that level and tuning are taken from before any is weighed
constexpr std::size_t path_block = 256;
constexpr std::size_t furthest_back = 40;  // moments that a note may begin before its pitch is heard
constexpr float some_attack = 0.25F;
constexpr float sure_attack = 0.75F;
constexpr float silence_db = -42.0F;  // against the loudest moment: ghosted notes lie 15 to 25 below (common practice)
constexpr float silence_blur_db = 2.0F;
constexpr float soft_beginning_db = 15.0F;  // below where the pitch is clear, a note has not begun
constexpr float noise_of_attack_db = 6.0F;  // loud, and neither pitch: the noise of the new note
constexpr float old_pitch_gone = 0.5F;
constexpr std::size_t clear_rest = 30;           // moments without a note: more than the noise between two
constexpr std::size_t attack_before_pitch = 12;  // moments: half a window, and the old note's end
constexpr std::size_t attack_after_pitch = 5;
constexpr float first_sign = 0.08F;  // how well a moment fits the pitch that is to come

/// Semitones above A4 = 440 Hz that the pitches cluster at: the angle of their mean on a circle of one semitone.
float tuning_of(const std::deque<Moment>& moments) {
  constexpr float clear = 0.5F;
  double x = 0.0;
  double y = 0.0;
  for (const Moment& moment : moments) {
    if (moment.count == 0 || moment.candidates.front().probability < clear) continue;
    const double angle = 2.0 * std::numbers::pi * static_cast<double>(moment.candidates.front().midi);
    x += std::cos(angle);
    y += std::sin(angle);
  }
  return x == 0.0 && y == 0.0 ? 0.0F : static_cast<float>(std::atan2(y, x) / (2.0 * std::numbers::pi));
}

/// A recording on its way to notes, moment after moment; what no later step needs is let go.
class LineListener {
 public:
  LineListener(SoundFile& file, const ListeningRange& range)
      : sound_(file), moments_(sound_, range.lowest_midi, range.highest_midi), range_(range) {}

  HeardLine listen() {
    while (auto moment = moments_.next()) {
      near_.push_back(*moment);
      if (!path_ && near_.size() >= warm_up) begin_path();
      while (path_ && weighed_ + attack_surroundings < first_ + near_.size()) weigh_next();
    }
    if (!path_) begin_path();
    while (weighed_ < first_ + near_.size()) weigh_next();
    take_steps(true);
    finish();
    return std::move(line_);
  }

 private:
  [[nodiscard]] const Moment& at(std::size_t moment) const { return near_[moment - first_]; }
  [[nodiscard]] float attack_at(std::size_t moment) const { return attacks_[moment - first_]; }

  void begin_path() {
    tuning_ = tuning_of(near_);
    for (const Moment& moment : near_) loudest_db_ = std::max(loudest_db_, moment.attack.level_db);
    path_.emplace(PathSettings{range_.lowest_midi, range_.highest_midi, tuning_});
  }

  void weigh_next() {
    const std::size_t place = weighed_ - first_;
    const Moment& moment = near_[place];
    loudest_db_ = std::max(loudest_db_, moment.attack.level_db);
    const float over = moment.attack.level_db - (loudest_db_ + silence_db);
    const float sounds = 1.0F / (1.0F + std::exp(-over / silence_blur_db));
    attacks_.push_back(attack_evidence(near_, place));
    path_->add(moment, attacks_.back(), sounds);
    count_pitched(moment, over);
    constexpr std::size_t most_clicks = 64;
    if (clicks_.size() < most_clicks && is_click(near_, place, attacks_.back(), loudest_db_))
      clicks_.push_back(weighed_);
    ++weighed_;
    if (weighed_ % path_block == 0) take_steps(false);
  }

  void count_pitched(const Moment& moment, float over_silence_db) {
    if (over_silence_db < 0.0F) return;
    ++sounding_;
    float sum = 0.0F;
    for (std::size_t i = 0; i < moment.count; ++i) sum += moment.candidates.at(i).probability;
    pitched_ += static_cast<double>(std::min(sum, 1.0F));
  }

  void take_steps(bool at_end) {
    for (const PathStep& step : path_->certain(at_end)) {
      if (open_ && (!step.midi || step.begins_note)) open_ = false;
      if (step.midi && step.begins_note) begin_note(*step.midi);
      if (open_) {
        RawNote& note = pieces_.back();
        note.end = stepped_ + 1;
        fit_sum_ += fit(at(stepped_), static_cast<float>(note.midi) + tuning_);
        note.fit = fit_sum_ / static_cast<float>(note.end - seen_from_);
      }
      ++stepped_;
    }
    constexpr std::size_t kept = furthest_back + attack_surroundings + 2;
    while (first_ + kept < stepped_) {
      near_.pop_front();
      attacks_.pop_front();
      ++first_;
    }
  }

  void begin_note(int midi) {
    const std::size_t begin = beginning_of(stepped_, midi);
    if (!pieces_.empty() && pieces_.back().end > begin) pieces_.back().end = begin;
    pieces_.push_back({begin, stepped_, midi, strongest_attack(begin, stepped_ + 2), 0.0F});
    open_ = true;
    fit_sum_ = 0.0F;
    seen_from_ = stepped_;
  }

  [[nodiscard]] float strongest_attack(std::size_t from, std::size_t to) const {
    float strongest = 0.0F;
    for (std::size_t i = from; i < std::min(to, weighed_); ++i) strongest = std::max(strongest, attack_at(i));
    return strongest;
  }

  /// Back from where the path begins the note, as long as its pitch is there, or the old pitch no longer and noise
  /// still; out of silence to where the sound begins to grow. An attack near there is the beginning; one that comes
  /// when the pitch has long been heard is not.
  [[nodiscard]] std::size_t beginning_of(std::size_t seen, int midi) const {
    std::size_t earliest = seen > first_ + furthest_back ? seen - furthest_back : first_;
    if (!pieces_.empty()) earliest = std::min(seen, std::max(earliest, pieces_.back().begin + 4));
    const bool was_silent = pieces_.empty() || pieces_.back().end + clear_rest < seen;
    const bool is_same_again = !pieces_.empty() && pieces_.back().midi == midi;
    if (is_same_again) earliest = std::min(seen, std::max(earliest, pieces_.back().end));
    std::size_t begin = seen;
    while (begin > earliest && belongs(begin - 1, seen, midi, was_silent)) --begin;
    if (was_silent) begin = plucked(begin, earliest, seen);
    const std::size_t attack =
        strongest_attack_near(std::max(earliest + attack_before_pitch, begin) - attack_before_pitch,
                              std::min(begin + attack_after_pitch, weighed_));
    return attack_at(attack) >= some_attack ? std::min(attack, seen) : begin;
  }

  /// A plucked note has hardly a pitch at first: back to the pluck, if it has sounded on since.
  [[nodiscard]] std::size_t plucked(std::size_t begin, std::size_t earliest, std::size_t seen) const {
    for (std::size_t i = begin + 1; i-- > earliest;) {
      if (at(seen).attack.level_db - at(i).attack.level_db > noise_of_attack_db) break;
      if (attack_at(i) >= sure_attack) return i;
    }
    return begin;
  }

  /// The end of a note may look like an attack, but the level falls after it.
  [[nodiscard]] std::size_t strongest_attack_near(std::size_t from, std::size_t to) const {
    const auto falls_after = [&](std::size_t moment) {
      return at(moment).attack.level_db - at(std::min(moment + 2, weighed_ - 1)).attack.level_db > noise_of_attack_db;
    };
    std::size_t strongest = to - 1;
    for (std::size_t i = to; i-- > from;)
      if (attack_at(i) > attack_at(strongest) && !falls_after(i)) strongest = i;
    return strongest;
  }

  /// Whether a moment before `seen` is of the note already.
  [[nodiscard]] bool belongs(std::size_t moment, std::size_t seen, int midi, bool was_silent) const {
    const float below = at(seen).attack.level_db - at(moment).attack.level_db;
    const bool has_pitch = fit(at(moment), static_cast<float>(midi) + tuning_) > first_sign;
    const bool grows = at(moment).attack.level_db <= at(moment + 1).attack.level_db;
    const bool begins_to_grow = grows && below < soft_beginning_db;
    if (was_silent) return has_pitch || begins_to_grow;
    const bool is_old_gone = fit(at(moment), static_cast<float>(pieces_.back().midi) + tuning_) < old_pitch_gone;
    const bool is_noise_of_attack = below < noise_of_attack_db && attack_at(moment + 1) < some_attack;
    return is_old_gone && ((has_pitch && below < soft_beginning_db) || begins_to_grow || is_noise_of_attack);
  }

  /// A click with a pitch was heard as a note. The count-in ends where a note is no click.
  std::vector<RawNote> without_clicks(std::vector<RawNote> notes) {
    constexpr std::size_t longest_click = 30;
    const std::vector<std::size_t> even = count_in(clicks_);
    const auto is_counted = [&](const RawNote& note) {
      return note.end - note.begin <= longest_click && std::ranges::any_of(even, [&](std::size_t click) {
               return note.begin <= click + 4 && click <= note.begin + 8;
             });
    };
    const auto first = std::find_if_not(notes.begin(), notes.end(), is_counted);
    std::vector<std::size_t> before;
    for (const std::size_t click : even)
      if (first == notes.end() || click + 4 < first->begin) before.push_back(click);
    constexpr std::size_t fewest = 3;
    if (before.size() < fewest) return notes;
    for (const std::size_t click : before)
      line_.clicks.push_back(static_cast<double>(click) * moments_.seconds_between());
    notes.erase(notes.begin(), first);
    return notes;
  }

  void finish() {
    const double apart = moments_.seconds_between();
    for (const RawNote& note : without_clicks(joined(pieces_)))
      line_.notes.push_back({static_cast<double>(note.begin) * apart, static_cast<double>(note.end) * apart, note.midi,
                             std::min(note.fit, 1.0F)});
    line_.tuning_cents = 100.0 * static_cast<double>(tuning_);
    line_.levels = sound_.levels();
    line_.pitched_share = sounding_ == 0 ? 0.0 : pitched_ / static_cast<double>(sounding_);
  }

  MonoSound sound_;
  Moments moments_;
  ListeningRange range_;
  std::optional<NotePath> path_;
  float tuning_ = 0.0F;
  float loudest_db_ = -100.0F;
  std::deque<Moment> near_;    // the moments from `first_` on
  std::deque<float> attacks_;  // from `first_` to `weighed_`
  std::size_t first_ = 0;
  std::size_t weighed_ = 0;  // the next moment to go into the path
  std::size_t stepped_ = 0;  // the next moment whose step is not certain
  std::vector<RawNote> pieces_;
  std::vector<std::size_t> clicks_;
  bool open_ = false;  // the last piece goes on
  float fit_sum_ = 0.0F;
  std::size_t seen_from_ = 0;
  std::size_t sounding_ = 0;
  double pitched_ = 0.0;
  HeardLine line_;
};

}  // namespace

HeardLine heard_line(SoundFile& file, const ListeningRange& range) { return LineListener(file, range).listen(); }

}  // namespace insideline::io
