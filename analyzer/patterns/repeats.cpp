#include "analyzer/patterns/repeats.hpp"

#include <algorithm>
#include <utility>

namespace insideline {
namespace {

constexpr std::size_t no_state = static_cast<std::size_t>(-1);

/// All parts of the row that end at the same places; the longest of them stands for all.
struct State {
  std::size_t length = 0;
  std::size_t link = no_state;  ///< where the longest part that ends at more places is
  bool ends_a_piece = false;
  std::vector<std::pair<int, std::size_t>> next;  ///< by token
  std::vector<std::size_t> ends;                  ///< places that end here and at no longer part
};

class SuffixAutomaton {
 public:
  explicit SuffixAutomaton(std::span<const int> tokens) : states_(1) {
    states_.reserve(2 * tokens.size() + 1);  // it never has more
    std::size_t last = 0;
    for (std::size_t i = 0; i < tokens.size(); ++i) {
      if (tokens[i] == token_break) {
        end_piece(last);
        last = 0;
        continue;
      }
      last = extended(last, tokens[i]);
      states_[last].ends.push_back(i);
    }
    end_piece(last);
  }

  Repeats repeats(std::size_t shortest, std::size_t longest) {
    Repeats repeats;
    shorten_to(longest);
    for (const std::size_t state : from_the_longest()) collect(state, shortest, longest, repeats.found);
    std::ranges::sort(repeats.found, [](const MaximalRepeat& a, const MaximalRepeat& b) {
      return std::pair(a.length, a.starts.front()) < std::pair(b.length, b.starts.front());
    });
    repeats.steps = steps_;
    return repeats;
  }

 private:
  /// Where `token` leads from `state`; none where it leads nowhere.
  std::size_t* next(std::size_t state, int token) {
    ++steps_;
    auto& all = states_[state].next;
    const auto found = std::ranges::lower_bound(all, token, {}, &std::pair<int, std::size_t>::first);
    return found != all.end() && found->first == token ? &found->second : nullptr;
  }

  void lead(std::size_t from, int token, std::size_t to) {
    auto& all = states_[from].next;
    all.insert(std::ranges::lower_bound(all, token, {}, &std::pair<int, std::size_t>::first), {token, to});
  }

  std::size_t extended(std::size_t last, int token) {
    if (const std::size_t* known = next(last, token)) return of_length(last, token, *known);
    const std::size_t added = states_.size();
    states_.emplace_back().length = states_[last].length + 1;
    std::size_t from = last;
    for (; from != no_state && next(from, token) == nullptr; from = states_[from].link) lead(from, token, added);
    states_[added].link = from == no_state ? 0 : of_length(from, token, *next(from, token));
    return added;
  }

  /// `to`, which `token` leads to from `from`, where its longest part is just one token longer; else that part made a
  /// state of its own.
  std::size_t of_length(std::size_t from, int token, std::size_t to) {
    if (states_[to].length == states_[from].length + 1) return to;
    State copy{.length = states_[from].length + 1,
               .link = states_[to].link,
               .ends_a_piece = states_[to].ends_a_piece,
               .next = states_[to].next,
               .ends = {}};
    steps_ += copy.next.size();
    const std::size_t added = states_.size();
    states_.push_back(std::move(copy));
    states_[to].link = added;
    for (; from != no_state; from = states_[from].link) {
      std::size_t* const leads = next(from, token);
      if (leads == nullptr || *leads != to) break;
      *leads = added;
    }
    return added;
  }

  void end_piece(std::size_t last) {
    for (; last != no_state && !states_[last].ends_a_piece; last = states_[last].link) {
      ++steps_;
      states_[last].ends_a_piece = true;
    }
  }

  /// The states sorted by length, by counting.
  std::vector<std::size_t> from_the_longest() const {
    std::size_t most = 0;
    for (const State& state : states_) most = std::max(most, state.length);
    std::vector<std::size_t> places(most + 2, 0);
    for (const State& state : states_) ++places[most - state.length + 1];
    for (std::size_t i = 1; i < places.size(); ++i) places[i] += places[i - 1];
    std::vector<std::size_t> order(states_.size());
    for (std::size_t i = 0; i < states_.size(); ++i) order[places[most - states_[i].length]++] = i;
    return order;
  }

  /// Hands the places of states longer than `longest` on to the next shorter state that is not.
  void shorten_to(std::size_t longest) {
    std::vector<std::size_t> shortened(states_.size());
    const std::vector<std::size_t> order = from_the_longest();
    for (auto state = order.rbegin(); state != order.rend(); ++state) {
      const bool too_long = states_[*state].length > longest;
      shortened[*state] = too_long ? shortened[states_[*state].link] : *state;
      if (!too_long) continue;
      auto& ends = states_[shortened[*state]].ends;
      ends.insert(ends.end(), states_[*state].ends.begin(), states_[*state].ends.end());
      steps_ += states_[*state].ends.size();
      states_[*state].ends.clear();
    }
  }

  /// Notes the state as a repeat where it is one, and hands its places on to its link.
  void collect(std::size_t index, std::size_t shortest, std::size_t longest, std::vector<MaximalRepeat>& found) {
    State& state = states_[index];
    const bool ends_differ = state.next.size() > 1 || state.ends_a_piece;
    if (state.length >= shortest && state.length <= longest && state.ends.size() > 1 && ends_differ) {
      MaximalRepeat& repeat = found.emplace_back(MaximalRepeat{.length = state.length, .starts = {}});
      for (const std::size_t end : state.ends) repeat.starts.push_back(end + 1 - state.length);
      std::ranges::sort(repeat.starts);
    }
    // Parts as short as that are no repeats, and neither are theirs: nobody asks for their places.
    if (state.ends.empty() || state.link == no_state || states_[state.link].length < shortest) return;
    auto& onward = states_[state.link].ends;
    steps_ += state.ends.size();
    onward.insert(onward.end(), state.ends.begin(), state.ends.end());
  }

  std::vector<State> states_;
  std::size_t steps_ = 0;
};

}  // namespace

Repeats maximal_repeats(std::span<const int> tokens, std::size_t shortest, std::size_t longest) {
  return SuffixAutomaton(tokens).repeats(shortest, longest);
}

}  // namespace insideline
