#include "io/abc/tune_reader.hpp"

#include "io/abc/music_line.hpp"

#include "analyzer/shortened.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

namespace insideline::io {
namespace {

/// Reads a tune line by line. Promise: `tune_.voices` runs parallel to `writers_`.
class TuneReader {
 public:
  TuneReader(const AbcText& source, Notices& notices) : source_(source), notices_(notices) {}

  void read_line(const AbcLine& line) {
    if (line.text.starts_with("%%")) return read_directive(line.text.substr(2));
    if (is_abc_field(line.text)) return read_field(line);
    if (line.text.find_first_not_of(" \t\\") == std::string_view::npos) return;
    if (!in_body_) end_header(line.offset_bytes, "there is no K: line before this music; it was read without a key");
    read_music({line.text, line.offset_bytes, 0, source_});
  }

  WrittenTune finish() && {
    tell_left_out();
    for (VoiceWriter& writer : writers_) {
      writer.finish();
      if (!writer.part.tempo_bpm) writer.part.tempo_bpm = tempo_;
      tune_.parts.push_back(std::move(writer.part));
    }
    return std::move(tune_);
  }

 private:
  void read_music(AbcCursor cursor) {
    for (cursor.at = std::min(cursor.line.find_first_not_of(" \t"), cursor.line.size()); !cursor.done();) {
      if (const auto field = take_inline_field(cursor))
        read_field(*field);
      else
        read_music_sign(cursor, voice(), notices_);
    }
  }

  /// The "[K:Dm]" at the cursor without its brackets.
  std::optional<AbcLine> take_inline_field(AbcCursor& cursor) const {
    if (cursor.peek() != '[' || !is_abc_field(cursor.rest().substr(1)) || cursor.peek(1) == '+') return std::nullopt;
    const auto close = cursor.rest().find(']');
    if (close == std::string_view::npos)
      refuse(source_, cursor.place(), "this field in the line has no ]; write it like [K:Dm]");
    const AbcLine field{cursor.rest().substr(1, close - 1), cursor.place() + 1};
    cursor.at += close + 1;
    return field;
  }

  void read_field(const AbcLine& field) {
    const AbcLine value = abc_value(field);
    switch (field.text.front()) {
      case 'K': return read_key(value);
      case 'M': return read_meter(value);
      case 'L': return for_settings([&](AbcSettings& settings) { settings.unit = read_abc_unit(source_, value); });
      case 'Q': return read_tempo(value);
      case 'V': return read_voice(value);
      case 'P': return read_part_name(value);
      case 'I': return read_directive(value.text);
      case 'U': return read_user_sign(value.text);
      case 'T':
      case 'X': return;
      default: return left_out(field);
    }
  }

  /// Before the first note a field holds for all voices, later for the one being written.
  template <typename Change>
  void for_settings(Change change) {
    if (!in_body_) return change(header_);
    if (writers_.empty()) voice();
    change(writers_[current_].settings);
  }

  void read_key(const AbcLine& value) {
    const AbcKeyField field = read_abc_key(source_, value);
    for (const std::string& unknown : field.staff.unknown)
      notices_.remark(place_in(source_.file, source_.text, value.offset_bytes),
                      fmt::format("\"{}\" was left out of this K: line", shortened(unknown)));
    for_settings([&](AbcSettings& settings) {
      if (field.key) settings.key = *field.key;
    });
    if (in_body_) return writers_[current_].set_staff(field.staff);
    header_.staff = field.staff;
    end_header(value.offset_bytes, {});
  }

  void read_meter(const AbcLine& value) {
    const auto meter = read_abc_meter(source_, value);
    for_settings([&](AbcSettings& settings) {
      // A new meter inside the tune leaves the unit note length as it was (3.1.7).
      if (in_body_ && !settings.unit) settings.unit = usual_abc_unit(settings.meter);
      settings.meter = meter;
    });
  }

  void read_tempo(const AbcLine& value) {
    const Beats unit = header_.unit.value_or(usual_abc_unit(header_.meter));
    if (const auto tempo = read_abc_tempo(source_, value, unit); !tempo_) tempo_ = tempo;
  }

