#include "io/musicxml/road_map.hpp"

#include <algorithm>
#include <iterator>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>

namespace insideline::io {
namespace {

/// A stretch of measures that is played in some passes only.
struct Ending {
  std::size_t first = 0;
  std::size_t end = 0;  ///< one past its last measure
  std::vector<int> passes;
  int first_pass = 1;  ///< the lowest pass among this ending and its neighbours
  int last_pass = 1;   ///< the highest pass among this ending and its neighbours
  bool alone = true;   ///< no other ending stands beside it
};

bool has_pass(const Ending& ending, int pass) { return std::ranges::find(ending.passes, pass) != ending.passes.end(); }

/// Where the ending that begins at `first` ends: at its stop, its repeat, or where another begins.
std::size_t end_of_ending(std::span<const RoadSigns> signs, std::size_t first) {
  for (std::size_t i = first; i < signs.size(); ++i) {
    if (i > first && (!signs[i].ending_start.empty() || signs[i].forward_repeat)) return i;
    if (signs[i].ending_stop || signs[i].backward_repeat) return i + 1;
  }
  // An ending that nothing closes is one measure long: to swallow the rest of the piece is worse.
  return first + 1;
}

/// Two endings side by side belong to one repeat.
void join(Ending& a, Ending& b) {
  a.alone = b.alone = false;
  a.first_pass = b.first_pass = std::min(a.first_pass, b.first_pass);
  a.last_pass = b.last_pass = std::max(a.last_pass, b.last_pass);
}

std::vector<Ending> find_endings(std::span<const RoadSigns> signs) {
  std::vector<Ending> endings;
  for (std::size_t i = 0; i < signs.size(); ++i) {
    if (signs[i].ending_start.empty()) continue;
    const std::vector<int>& passes = signs[i].ending_start;
    const auto [lowest, highest] = std::ranges::minmax_element(passes);
    endings.push_back({i, end_of_ending(signs, i), passes, *lowest, *highest, true});
  }
  for (std::size_t i = 1; i < endings.size(); ++i)
    if (endings[i].first == endings[i - 1].end) join(endings[i - 1], endings[i]);
  for (std::size_t i = endings.size(); i-- > 1;)
    if (endings[i].first == endings[i - 1].end) join(endings[i - 1], endings[i]);
  return endings;
}

/// The first measure that bears each name.
using Signs = std::map<std::string_view, std::size_t>;

Signs find_signs(std::span<const RoadSigns> signs, std::string RoadSigns::*name) {
  Signs found;
  for (std::size_t i = 0; i < signs.size(); ++i)
    if (const std::string& own = signs[i].*name; !own.empty()) found.emplace(own, i);
  return found;
}

/// Walks the map once. `next` is the measure that is played next.
class Walk {
 public:
  explicit Walk(std::span<const RoadSigns> signs)
      : signs_(signs),
        endings_(find_endings(signs)),
        segnos_(find_signs(signs, &RoadSigns::segno)),
        codas_(find_signs(signs, &RoadSigns::coda)),
        visits_(signs.size(), 0),
        jump_taken_(signs.size(), false),
        has_jumps_(std::ranges::any_of(signs, [](const RoadSigns& s) { return s.da_capo || !s.dal_segno.empty(); })) {}

  PlayingOrder play() {
    constexpr std::size_t most_bars = 20'000;
    while (next_ < signs_.size() && !finished_) {
      enter(next_);
      if (skip_ending(next_)) continue;
      if (order_.measures.size() >= std::max(most_bars, signs_.size())) {
        order_.endless = true;
        break;
      }
      order_.measures.push_back(next_);
      ++visits_[next_];
      leave(next_);
    }
    return std::move(order_);
  }

 private:
  void enter(std::size_t measure) {
    if (!signs_[measure].forward_repeat || measure == section_start_) return;
    begin_section(measure);
  }

  void begin_section(std::size_t measure) {
    section_start_ = measure;
    pass_ = 1;
  }

  const Ending* ending_with(std::size_t measure) const {
    const auto after = std::ranges::upper_bound(endings_, measure, {}, &Ending::first);
    if (after == endings_.begin()) return nullptr;
    const Ending& ending = *std::prev(after);
    return measure < ending.end ? &ending : nullptr;
  }

  /// Moves past an ending that this pass does not play.
  bool skip_ending(std::size_t measure) {
    const Ending* const ending = ending_with(measure);
    if (ending == nullptr || ending->first != measure) return false;
    if (ending->first_pass > 1) return false;  // a second ending without a first: there is nothing to choose
    const int pass = repeats_off_ ? ending->last_pass : pass_;
    if (has_pass(*ending, pass)) return false;
    next_ = ending->end;
    return true;
  }

