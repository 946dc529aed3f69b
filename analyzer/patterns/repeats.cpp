#include "analyzer/patterns/repeats.hpp"

#include <algorithm>
#include <cstdint>
#include <numeric>
#include <utility>

namespace insideline {
namespace {

/// The parts of one length that come often enough, each with its places in order, one part after the other.
struct Parts {
  void clear() {
    starts.clear();
    counts.clear();
  }

  std::vector<std::size_t> starts;
  std::vector<std::size_t> counts;  ///< of the places of each part
};

/// A token that follows the part which is looked at.
struct Following {
  std::uint32_t places = 0;
  std::uint32_t near = 0;  ///< how many of them in a row, up to the last, are near enough to each other
  std::uint32_t most_near = 0;
  std::uint32_t room = 0;  ///< where its next place goes to
  std::size_t last_bar = 0;
  int before = token_break;     ///< what goes before the first place
  bool differs_before = false;  ///< something else goes before another place
  bool kept = false;
};

class RepeatFinder {
 public:
  RepeatFinder(std::span<const int> tokens, const RepeatBounds& bounds) : tokens_(tokens), bounds_(bounds) {
    const auto largest = std::ranges::max_element(tokens);
    following_.resize(largest == tokens.end() ? 0 : static_cast<std::size_t>(*largest + 1));
  }

  Repeats find() {
    Parts parts{.starts = std::vector<std::size_t>(tokens_.size()), .counts = {tokens_.size()}};
    std::iota(parts.starts.begin(), parts.starts.end(), std::size_t{0});
    Parts longer;
    for (std::size_t length = 0; length <= bounds_.longest && !parts.starts.empty(); ++length) {
      longer.clear();
      auto starts = std::span<const std::size_t>(parts.starts);
      for (const std::size_t count : parts.counts) {
        look_at(starts.first(count), length, longer);
        starts = starts.subspan(count);
      }
      std::swap(parts, longer);
    }
    return std::move(repeats_);
  }

 private:
  /// Notes the part of `length` tokens at `starts` if it is a repeat, and adds those that are a token longer.
  void look_at(std::span<const std::size_t> starts, std::size_t length, Parts& longer) {
    const std::size_t ends = count_following(starts, length);
    if (length >= bounds_.shortest && (ends > 0 || different_.size() > 1)) {
      repeats_.found.push_back({.length = length, .first = repeats_.starts.size(), .places = starts.size()});
      repeats_.starts.insert(repeats_.starts.end(), starts.begin(), starts.end());
    }
    make_room(longer);
    for (const std::size_t start : starts) {
      const int token = token_at(start + length);
      if (token != token_break && following(token).kept) longer.starts[following(token).room++] = start;
    }
    for (const int token : different_) following(token) = {};
    repeats_.steps += starts.size();
  }

  /// How often nothing follows.
  std::size_t count_following(std::span<const std::size_t> starts, std::size_t length) {
    different_.clear();
    std::size_t ends = 0;
    for (const std::size_t start : starts) {
      const int token = token_at(start + length);
      if (token == token_break) {
        ++ends;
        continue;
      }
      const int before = start == 0 ? token_break : tokens_[start - 1];
      Following& here = following(token);
      if (here.places++ == 0) {
        different_.push_back(token);
        here.before = before;
      }
      here.differs_before |= before == token_break || before != here.before;
      const std::size_t bar = bounds_.bars.empty() ? 0 : bounds_.bars[start];
      here.near = bar <= here.last_bar + bounds_.bars_apart ? here.near + 1 : 1;
      here.most_near = std::max(here.most_near, here.near);
      here.last_bar = bar;
    }
    return ends;
  }

  /// For the parts that are a token longer and may be repeats, or begin with one.
  void make_room(Parts& longer) {
    for (const int token : different_) {
      Following& here = following(token);
      here.kept = here.differs_before && here.most_near >= bounds_.fewest_places;
      if (!here.kept) continue;
      here.room = static_cast<std::uint32_t>(longer.starts.size());
      longer.starts.resize(longer.starts.size() + here.places);
      longer.counts.push_back(here.places);
    }
  }

  [[nodiscard]] int token_at(std::size_t place) const { return place < tokens_.size() ? tokens_[place] : token_break; }
  Following& following(int token) { return following_[static_cast<std::size_t>(token)]; }

  std::span<const int> tokens_;
  RepeatBounds bounds_;
  std::vector<Following> following_;  // by token
  std::vector<int> different_;        // the tokens that follow, each once
  Repeats repeats_;
};

}  // namespace

Repeats maximal_repeats(std::span<const int> tokens, const RepeatBounds& bounds) {
  return RepeatFinder(tokens, bounds).find();
}

}  // namespace insideline
