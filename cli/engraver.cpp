#include "cli/engraver.hpp"

#include "cli/child_process.hpp"
#include "cli/output.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <future>
#include <iterator>
#include <span>
#include <string_view>
#include <thread>

namespace insideline::cli {
namespace {

constexpr std::string_view not_installed =
    "LilyPond, which engraves the sheets, is not installed; on Debian: apt-get install lilypond";

constexpr std::string_view reinstall = "is the `lilypond` on PATH the real one?";

/// The first line that LilyPond calls an error, or the last one it wrote.
std::string complaint_in(std::string_view text) {
  std::string_view chosen;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    const std::string_view line = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    if (!line.empty()) chosen = line;
    if (line.find("error") != std::string_view::npos) break;
  }
  constexpr std::size_t longest = 200;
  return std::string(chosen.substr(0, longest));
}

/// Throws where a sheet that is to be one page was pressed into it, so that text stands over text.
void expect_room(std::span<const std::string> texts, std::string_view said) {
  constexpr std::string_view is_too_full = "compressing over-full page by ";
  constexpr double hardly_seen = 4.0;  // distances of staff lines, over the whole page
  const bool on_one_page = std::ranges::any_of(
      texts, [](const std::string& text) { return text.find("(define on-one-page #t)") != std::string::npos; });
  if (!on_one_page) return;
  for (std::size_t at = said.find(is_too_full); at != std::string_view::npos; at = said.find(is_too_full, at + 1)) {
    const std::string number(said.substr(at + is_too_full.size(), 16));
    if (std::strtod(number.c_str(), nullptr) > hardly_seen)
      throw EngravingError(
          "it does not fit on one page; print a part of it with --bars, ask for fewer tasks with --tasks, or leave "
          "--one-page out");
  }
}

/// Throws where LilyPond did not end well.
void expect_success(const ChildResult& result, std::string_view instead) {
  switch (result.end) {
    case ChildEnd::exited:
      if (result.exit_status == 0) return;
      throw EngravingError(fmt::format("LilyPond could not engrave the sheet: {}", complaint_in(result.text)));
    case ChildEnd::not_found: throw EngravingError(fmt::format("{}\n  {}", not_installed, instead));
    case ChildEnd::not_started: throw EngravingError("LilyPond cannot be started: " + result.text);
    case ChildEnd::killed:
      throw EngravingError("LilyPond needed more memory or time than it is given; --bars prints a part of the solo");
    case ChildEnd::out_of_time:
      throw EngravingError("LilyPond did not finish in half an hour; --bars prints a part of the solo");
    case ChildEnd::interrupted: throw EngravingError("interrupted");
  }
}

std::string bytes_of(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

/// The systems of one text: sheet-1.svg, sheet-2.svg ...
std::vector<std::string> systems_of(const std::string& text, std::chrono::seconds time_limit,
                                    const SignalsHeld& signals) {
  const PrivateFolder folder;
  PendingFile(folder.path() / "sheet.ly", text).commit();
  const ChildResult result =
      run_child({"lilypond", "--silent", "-dno-point-and-click", "--svg", "-o", "sheet", "sheet.ly"}, folder.path(),
                {.processor_time = time_limit}, signals);
  expect_success(result, engraved_elsewhere("insideline handout --ly FILE"));
  std::vector<std::string> systems;
  for (std::size_t number = 1;; ++number) {
    const auto file = folder.path() / fmt::format("sheet-{}.svg", number);
    if (!std::filesystem::exists(file)) break;
    systems.push_back(bytes_of(file));
  }
  if (systems.empty()) throw EngravingError("LilyPond ended well but drew nothing; " + std::string(reinstall));
  return systems;
}

/// All texts in one run.
std::vector<std::string> pdfs_of(std::span<const std::string> texts, std::chrono::seconds time_limit,
                                 std::string_view instead, const SignalsHeld& signals) {
  const PrivateFolder folder;
  std::vector<std::string> command{"lilypond", "--loglevel=WARNING", "-dno-point-and-click", "--pdf"};
  for (std::size_t i = 0; i < texts.size(); ++i) {
    command.push_back(fmt::format("sheet-{}.ly", i + 1));
    PendingFile(folder.path() / command.back(), texts[i]).commit();
  }
  const auto limit = time_limit * static_cast<std::chrono::seconds::rep>(texts.size());
  const ChildResult result = run_child(command, folder.path(), {.processor_time = limit}, signals);
  expect_success(result, instead);
  expect_room(texts, result.text);
  std::vector<std::string> pdfs;
  for (const std::string& file : std::span(command).last(texts.size())) {
    pdfs.push_back(bytes_of((folder.path() / file).replace_extension(".pdf")));
    if (!pdfs.back().starts_with("%PDF-"))
      throw EngravingError("LilyPond ended well but left no page; " + std::string(reinstall));
  }
  return pdfs;
}

}  // namespace

std::string engraved_elsewhere(std::string_view command) {
  return fmt::format("`{}` writes a sheet as LilyPond text, to be engraved on another machine", command);
}

std::string engraved_pdf(std::string_view text, std::chrono::seconds time_limit, std::string_view instead) {
  return engraved_pdfs({std::string(text)}, time_limit, instead).front();
}

std::vector<std::string> engraved_pdfs(const std::vector<std::string>& texts, std::chrono::seconds time_limit,
                                       std::string_view instead) {
  // First the signals, so that they arrive when the folders are gone.
  const SignalsHeld signals;
  const std::size_t cores = std::max(1U, std::thread::hardware_concurrency());
  const std::size_t share = (texts.size() + cores - 1) / cores;
  std::vector<std::future<std::vector<std::string>>> running;
  for (std::size_t first = 0; first < texts.size(); first += share) {
    const auto some = std::span(texts).subspan(first, std::min(share, texts.size() - first));
    running.push_back(
        std::async(std::launch::async, [=, &signals] { return pdfs_of(some, time_limit, instead, signals); }));
  }
  std::vector<std::string> pdfs;
  for (auto& run : running) std::ranges::move(run.get(), std::back_inserter(pdfs));
  return pdfs;
}

std::vector<std::string> engraved_systems(const std::vector<std::string>& texts, std::chrono::seconds time_limit,
                                          const std::function<void(std::size_t)>& done) {
  const SignalsHeld signals;
  const std::size_t side_by_side = std::max(1U, std::thread::hardware_concurrency());
  std::vector<std::string> systems;
  for (std::size_t first = 0; first < texts.size(); first += side_by_side) {
    std::vector<std::future<std::vector<std::string>>> running;
    for (std::size_t i = first; i < std::min(texts.size(), first + side_by_side); ++i)
      running.push_back(std::async(std::launch::async, [&, i] { return systems_of(texts[i], time_limit, signals); }));
    for (auto& piece : running) {
      std::ranges::move(piece.get(), std::back_inserter(systems));
      done(std::min(texts.size(), first + static_cast<std::size_t>(&piece - running.data()) + 1));
    }
  }
  return systems;
}

}  // namespace insideline::cli