  void leave(std::size_t measure) {
    next_ = measure + 1;
    if (take_repeat(measure) || take_jump(measure)) return;
    if (signs_[measure].fine && jumped_) finished_ = true;
    const Ending* const ending = ending_with(measure);
    const bool last_of_endings = ending != nullptr && ending->end == measure + 1 && ending_with(measure + 1) == nullptr;
    if (signs_[measure].backward_repeat || last_of_endings) begin_section(measure + 1);
  }

  bool take_repeat(std::size_t measure) {
    const auto& repeat = signs_[measure].backward_repeat;
    if (!repeat || (repeats_off_ && !repeat->after_jump)) return false;
    const Ending* const ending = ending_with(measure);
    const int passes = ending == nullptr ? repeat->times : ending->last_pass + (ending->alone ? 1 : 0);
    if (pass_ >= passes) return false;
    ++pass_;
    next_ = section_start_;
    return true;
  }

  bool is_time_for(std::size_t measure) const {
    const auto& passes = signs_[measure].time_only;
    return passes.empty() || std::ranges::find(passes, visits_[measure]) != passes.end();
  }

  bool take_jump(std::size_t measure) {
    const RoadSigns& signs = signs_[measure];
    const bool way_to_coda = !signs.to_coda.empty() && (jumped_ || (!has_jumps_ && visits_[measure] > 1));
    if (way_to_coda && is_time_for(measure)) {
      if (!go_to(measure, target(codas_, signs.to_coda))) return false;
      repeats_off_ = false;  // what follows has not been played yet
      return true;
    }
    const bool back = signs.da_capo || !signs.dal_segno.empty();
    if (!back || jump_taken_[measure] || !is_time_for(measure)) return false;
    jump_taken_[measure] = true;
    const auto place = signs.dal_segno.empty() ? std::optional<std::size_t>(0) : target(segnos_, signs.dal_segno);
    if (!go_to(measure, place)) return false;
    jumped_ = repeats_off_ = true;
    return true;
  }

  bool go_to(std::size_t measure, std::optional<std::size_t> place) {
    if (!place) {
      if (order_.lost_jumps.empty() || visits_[measure] == 1) order_.lost_jumps.push_back(measure);
      return false;
    }
    next_ = *place;
    begin_section(*place);
    return true;
  }

  /// The measure with this name, or, where names do not pair up, the only one that has any.
  static std::optional<std::size_t> target(const Signs& signs, std::string_view wanted) {
    if (const auto found = signs.find(wanted); found != signs.end()) return found->second;
    return signs.size() == 1 ? std::optional(signs.begin()->second) : std::nullopt;
  }

  std::span<const RoadSigns> signs_;
  std::vector<Ending> endings_;
  Signs segnos_;
  Signs codas_;
  std::vector<int> visits_;
  std::vector<bool> jump_taken_;
  bool has_jumps_;
  PlayingOrder order_;
  std::size_t next_ = 0;
  std::size_t section_start_ = 0;
  int pass_ = 1;
  bool jumped_ = false;
  bool repeats_off_ = false;
  bool finished_ = false;
};

/// Gives printed signs that say nothing about sound the meaning they have on every chart: a
/// segno is where to jump to, the last coda too, and a coda sign before it is where to jump from.
std::vector<RoadSigns> with_printed_signs(std::vector<RoadSigns> read) {
  const bool has_coda = std::ranges::any_of(read, [](const RoadSigns& s) { return !s.coda.empty(); });
  bool last_seen = has_coda;
  for (std::size_t i = read.size(); i-- > 0;) {
    if (read[i].segno_printed && read[i].segno.empty()) read[i].segno = "segno";
    if (!read[i].coda_printed) continue;
    if (!last_seen && read[i].to_coda.empty())
      read[i].coda = "coda";
    else if (read[i].to_coda.empty() && read[i].coda.empty())
      read[i].to_coda = "coda";
    last_seen = true;
  }
  return read;
}

}  // namespace

void add_missing(RoadSigns& signs, const RoadSigns& other) {
  const auto add_text = [](std::string& text, const std::string& more) {
    if (text.empty()) text = more;
  };
  signs.forward_repeat |= other.forward_repeat;
  if (!signs.backward_repeat) signs.backward_repeat = other.backward_repeat;
  if (signs.ending_start.empty()) signs.ending_start = other.ending_start;
  if (signs.time_only.empty()) signs.time_only = other.time_only;
  signs.ending_stop |= other.ending_stop;
  signs.da_capo |= other.da_capo;
  signs.fine |= other.fine;
  signs.segno_printed |= other.segno_printed;
  signs.coda_printed |= other.coda_printed;
  add_text(signs.segno, other.segno);
  add_text(signs.coda, other.coda);
  add_text(signs.dal_segno, other.dal_segno);
  add_text(signs.to_coda, other.to_coda);
}

PlayingOrder playing_order(std::vector<RoadSigns> signs) {
  const std::vector<RoadSigns> read = with_printed_signs(std::move(signs));
  return Walk(read).play();
}

}  // namespace insideline::io
