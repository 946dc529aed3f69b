#include "cli/sheet_solo.hpp"

#include "analyzer/collection/distribution.hpp"
#include "analyzer/drills/habits.hpp"
#include "analyzer/drills/usual_shares.hpp"
#include "cli/destinations.hpp"
#include "cli/solo_options.hpp"
#include "io/database/collection.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <cstddef>
#include <string_view>

namespace insideline::cli {
namespace {

/// Over its own changes: those of --solo-changes, in it or beside it, never the sheet's.
SoloOptions sheet_solo_options(const SheetSolo& solo, const std::string& file) {
  SoloOptions options;
  options.solo = file;
  options.changes = solo.changes;
  options.changes_option = "--solo-changes";
  options.changes_pitch = ChangesPitch::concert;
  return options;
}

/// What is usual in a collection: the middle solo of each figure; where too few solos have it, what the program states.
std::vector<UsualShare> usual_in(const std::string& database) {
  io::Collection collection(database, io::Access::read);
  const std::string name = file_name(database);
  const auto solos = static_cast<std::size_t>(collection.totals().solos);
  if (solos < fewest_for_fences)
    throw io::ReadError(io::place_of(name), fmt::format("too few solos to show what is usual: {}; that takes {}", solos,
                                                        fewest_for_fences));
  const std::vector<UsualShare> all_stated = stated_shares();
  std::vector<std::string_view> figures;
  for (const UsualShare& stated : all_stated) figures.emplace_back(stated.figure);
  const std::vector<std::vector<SoloValue>> columns = collection.values(figures);
  std::vector<UsualShare> usual;
  for (std::size_t i = 0; i < all_stated.size(); ++i) {
    const UsualShare& stated = all_stated[i];
    std::vector<double> values;
    for (const SoloValue& value : columns[i]) values.push_back(value.value);
    const bool is_enough = values.size() >= fewest_for_fences;
    const std::string where = fmt::format("the median of {} solos in {}", values.size(), name);
    usual.push_back(is_enough ? UsualShare{stated.figure, distribution_of(values).median, where} : stated);
  }
  return usual;
}

std::vector<std::string> follow_gaps(const SheetSolo& solo, DrillSettings& settings) {
  const std::vector<UsualShare> usual = solo.collection ? usual_in(*solo.collection) : stated_shares();
  const reports::Report report = analyzed(sheet_solo_options(solo, *solo.gaps));
  if (!is_long_enough(report.analysis))
    throw io::ReadError(io::place_of(report.source.solo_file),
                        "it is too short to say what it lacks; that takes 30 notes and 8 changes of chord");
  const std::vector<Gap> gaps = gaps_of(report.analysis, settings, usual);
  if (gaps.empty())
    return {"The solo lacks nothing that this program looks for; the sheet is the line of nearest tones."};
  settings = gaps.front().drill;
  std::vector<std::string> sentences{fmt::format("{} This sheet: {}.", gaps.front().sentence, gaps.front().exercise)};
  for (std::size_t i = 1; i < gaps.size(); ++i)
    sentences.push_back(fmt::format("{} For another sheet: {}.", gaps[i].sentence, gaps[i].exercise));
  return sentences;
}

}  // namespace

void add_sheet_solo_options(CLI::App& command, SheetSolo& solo) {
  const std::string group = "What is practised";
  auto* like = command.add_option("--like", solo.like, "Take cells, directions and connections over from this solo");
  auto* gaps = command.add_option("--gaps", solo.gaps,
                                  "Practise what this solo lacks: what never happens, or far less often than is usual");
  for (CLI::Option* option : {like, gaps}) option->option_text("SOLO")->group(group);
  command
      .add_option("--solo-changes", solo.changes,
                  "What the solo was played over, where neither it nor a file beside it says so")
      ->option_text("FILE")
      ->group(group);
  command
      .add_option("--against", solo.collection,
                  "With --gaps: what is usual, from a database of `survey`; default: the middle of our demo pieces")
      ->option_text("DB")
      ->group(group);
}

void spare_sheet_solo(const SheetSolo& solo, const Destinations& destinations) {
  for (const std::optional<std::string>& file : {solo.like, solo.gaps})
    if (file) destinations.spare_all_of(sheet_solo_options(solo, *file));
  destinations.spare(solo.changes);
  if (solo.collection) destinations.spare_database(*solo.collection);
}

std::vector<std::string> follow_solo(const SheetSolo& solo, DrillSettings& settings) {
  if (solo.like) return take_habits(analyzed(sheet_solo_options(solo, *solo.like)).analysis, settings).sentences;
  if (solo.gaps) return follow_gaps(solo, settings);
  return {};
}

}  // namespace insideline::cli
