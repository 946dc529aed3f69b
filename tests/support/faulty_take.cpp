#include "tests/support/faulty_take.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <random>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace insideline::tests {
namespace {

constexpr double quarters_a_bar = 4.0;

/// A note on its way to being played.
struct Stroke {
  int pitch = 60;
  double page = 0.0;      ///< where it stands on the page, in quarters
  double quarters = 0.0;  ///< when it comes, in quarters of an even tempo
};

double begin_of(int bar) { return quarters_a_bar * (bar - 1); }

/// Does one fault after the other to the strokes.
class Player {
 public:
  Player(const Solo& sheet, unsigned seed) : engine_(seed) {
    for (const Note& note : sheet.notes)
      strokes_.push_back({midi_number(note.pitch), to_double(note.onset), to_double(note.onset)});
  }

  void commit(const std::string& fault) {
    std::istringstream words(fault);
    std::string what;
    words >> what;
    if (what == "only" || what == "skip" || what == "rest") {
      std::string bars;
      words >> bars;
      const int first = std::stoi(bars);
      const int last = std::stoi(bars.substr(bars.find('-') + 1));
      if (what == "only") keep_only(begin_of(first), begin_of(last + 1));
      if (what == "rest") leave_out(begin_of(first), begin_of(last + 1));
      if (what == "skip") {
        leave_out(begin_of(first), begin_of(last + 1));
        move_from(begin_of(last + 1), -begin_of(last + 1) + begin_of(first));
      }
      return;
    }
    double number = 0.0;
    double second = 0.0;
    words >> number >> second;
    if (!change_course(what, number, second) && !change_notes(what, static_cast<int>(number), second) &&
        !change_time(what, number, second))
      throw std::invalid_argument("no such fault: " + fault);
  }

  [[nodiscard]] Solo take() {
    Solo solo;
    double seconds = 1.0;
    double at = 0.0;
    const double end = strokes_.empty() ? 1.0 : std::max(1.0, strokes_.back().quarters);
    for (std::size_t i = 0; i < strokes_.size(); ++i) {
      for (; at < strokes_[i].quarters; at += step) seconds += step * 60.0 / tempo_at(at, end);
      Note note;
      note.onset = Beats(static_cast<std::int64_t>(i), 2);
      note.duration = Beats(1, 2);
      note.pitch = spelled_pitch(strokes_[i].pitch, usual_name(strokes_[i].pitch));
      solo.notes.push_back(note);
      PerformedNote performed;
      performed.onset_seconds = seconds + swung(strokes_[i], at, end) + late_ + spread_ * unevenness();
      if (i > 0)
        performed.onset_seconds = std::max(performed.onset_seconds, solo.performed.back().onset_seconds + 0.01);
      solo.performed.push_back(performed);
    }
    return solo;
  }

 private:
  static constexpr double step = 1.0 / 64.0;

  static NoteName usual_name(int pitch) {
    static constexpr NoteName names[] = {{Step::c, 0},  {Step::d, -1}, {Step::d, 0},  {Step::e, -1},
                                         {Step::e, 0},  {Step::f, 0},  {Step::f, 1},  {Step::g, 0},
                                         {Step::a, -1}, {Step::a, 0},  {Step::b, -1}, {Step::b, 0}};
    return names[pitch % 12];
  }

  bool change_course(const std::string& what, double number, double second) {
    const double begin = begin_of(static_cast<int>(number));
    if (what == "stop") move_from(begin, second);
    if (what == "early") {
      std::erase_if(strokes_,
                    [&](const Stroke& stroke) { return stroke.page < begin && stroke.page >= begin - second; });
      move_from(begin, -second);
    }
    if (what == "again") play_again(begin + quarters_a_bar, begin_of(static_cast<int>(second)));
    if (what == "twice") play_again(strokes_.back().page + 1.0, 0.0);
    if (what == "backwards") {
      for (std::size_t i = 0; i < strokes_.size() / 2; ++i)
        std::swap(strokes_[i].pitch, strokes_[strokes_.size() - 1 - i].pitch);
    }
    return what == "stop" || what == "early" || what == "again" || what == "twice" || what == "backwards";
  }

