#include "analyzer/takes/take_alignment.hpp"

#include <algorithm>
#include <random>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

using insideline::align_take;
using insideline::AlignmentCosts;
using insideline::Struck;
using insideline::TakeAlignment;

namespace {

using Pitches = std::vector<int>;

const Pitches scale = {60, 62, 64, 65, 67, 69, 71, 72};

/// "." right, "o" an octave off, "x" wrong, "-" missing, "<" the player goes back; in the order played.
std::string course(const TakeAlignment& found) {
  std::string text;
  for (std::size_t i = 0; i <= found.attempts.size(); ++i) {
    for (const auto& restart : found.restarts)
      if (restart.after == i) text += '<';
    if (i == found.attempts.size()) break;
    switch (found.attempts[i].struck) {
      case Struck::right: text += '.'; break;
      case Struck::octave_slip: text += 'o'; break;
      case Struck::wrong: text += 'x'; break;
      case Struck::missing: text += '-'; break;
    }
  }
  return text;
}

/// The same found in another way: every step shortens ways between all places until nothing gets cheaper.
double cheapest_by_relaxing(const Pitches& sheet, const Pitches& take) {
  const AlignmentCosts costs;
  std::vector<std::vector<double>> cost(take.size() + 1, std::vector<double>(sheet.size() + 1, 1e9));
  const auto unplayed = [&](std::size_t notes) {
    return std::min(costs.not_played * static_cast<double>(notes), costs.most_outside);
  };
  for (std::size_t s = 0; s <= sheet.size(); ++s) cost[0][s] = unplayed(s);
  bool shorter = true;
  const auto relax = [&](double& to, double way) {
    if (way < to - 1e-12) shorter = true;
    to = std::min(to, way);
  };
  while (shorter) {
    shorter = false;
    for (std::size_t t = 0; t <= take.size(); ++t)
      for (std::size_t s = 0; s <= sheet.size(); ++s) {
        const double here = cost[t][s];
        if (t < take.size()) relax(cost[t + 1][s], here + costs.added);
        if (t > 0 && s < sheet.size()) relax(cost[t][s + 1], here + costs.missing);
        if (t > 0)
          for (std::size_t to = 0; to <= sheet.size(); ++to)
            if (to != s) relax(cost[t][to], here + (to < s ? costs.restart : costs.skip));
        if (t == take.size() || s == sheet.size()) continue;
        const int apart = std::abs(take[t] - sheet[s]);
        const double meeting = apart == 0 ? 0.0 : apart % 12 == 0 ? costs.octave_slip : costs.wrong;
        relax(cost[t + 1][s + 1], here + meeting);
      }
  }
  double best = 1e9;
  for (std::size_t s = 0; s <= sheet.size(); ++s)
    best = std::min(best, cost[take.size()][s] + unplayed(sheet.size() - s));
  return best;
}

}  // namespace

TEST_CASE("a take is laid against its sheet note by note") {
  const auto [take, expected, added] = GENERATE(table<Pitches, std::string, std::size_t>({
      {{60, 62, 64, 65, 67, 69, 71, 72}, "........", 0},
      {{60, 62, 63, 65, 67, 69, 71, 72}, "..x.....", 0},
      {{60, 62, 64, 65, 69, 71, 72}, "....-...", 0},
      {{60, 62, 64, 65, 66, 67, 69, 71, 72}, "........", 1},
      {{60, 62, 76, 65, 67, 69, 71, 72}, "..o.....", 0},
      {{60, 62, 64, 60, 62, 64, 65, 67, 69, 71, 72}, "...<........", 0},
      {{60, 62, 64, 65, 67, 69, 71, 72, 60, 62, 64, 65, 67, 69, 71, 72}, "........<........", 0},
  }));
  const TakeAlignment found = align_take(scale, take);
  CHECK(course(found) == expected);
  CHECK(found.added.size() == added);
}

TEST_CASE("a take that begins late or ends early leaves out what it leaves out") {
  const TakeAlignment late = align_take(scale, Pitches{65, 67, 69, 71, 72});
  CHECK(course(late) == ".....");
  CHECK(late.first_played == 3);
  const TakeAlignment early = align_take(scale, Pitches{60, 62, 64});
  CHECK(course(early) == "...");
  CHECK(early.played_to == 3);
}

TEST_CASE("going back costs less than three notes added and more than two") {
  const auto [take, expected, added] = GENERATE(table<Pitches, std::string, std::size_t>({
      {{60, 62, 64, 65, 64, 65, 67, 69, 71, 72}, "........", 2},
      {{60, 62, 64, 65, 62, 64, 65, 67, 69, 71, 72}, "....<.......", 0},
  }));
  const TakeAlignment found = align_take(scale, take);
  CHECK(course(found) == expected);
  CHECK(found.added.size() == added);
}

