#include "analyzer/patterns/repeats.hpp"

#include <algorithm>
#include <bit>
#include <cstdint>
#include <utility>

namespace insideline {
namespace {

using Index = std::uint32_t;
constexpr Index nowhere = static_cast<Index>(-1);

/// All parts of the row that end at the same places; the longest of them stands for all.
struct State {
  Index length = 0;
  Index link = nowhere;        ///< where the longest part that ends at more places is
  Index first_lead = nowhere;  ///< the leads from here, each with the next
  Index leads = 0;
  bool ends_a_piece = false;
};

/// What a token leads to from a state.
struct Lead {
  Index from = 0;
  int token = 0;
  Index to = 0;
  Index next = nowhere;  ///< another one from the same state
};

/// All leads of all states in one table, found by hashing: no state owns memory of its own.
class LeadTable {
 public:
  explicit LeadTable(std::size_t tokens)
      : places_(std::bit_ceil(most_leads * tokens + 1) * 2, nowhere),
        shift_(static_cast<int>(sizeof(std::uint64_t) * 8) - std::countr_zero(places_.size())) {
    leads_.reserve(most_leads * tokens);
  }

  /// None where `token` leads nowhere from `from`.
  Lead* find(Index from, int token) {
    const Index at = places_[place_of(from, token)];
    return at == nowhere ? nullptr : &leads_[at];
  }

  /// Lets `token` lead from `from`, which is `state`, to `to`, unless it leads somewhere already: then that.
  const Lead* find_or_add(Index from, State& state, int token, Index to) {
    Index& at = places_[place_of(from, token)];
    if (at != nowhere) return &leads_[at];
    at = static_cast<Index>(leads_.size());
    leads_.push_back({.from = from, .token = token, .to = to, .next = state.first_lead});
    state.first_lead = at;
    ++state.leads;
    return nullptr;
  }

  const Lead& operator[](Index at) const { return leads_[at]; }

 private:
  static constexpr std::size_t most_leads = 3;  // a token: the automaton never has more

  std::size_t place_of(Index state, int token) const {
    constexpr std::uint64_t spread = 0x9E3779B97F4A7C15U;  // two to the 64th over the golden ratio
    const std::uint64_t key = std::uint64_t{state} << 32U | static_cast<std::uint32_t>(token);
    std::size_t place = (key * spread) >> shift_;
    while (places_[place] != nowhere && (leads_[places_[place]].from != state || leads_[places_[place]].token != token))
      place = (place + 1) & (places_.size() - 1);
    return place;
  }

  std::vector<Index> places_;
  int shift_;
  std::vector<Lead> leads_;
};

class SuffixAutomaton {
 public:
  explicit SuffixAutomaton(std::span<const int> tokens) : leads_(tokens.size()), state_at_(tokens.size(), nowhere) {
    states_.reserve(2 * tokens.size() + 1);  // it never has more
    states_.emplace_back();
    Index last = 0;
    for (std::size_t i = 0; i < tokens.size(); ++i) {
      if (tokens[i] == token_break) {
        end_piece(last);
        last = 0;
        continue;
      }
      last = extended(last, tokens[i]);
      state_at_[i] = last;
    }
    end_piece(last);
  }

  Repeats repeats(const RepeatBounds& bounds) {
    Repeats repeats;
    number_repeats(bounds, repeats.found);
    list_places(repeats.found);
    std::ranges::sort(repeats.found, [](const MaximalRepeat& a, const MaximalRepeat& b) {
      return std::pair(a.length, a.starts.front()) < std::pair(b.length, b.starts.front());
    });
    repeats.steps = steps_;
    return repeats;
  }

 private:
  /// Where `token` leads from `state`; none where it leads nowhere.
  Lead* next(Index state, int token) {
    ++steps_;
    return leads_.find(state, token);
  }

  Index added_state(Index length, Index link) {
    states_.push_back({.length = length, .link = link});
    return static_cast<Index>(states_.size() - 1);
  }

  /// Lets `token` lead to `to`, unless it leads somewhere already: then that.
  const Lead* lead_on(Index from, int token, Index to) {
    ++steps_;
    return leads_.find_or_add(from, states_[from], token, to);
  }

