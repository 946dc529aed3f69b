#include "io/musicxml/road_map.hpp"

#include "io/musicxml/endings.hpp"

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
        before_(signs.size()),
        jump_taken_(signs.size(), false),
        has_jumps_(std::ranges::any_of(signs, [](const RoadSigns& s) { return s.da_capo || !s.dal_segno.empty(); })) {
    for (std::size_t i = 1; i < before_.size(); ++i) before_[i] = i - 1;
  }

  PlayingOrder play() {
    constexpr std::size_t most_bars = 20'000;
    while (next_ < signs_.size() && !finished_) {
      if (leads_group(next_)) enter(next_);
      if (skip_ending(next_)) continue;
      enter(next_);
      if (order_.measures.size() >= std::max(most_bars, signs_.size())) {
        order_.endless = true;
        break;
      }
      order_.measures.push_back(next_);
      order_.before.push_back(before_[next_]);
      ++visits_[next_];
      leave(next_);
    }
    order_.renumbered_endings = std::move(endings_.renumbered);
    find_idle_codas();
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
    const auto after = std::ranges::upper_bound(endings_.all, measure, {}, &Ending::first);
    if (after == endings_.all.begin()) return nullptr;
    const Ending& ending = *std::prev(after);
    return measure < ending.end ? &ending : nullptr;
  }

  /// False in a later ending: a repeat that begins with it begins only after this ending was chosen.
  bool leads_group(std::size_t measure) const {
    const Ending* const ending = ending_with(measure);
    return ending == nullptr || ending->first != measure || ending->group_first == measure;
  }

  /// Whether the ending is chosen by the passes of the section being played; not in one that is a section itself.
  bool is_chosen_by_pass(const Ending& ending) const { return ending.group_first >= section_start_; }

  int pass_at(const Ending& ending) const {
    if (!repeats_off_ || ending.after_jump) return pass_;
    return last_ending_ > 0 ? last_ending_ : ending.group_passes;
  }

  /// Moves past an ending that this pass does not play.
  bool skip_ending(std::size_t measure) {
    const Ending* const ending = ending_with(measure);
    if (ending == nullptr || ending->first != measure || !is_chosen_by_pass(*ending)) return false;
    if (has_pass(*ending, pass_at(*ending))) return false;
    next_ = ending->end;
    if (next_ < before_.size()) before_[next_] = before_[measure];
    if (next_ == ending->group_end) begin_section(next_);
    return true;
  }

  void leave(std::size_t measure) {
    next_ = measure + 1;
    if (take_repeat(measure) || take_jump(measure)) return;
    if (next_ < before_.size()) before_[next_] = measure;
    const Ending* const ending = ending_with(measure);
    const bool ends_ending = ending != nullptr && ending->end == next_;
    const bool last = jumped_ && ends_ending && last_ending_ > 0 && has_pass(*ending, last_ending_);
    if (last || (signs_[measure].fine && jumped_)) finished_ = true;
    const bool chosen = ends_ending && is_chosen_by_pass(*ending);
    if (chosen ? ending->group_end == next_ : signs_[measure].backward_repeat.has_value()) begin_section(next_);
  }

  bool take_repeat(std::size_t measure) {
    const auto& repeat = signs_[measure].backward_repeat;
    if (!repeat || (repeats_off_ && !repeat->after_jump)) return false;
    const Ending* const ending = ending_with(measure);
    const int passes = ending != nullptr && is_chosen_by_pass(*ending) ? ending->group_passes : repeat->times;
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
      coda_taken_ = true;
      return true;
    }
    const bool back = signs.da_capo || !signs.dal_segno.empty();
    if (!back || jump_taken_[measure] || !is_time_for(measure)) return false;
    jump_taken_[measure] = true;
    const auto place = signs.dal_segno.empty() ? std::optional<std::size_t>(0) : target(segnos_, signs.dal_segno);
    if (!go_to(measure, place)) return false;
    jumped_ = repeats_off_ = true;
    last_ending_ = signs.last_ending;
    return true;
  }

  /// Coda signs that nothing leads to.
  void find_idle_codas() {
    if (has_jumps_ || coda_taken_) return;
    for (std::size_t i = 0; i < signs_.size(); ++i)
      if (!signs_[i].coda.empty() || !signs_[i].to_coda.empty()) order_.idle_codas.push_back(i);
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
  Endings endings_;
  Signs segnos_;
  Signs codas_;
  std::vector<int> visits_;
  std::vector<std::optional<std::size_t>> before_;  ///< what led to each measure, reading on, when it last did
  std::vector<bool> jump_taken_;
  bool has_jumps_;
  PlayingOrder order_;
  std::size_t next_ = 0;
  std::size_t section_start_ = 0;
  int pass_ = 1;
  int last_ending_ = 0;  ///< the pass whose ending is the end of the piece; 0 for none
  bool coda_taken_ = false;
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
  if (signs.last_ending == 0) signs.last_ending = other.last_ending;
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