  void read_voice(const AbcLine& value) {
    const AbcVoiceField field = read_abc_voice(source_, value);
    const auto known = std::ranges::find(tune_.voices, field.id);
    const auto index = static_cast<std::size_t>(known - tune_.voices.begin());
    if (known == tune_.voices.end()) {
      constexpr std::size_t most_voices = 64;
      if (tune_.voices.size() == most_voices)
        refuse(source_, value.offset_bytes, fmt::format("this tune has more than {} voices", most_voices));
      tune_.voices.push_back(field.id);
      staffs_.push_back({});
      if (in_body_) add_writer(index);
    }
    current_ = index;
    if (in_body_)
      writers_[index].set_staff(field.staff);
    else
      staffs_[index] = field.staff;
  }

  void read_part_name(const AbcLine& value) {
    if (!in_body_) {
      tune_.order = value.text;
      tune_.order_offset_bytes = value.offset_bytes;
    } else {
      constexpr std::size_t longest_name = 40;
      voice().begin_section(value.text.substr(0, longest_name));
    }
  }

  /// "propagate-accidentals not" (11.3); what else programs are told says nothing about the notes.
  void read_directive(std::string_view text) {
    constexpr std::string_view name = "propagate-accidentals";
    if (!text.starts_with(name)) return;
    const std::string_view reach = text.substr(std::min(text.find_first_not_of(" \t=", name.size()), text.size()));
    for_settings([&](AbcSettings& settings) {
      settings.reach = reach.starts_with("not")      ? AccidentalReach::the_note
                       : reach.starts_with("octave") ? AccidentalReach::the_octave
                                                     : AccidentalReach::all_octaves;
    });
  }

  /// "U: w = !trill!": from here on the letter is a sign over a note (4.16).
  void read_user_sign(std::string_view text) {
    if (!text.empty()) user_signs_ += text.front();
    for (VoiceWriter& writer : writers_) writer.user_signs = user_signs_;
  }

  void left_out(const AbcLine& field) {
    const char letter = field.text.front();
    if (left_out_.find(letter) != std::string::npos) return;
    if (left_out_.empty()) left_out_offset_ = field.offset_bytes;
    left_out_ += letter;
  }

  void tell_left_out() {
    if (left_out_.empty()) return;
    std::string names;
    for (const char letter : left_out_) names += fmt::format("{}{}:", names.empty() ? "" : " ", letter);
    notices_.remark(
        place_in(source_.file, source_.text, left_out_offset_),
        fmt::format("what stands behind {} was not used{}", names,
                    left_out_.find('m') == std::string::npos ? "" : "; the signs of m: are not written out"));
  }

  void end_header(std::size_t offset_bytes, std::string_view warning) {
    if (!warning.empty()) notices_.remark(place_in(source_.file, source_.text, offset_bytes), std::string(warning));
    in_body_ = true;
    for (std::size_t i = 0; i < tune_.voices.size(); ++i) add_writer(i);
    current_ = 0;
  }

  void add_writer(std::size_t index) {
    writers_.emplace_back(source_, header_, tune_.voices[index], notices_);
    writers_.back().user_signs = user_signs_;
    writers_.back().set_staff(staffs_[index]);
  }

  /// The voice being written; a tune that names none has one without a name.
  VoiceWriter& voice() {
    if (writers_.empty()) {
      tune_.voices.emplace_back();
      staffs_.push_back({});
      add_writer(0);
    }
    return writers_[current_];
  }

  const AbcText& source_;
  Notices& notices_;
  AbcSettings header_;
  bool in_body_ = false;
  std::vector<VoiceWriter> writers_;
  std::vector<AbcStaff> staffs_;  // as the header describes the voices
  std::size_t current_ = 0;
  std::optional<double> tempo_;
  std::string user_signs_;
  std::string left_out_;
  std::size_t left_out_offset_ = 0;
  WrittenTune tune_;
};

}  // namespace

WrittenTune read_tune(const AbcText& source, const AbcTune& tune, Notices& notices) {
  TuneReader reader(source, notices);
  for (const AbcLine& line : tune.lines) {
    try {
      reader.read_line(line);
    } catch (const std::overflow_error&) {
      refuse(source, line.offset_bytes, "the lengths of this line add up to nothing that can be played; check them");
    }
  }
  return std::move(reader).finish();
}

}  // namespace insideline::io