  bool change_notes(const std::string& what, int count, double second) {
    if (what == "up") {
      for (Stroke& stroke : strokes_) stroke.pitch += count;
    } else if (what == "wrong") {
      for (const std::size_t i : some(count)) strokes_[i].pitch += i % 2 == 0 ? 1 : -1;
    } else if (what == "wrong-in") {
      int left = static_cast<int>(second);
      for (Stroke& stroke : strokes_)
        if (stroke.page >= begin_of(count) && left-- > 0) stroke.pitch += 1;
    } else if (what == "octave") {
      for (const std::size_t i : some(count)) strokes_[i].pitch += 12;
    } else if (what == "missing") {
      std::vector<std::size_t> lost = some(count);
      std::ranges::sort(lost, std::ranges::greater{});
      for (const std::size_t i : lost) strokes_.erase(strokes_.begin() + static_cast<std::ptrdiff_t>(i));
    } else if (what == "added") {
      std::vector<std::size_t> after = some(count);
      std::ranges::sort(after, std::ranges::greater{});
      for (const std::size_t i : after) {
        Stroke extra = strokes_[i];
        extra.pitch += 1;
        extra.quarters += 0.25;
        strokes_.insert(strokes_.begin() + static_cast<std::ptrdiff_t>(i) + 1, extra);
      }
    } else {
      return false;
    }
    return true;
  }

  bool change_time(const std::string& what, double number, double second) {
    if (what == "tempo") {
      start_bpm_ = number;
      end_bpm_ = second;
    } else if (what == "jump") {
      jump_from_ = begin_of(static_cast<int>(number));
      jump_ = 1.0 + second / 100.0;
    } else if (what == "wave") {
      wave_ = number / 100.0;
    } else if (what == "uneven") {
      spread_ = number / 1000.0;
    } else if (what == "swing") {
      swing_ = number;
    } else if (what == "late") {
      late_ = number / 1000.0;
    } else {
      return false;
    }
    return true;
  }

  [[nodiscard]] double tempo_at(double quarters, double end) const {
    double bpm = start_bpm_ + (end_bpm_ - start_bpm_) * quarters / end;
    bpm *= 1.0 + wave_ * std::sin(2.0 * std::numbers::pi * quarters / (8.0 * quarters_a_bar));
    return quarters >= jump_from_ ? bpm * jump_ : bpm;
  }

  [[nodiscard]] double swung(const Stroke& stroke, double at, double end) const {
    const bool off_beat = std::abs(stroke.page - std::floor(stroke.page) - 0.5) < 0.01;
    return off_beat ? (swing_ / (1.0 + swing_) - 0.5) * 60.0 / tempo_at(at, end) : 0.0;
  }

  /// Nearly Gaussian, spread 1: the sum of four even ones, as standard distributions differ between libraries.
  double unevenness() {
    double sum = 0.0;
    for (int i = 0; i < 4; ++i) sum += static_cast<double>(engine_()) / static_cast<double>(std::mt19937::max()) - 0.5;
    return sum * std::sqrt(3.0);
  }

  /// So many notes, never two side by side.
  std::vector<std::size_t> some(int count) {
    std::vector<std::size_t> found;
    while (found.size() < static_cast<std::size_t>(count)) {
      const std::size_t note = 1 + engine_() % (strokes_.size() - 2);
      const bool near =
          std::ranges::any_of(found, [&](std::size_t other) { return other + 1 >= note && note + 1 >= other; });
      if (!near) found.push_back(note);
    }
    return found;
  }

  void leave_out(double begin, double end) {
    std::erase_if(strokes_, [&](const Stroke& stroke) { return stroke.page >= begin && stroke.page < end; });
  }

  void keep_only(double begin, double end) {
    std::erase_if(strokes_, [&](const Stroke& stroke) { return stroke.page < begin || stroke.page >= end; });
  }

  void move_from(double page, double by) {
    for (Stroke& stroke : strokes_)
      if (stroke.page >= page) stroke.quarters += by;
  }

  void play_again(double after, double from) {
    std::size_t end = strokes_.size();
    while (end > 0 && strokes_[end - 1].page >= after) --end;
    std::size_t begin = strokes_.size();
    while (begin > 0 && strokes_[begin - 1].page >= from) --begin;
    std::vector<Stroke> played(strokes_.begin(), strokes_.begin() + static_cast<std::ptrdiff_t>(end));
    for (std::size_t i = begin; i < strokes_.size(); ++i) {
      played.push_back(strokes_[i]);
      played.back().quarters += after - from + quarters_a_bar;
    }
    strokes_ = std::move(played);
  }

  std::vector<Stroke> strokes_;
  std::mt19937 engine_;  // NOLINT(cert-msc51-cpp): a take must be the same each time
  double start_bpm_ = 120.0;
  double end_bpm_ = 120.0;
  double jump_from_ = 1e9;
  double jump_ = 1.0;
  double wave_ = 0.0;
  double spread_ = 0.005;
  double swing_ = 1.0;
  double late_ = 0.0;
};

}  // namespace

Solo faulty_take(const Solo& sheet, std::string_view faults, unsigned seed) {
  Player player(sheet, seed);
  std::istringstream list{std::string(faults)};
  for (std::string fault; std::getline(list, fault, ';');)
    if (fault.find_first_not_of(" -") != std::string::npos) player.commit(fault);
  return player.take();
}

}  // namespace insideline::tests