  Index extended(Index last, int token) {
    const auto added = static_cast<Index>(states_.size());
    const Lead* known = lead_on(last, token, added);
    if (known != nullptr) return of_length(last, token, known->to);
    added_state(states_[last].length + 1, 0);
    Index from = states_[last].link;
    while (from != nowhere && (known = lead_on(from, token, added)) == nullptr) from = states_[from].link;
    if (known != nullptr) {
      const Index link = of_length(from, token, known->to);
      states_[added].link = link;
    }
    return added;
  }

  /// `to`, which `token` leads to from `from`, where its longest part is just one token longer; else that part made a
  /// state of its own.
  Index of_length(Index from, int token, Index to) {
    const Index length = states_[from].length + 1;
    if (states_[to].length == length) return to;
    const Index added = added_state(length, states_[to].link);
    states_[added].ends_a_piece = states_[to].ends_a_piece;
    for (Index at = states_[to].first_lead; at != nowhere; at = leads_[at].next) {
      ++steps_;
      const Lead lead = leads_[at];
      leads_.find_or_add(added, states_[added], lead.token, lead.to);
    }
    states_[to].link = added;
    for (; from != nowhere; from = states_[from].link) {
      Lead* const known = next(from, token);
      if (known == nullptr || known->to != to) break;
      known->to = added;
    }
    return added;
  }

  void end_piece(Index last) {
    for (; last != nowhere && !states_[last].ends_a_piece; last = states_[last].link) {
      ++steps_;
      states_[last].ends_a_piece = true;
    }
  }

  /// The states sorted by length, by counting: the shortest first.
  std::vector<Index> from_the_shortest() const {
    Index most = 0;
    for (const State& state : states_) most = std::max(most, state.length);
    std::vector<Index> places(std::size_t{most} + 2, 0);
    for (const State& state : states_) ++places[state.length + 1];
    for (std::size_t i = 1; i < places.size(); ++i) places[i] += places[i - 1];
    std::vector<Index> order(states_.size());
    for (std::size_t i = 0; i < states_.size(); ++i) order[places[states_[i].length]++] = static_cast<Index>(i);
    return order;
  }

  /// Makes room for each repeat, and notes for each state the longest repeat that its parts end with: itself, if it
  /// is one.
  void number_repeats(const RepeatBounds& bounds, std::vector<MaximalRepeat>& found) {
    const std::vector<Index> order = from_the_shortest();
    std::vector<Index> ends(states_.size(), 0);  // at how many places the parts of a state end
    for (const Index state : state_at_)
      if (state != nowhere) ++ends[state];
    for (std::size_t i = order.size(); i-- > 1;) ends[states_[order[i]].link] += ends[order[i]];
    repeat_of_.assign(states_.size(), nowhere);
    for (const Index at : order) {
      const State& state = states_[at];
      const Index shorter = at == 0 ? nowhere : repeat_of_[state.link];
      const bool goes_on_differently = state.leads > 1 || state.ends_a_piece;
      const bool is_repeat = state.length >= bounds.shortest && state.length <= bounds.longest &&
                             ends[at] >= bounds.fewest_places && goes_on_differently;
      repeat_of_[at] = is_repeat ? static_cast<Index>(found.size()) : shorter;
      if (!is_repeat) continue;
      shorter_repeat_.push_back(shorter);
      found.push_back({.length = state.length, .starts = {}});
      found.back().starts.reserve(ends[at]);
    }
    steps_ += 2 * states_.size();
  }

  /// What ends at a place is the longest repeat there and all shorter ones that it ends with.
  void list_places(std::vector<MaximalRepeat>& found) {
    for (std::size_t end = 0; end < state_at_.size(); ++end) {
      if (state_at_[end] == nowhere) continue;
      for (Index at = repeat_of_[state_at_[end]]; at != nowhere; at = shorter_repeat_[at]) {
        ++steps_;
        found[at].starts.push_back(end + 1 - found[at].length);
      }
    }
  }

  std::vector<State> states_;
  LeadTable leads_;
  std::vector<Index> state_at_;        ///< by place: the longest part that ends there
  std::vector<Index> repeat_of_;       ///< by state
  std::vector<Index> shorter_repeat_;  ///< by repeat
  std::size_t steps_ = 0;
};

}  // namespace

Repeats maximal_repeats(std::span<const int> tokens, const RepeatBounds& bounds) {
  return SuffixAutomaton(tokens).repeats(bounds);
}

}  // namespace insideline