TEST_CASE("a step back tells where the player was and where the passage begins again") {
  const TakeAlignment found = align_take(scale, Pitches{60, 62, 64, 65, 67, 62, 64, 65, 67});
  REQUIRE(found.restarts.size() == 1);
  CHECK(found.restarts[0].after == 5);
  CHECK(found.restarts[0].from == 5);
  CHECK(found.restarts[0].back_to == 1);
  CHECK(found.first_played == 0);
  CHECK(found.played_to == 5);  // as far as the first time, not the second
}

TEST_CASE("silence plays nothing") {
  const TakeAlignment silence = align_take(scale, Pitches{});
  CHECK(silence.attempts.empty());
  CHECK(silence.added.empty());
}

TEST_CASE("the way found costs as little as any: found again by relaxing every step") {
  std::mt19937 engine(20261125);
  const auto some = [&](std::size_t most, unsigned names) {
    Pitches pitches(1 + engine() % most);
    for (int& pitch : pitches) pitch = 60 + static_cast<int>(engine() % names) + (engine() % 5 == 0 ? 12 : 0);
    return pitches;
  };
  for (int round = 0; round < 400; ++round) {
    const unsigned names = round % 2 == 0 ? 3 : 9;
    const Pitches sheet = some(12, names);
    const Pitches take = some(14, names);
    CAPTURE(round, sheet, take);
    CHECK(align_take(sheet, take).cost == Approx(cheapest_by_relaxing(sheet, take)));
  }
}

TEST_CASE("of a real sheet no place is looked at in vain that a cheapest way could need") {
  std::mt19937 engine(20261129);
  for (int round = 0; round < 40; ++round) {
    Pitches sheet(40);
    int pitch = 60;
    for (int& note : sheet) {
      pitch += static_cast<int>(engine() % 9) - 4 + (pitch < 52 ? 5 : 0) - (pitch > 74 ? 5 : 0);
      note = pitch;
    }
    Pitches take;
    for (std::size_t s = 0; s < sheet.size(); ++s) {
      const auto dice = engine() % 40;
      if (dice == 0) s = s > 10 ? s - 10 : 0;
      if (dice == 1 && s + 9 < sheet.size()) s += 9;
      if (dice == 2) take.push_back(sheet[s] + 1);
      if (dice != 3 && dice != 4) take.push_back(dice == 5 ? sheet[s] + 12 : dice == 6 ? sheet[s] - 1 : sheet[s]);
      if (take.size() > 120) break;
    }
    CAPTURE(round, sheet, take);
    CHECK(align_take(sheet, take).cost == Approx(cheapest_by_relaxing(sheet, take)));
  }
}

TEST_CASE("ten thousand notes with mistakes in one note of twenty take few more places than notes") {
  std::mt19937 engine(7);
  Pitches sheet;
  int pitch = 60;
  for (int i = 0; i < 10'000; ++i) {
    pitch += static_cast<int>(engine() % 9) - 4 + (pitch < 50 ? 5 : 0) - (pitch > 80 ? 5 : 0);
    sheet.push_back(pitch);
  }
  Pitches take;
  std::size_t wrong = 0;
  for (std::size_t s = 0; s < sheet.size(); ++s) {
    const bool mistake = s % 20 == 13;
    wrong += mistake ? 1 : 0;
    take.push_back(sheet[s] + (mistake ? 1 : 0));
    if (s == 5'000) take.insert(take.end(), sheet.begin() + 4'900, sheet.begin() + 5'001);
  }
  const TakeAlignment found = align_take(sheet, take);
  CHECK(found.restarts.size() == 1);
  CHECK(std::ranges::count(found.attempts, Struck::wrong, &insideline::Attempt::struck) ==
        static_cast<std::ptrdiff_t>(wrong));
  CHECK(found.places < 200 * sheet.size());  // all pairs would be 10,000 times as many
}

TEST_CASE("moved by any interval together, sheet and take are laid alike") {
  const Pitches take = {60, 62, 63, 65, 60, 62, 64, 77, 69, 72};
  const std::string here = course(align_take(scale, take));
  for (const int by : {-13, 5, 12}) {
    Pitches sheet_moved = scale;
    Pitches take_moved = take;
    for (int& pitch : sheet_moved) pitch += by;
    for (int& pitch : take_moved) pitch += by;
    CHECK(course(align_take(sheet_moved, take_moved)) == here);
  }
}
