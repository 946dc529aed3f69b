#include "io/changes/road_map.hpp"

#include <algorithm>
#include <optional>
#include <set>
#include "analyzer/shortened.hpp"

#include <fmt/format.h>

namespace insideline::io {
namespace {

/// Bars `first` to `end` - 1.
struct Stretch {
  std::size_t first = 0;
  std::size_t end = 0;
};

struct Ending {
  Stretch bars;
  std::vector<int> passes;
  bool closed = false;  ///< a :| stands at its end
};

struct Section {
  std::string name;
  Stretch bars;
};

/// Walks the bars and notes down the order. Promise: `order_` never grows beyond most_played_bars.
class Walk {
 public:
  Walk(const ChartText& chart, const std::vector<BarMarks>& bars) : chart_(chart), bars_(bars) {}

  void play(const Stretch& stretch);
  [[nodiscard]] std::vector<std::size_t> order() && { return std::move(order_); }

 private:
  void append(const Stretch& stretch);
  void check_repeat_start(const Stretch& repeated, bool opened) const;
  [[nodiscard]] std::vector<Ending> endings_from(std::size_t first, std::size_t limit) const;
  [[nodiscard]] int passes_of(const std::vector<Ending>& endings) const;
  void check_ends(const std::vector<Ending>& endings, int last_pass) const;
  std::size_t play_with_endings(const Stretch& body, std::size_t limit);

