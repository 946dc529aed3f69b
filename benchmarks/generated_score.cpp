#include "benchmarks/generated_score.hpp"

#include <fmt/format.h>

#include <array>
#include <cstddef>
#include <cstdint>
#include <iterator>
#include <stdexcept>

namespace insideline::benchmarks {

namespace {

struct ScoreChord {
  const char* step;
  int alter;
  const char* kind;
  const char* text;
};

/// Two phrases of four bars, one in E flat and one in its relative minor.
constexpr std::array<ScoreChord, 8> cycle{{{"F", 0, "minor-seventh", "m7"},
                                           {"B", -1, "dominant", "7"},
                                           {"E", -1, "major-seventh", "maj7"},
                                           {"A", -1, "major-seventh", "maj7"},
                                           {"D", 0, "half-diminished", "m7b5"},
                                           {"G", 0, "dominant", "7"},
                                           {"C", 0, "minor-seventh", "m7"},
                                           {"C", 0, "dominant", "7"}}};

struct ScorePitch {
  const char* step;
  int alter;
  int octave;
};

/// The scale of E flat with chromatic notes between, from B flat 3 to E flat 6.
constexpr std::array<ScorePitch, 24> ladder{
    {{"B", -1, 3}, {"B", 0, 3}, {"C", 0, 4},  {"D", 0, 4}, {"E", -1, 4}, {"F", 0, 4}, {"F", 1, 4},  {"G", 0, 4},
     {"A", -1, 4}, {"A", 0, 4}, {"B", -1, 4}, {"C", 0, 5}, {"C", 1, 5},  {"D", 0, 5}, {"E", -1, 5}, {"E", 0, 5},
     {"F", 0, 5},  {"G", 0, 5}, {"A", -1, 5}, {"A", 0, 5}, {"B", -1, 5}, {"C", 0, 6}, {"D", 0, 6},  {"E", -1, 6}}};

constexpr int slots_in_bar = 8;

/// Where the line goes next: mostly steps, an arpeggio now and then, turned back at the ends of the ladder.
class Walk {
 public:
  const ScorePitch& next() {
    state_ = state_ * 6364136223846793005u + 1442695040888963407u;
    const auto roll = static_cast<int>(state_ >> 33 & 15u);
    const int stride = roll < 10 ? 1 : roll < 14 ? 2 : 4;
    if (roll % 5 == 0) direction_ = -direction_;
    const int last = static_cast<int>(ladder.size()) - 1;
    if (place_ + direction_ * stride < 0 || place_ + direction_ * stride > last) direction_ = -direction_;
    place_ += direction_ * stride;
    return ladder[static_cast<std::size_t>(place_)];
  }

 private:
  std::uint64_t state_ = 20251125;
  int place_ = 8;
  int direction_ = 1;
};

/// A line of its own, or nothing for a natural.
std::string alter_line(const char* name, int alter) {
  return alter == 0 ? std::string() : fmt::format("          <{0}>{1}</{0}>\n", name, alter);
}

void write_harmony(std::string& out, const ScoreChord& chord) {
  fmt::format_to(std::back_inserter(out),
                 "      <harmony default-y=\"40\" print-frame=\"no\" font-size=\"11\">\n        <root>\n"
                 "          <root-step>{}</root-step>\n{}        </root>\n"
                 "        <kind text=\"{}\">{}</kind>\n      </harmony>\n",
                 chord.step, alter_line("root-alter", chord.alter), chord.text, chord.kind);
}

void write_rest(std::string& out) {
  out +=
      "      <note>\n        <rest/>\n        <duration>2</duration>\n        <voice>1</voice>\n"
      "        <type>eighth</type>\n      </note>\n";
}

void write_note(std::string& out, const ScorePitch& pitch, int slot) {
  fmt::format_to(std::back_inserter(out),
                 "      <note default-x=\"{}\" default-y=\"{}\">\n        <pitch>\n          <step>{}</step>\n"
                 "{}          <octave>{}</octave>\n        </pitch>\n        <duration>2</duration>\n"
                 "        <voice>1</voice>\n        <type>eighth</type>\n        <stem default-y=\"-50\">down</stem>\n"
                 "        <beam number=\"1\">{}</beam>\n      </note>\n",
                 80 + slot * 24, 5 * pitch.octave - 40, pitch.step, alter_line("alter", pitch.alter), pitch.octave,
                 slot % 2 == 0 ? "begin" : "end");
}

constexpr const char* head = R"(<?xml version="1.0" encoding="UTF-8"?>
<score-partwise version="4.0">
  <work>
    <work-title>Generated line</work-title>
  </work>
  <part-list>
    <score-part id="P1">
      <part-name>Line</part-name>
    </score-part>
  </part-list>
  <part id="P1">
)";

constexpr const char* attributes = R"(      <attributes>
        <divisions>4</divisions>
        <key>
          <fifths>-3</fifths>
        </key>
        <time>
          <beats>4</beats>
          <beat-type>4</beat-type>
        </time>
        <clef>
          <sign>G</sign>
          <line>2</line>
        </clef>
      </attributes>
)";

}  // namespace

std::string generated_score(const ScoreSize& size) {
  const int slots = size.bars * slots_in_bar;
  if (size.bars < 1 || size.notes < 1 || size.notes > slots) {
    throw std::invalid_argument("a generated score has at least one bar and one to eight notes a bar");
  }
  std::string out = head;
  Walk walk;
  for (int bar = 0; bar < size.bars; ++bar) {
    fmt::format_to(std::back_inserter(out), "    <measure number=\"{}\" width=\"280\">\n", bar + 1);
    if (bar == 0) out += attributes;
    write_harmony(out, cycle[static_cast<std::size_t>(bar) % cycle.size()]);
    for (int slot = 0; slot < slots_in_bar; ++slot) {
      const std::int64_t place = static_cast<std::int64_t>(bar) * slots_in_bar + slot;
      const bool sounds = (place + 1) * size.notes / slots > place * size.notes / slots;
      if (sounds) {
        write_note(out, walk.next(), slot);
      } else {
        write_rest(out);
      }
    }
    out += "    </measure>\n";
  }
  return out + "  </part>\n</score-partwise>\n";
}

}  // namespace insideline::benchmarks