  const ChartText& chart_;
  const std::vector<BarMarks>& bars_;
  std::vector<std::size_t> order_;
};

void Walk::append(const Stretch& stretch) {
  for (std::size_t bar = stretch.first; bar < stretch.end; ++bar) {
    if (order_.size() == most_played_bars)
      refuse(chart_, bars_[bar].offset_bytes,
             fmt::format("played out, this chart has more than {} bars; write one pass of the form", most_played_bars));
    order_.push_back(bar);
  }
}

/// Without |: a repeat goes back to the last :| or to the start, which is doubtful once a section begins between.
void Walk::check_repeat_start(const Stretch& repeated, bool opened) const {
  if (opened) return;
  for (std::size_t bar = repeated.first + 1; bar < repeated.end; ++bar)
    if (bars_[bar].starts_section)
      refuse(
          chart_, bars_[bar].offset_bytes,
          fmt::format("the repeat that ends after section {} begins has no |: to go back to; write |: where it begins",
                      bars_[bar].section));
}

std::vector<Ending> Walk::endings_from(std::size_t first, std::size_t limit) const {
  std::vector<Ending> endings;
  while (first < limit && !bars_[first].ending.empty()) {
    Ending ending{.bars = {first, first + 1}, .passes = bars_[first].ending, .closed = bars_[first].times > 0};
    while (!ending.closed && ending.bars.end < limit) {
      const BarMarks& next = bars_[ending.bars.end];
      if (next.starts_repeat || next.starts_section || !next.ending.empty()) break;
      ending.closed = next.times > 0;
      ++ending.bars.end;
    }
    first = ending.bars.end;
    endings.push_back(ending);
  }
  return endings;
}

/// How often the stretch before the endings is played. Every pass must have one ending.
int Walk::passes_of(const std::vector<Ending>& endings) const {
  const std::size_t place = bars_[endings.front().bars.first].offset_bytes;
  std::set<int> passes;
  for (const Ending& ending : endings)
    for (const int pass : ending.passes)
      if (!passes.insert(pass).second)
        refuse(chart_, bars_[ending.bars.first].offset_bytes, fmt::format("ending {} is written twice", pass));
  const int last = *passes.rbegin();
  for (int pass = 1; pass < last; ++pass)
    if (!passes.contains(pass)) refuse(chart_, place, fmt::format("ending {} has no ending {} before it", last, pass));
  // A lone ending that turns back is left out the last time round.
  return endings.size() == 1 && endings.front().closed ? last + 1 : last;
}

/// Only the ending of the last pass may go on without a :|.
void Walk::check_ends(const std::vector<Ending>& endings, int last_pass) const {
  for (const Ending& ending : endings) {
    const BarMarks& end = bars_[ending.bars.end - 1];
    if (end.times > 2)
      refuse(chart_, end.offset_bytes, "the endings say how often to play; take the number of times away");
    const bool last_alone = ending.passes == std::vector{last_pass} && last_pass > 1;
    if (!ending.closed && !last_alone)
      refuse(chart_, bars_[ending.bars.first].offset_bytes,
             fmt::format("ending {} has no :| to go back", ending.passes.front()));
  }
}

/// Plays `body` once a pass, each time with its ending; gives the first bar after the endings.
std::size_t Walk::play_with_endings(const Stretch& body, std::size_t limit) {
  const std::vector<Ending> endings = endings_from(body.end, limit);
  const int passes = passes_of(endings);
  check_ends(endings, passes);
  for (int pass = 1; pass <= passes; ++pass) {
    append(body);
    for (const Ending& ending : endings)
      if (std::ranges::find(ending.passes, pass) != ending.passes.end()) append(ending.bars);
  }
  return endings.back().bars.end;
}

void Walk::play(const Stretch& stretch) {
  std::size_t start = stretch.first;  // of the bars read but not yet played
  bool opened = false;                // by a |: at `start`
  for (std::size_t bar = stretch.first; bar < stretch.end;) {
    if (bars_[bar].starts_repeat) {
      if (opened)
        refuse(chart_, bars_[bar].offset_bytes, "this repeat begins inside another; close the one before it with :|");
      append({start, bar});
      start = bar;
      opened = true;
    }
    if (!bars_[bar].ending.empty()) {
      check_repeat_start({start, bar}, opened);
      bar = start = play_with_endings({start, bar}, stretch.end);
      opened = false;
      continue;
    }
    if (bars_[bar].times > 0) {
      check_repeat_start({start, bar + 1}, opened);
      for (int pass = 0; pass < bars_[bar].times; ++pass) append({start, bar + 1});
      start = bar + 1;
      opened = false;
    }
    ++bar;
  }
  if (opened) refuse(chart_, bars_[start].offset_bytes, "the repeat that begins here has no :| at its end");
  append({start, stretch.end});
}

std::vector<Section> sections_of(const ChartText& chart, const std::vector<BarMarks>& bars) {
  if (bars.front().section.empty())
    refuse(chart, bars.front().offset_bytes, "the form names sections, but this bar lies in none; write [A] before it");
  std::vector<Section> sections;
  for (std::size_t bar = 0; bar < bars.size(); ++bar) {
    if (bars[bar].starts_section) {
      if (std::ranges::find(sections, bars[bar].section, &Section::name) != sections.end())
        refuse(
            chart, bars[bar].offset_bytes,
            fmt::format("section {} is written twice, so the form cannot tell which one it means", bars[bar].section));
      sections.push_back({bars[bar].section, {bar, bar}});
    }
    sections.back().bars.end = bar + 1;
  }
  return sections;
}

const Section* find_section(const std::vector<Section>& sections, std::string_view name) {
  const auto found = std::ranges::find(sections, name, &Section::name);
  return found == sections.end() ? nullptr : &*found;
}

/// The sections that an entry of the form names: one, or one a letter as in "AABA".
std::vector<Stretch> named_stretches(const ChartText& chart, const std::vector<Section>& sections,
                                     const FormEntry& entry) {
  if (const Section* section = find_section(sections, entry.section)) return {section->bars};
  std::vector<Stretch> stretches;
  for (std::size_t letter = 0; letter < entry.section.size(); ++letter) {
    const Section* section = find_section(sections, std::string_view(entry.section).substr(letter, 1));
    if (section == nullptr) break;
    stretches.push_back(section->bars);
  }
  if (stretches.size() == entry.section.size()) return stretches;
  std::string names;
  for (const Section& section : sections) names += (names.empty() ? "" : ", ") + section.name;
  refuse(chart, entry.offset_bytes,
         fmt::format("the form names a section \"{}\" that is not written; written are {}", shortened(entry.section),
                     shortened(names)));
}

}  // namespace

std::vector<std::size_t> playing_order(const ChartText& chart, const std::vector<BarMarks>& bars,
                                       const std::vector<FormEntry>& form) {
  Walk walk(chart, bars);
  if (form.empty()) {
    walk.play({0, bars.size()});
  } else {
    const std::vector<Section> sections = sections_of(chart, bars);
    for (const FormEntry& entry : form)
      for (const Stretch& stretch : named_stretches(chart, sections, entry)) walk.play(stretch);
  }
  return std::move(walk).order();
}

}  // namespace insideline::io
