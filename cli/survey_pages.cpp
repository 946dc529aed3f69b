#include "cli/survey_pages.hpp"

#include "cli/output.hpp"
#include "reports/html/html_report.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <set>
#include <string_view>
#include <system_error>

namespace insideline::cli {
namespace {

/// The surveyed folder without what ends it, so that it has a name.
std::filesystem::path root_of(const std::string& folder) {
  const std::filesystem::path whole = std::filesystem::absolute(folder).lexically_normal();
  return whole.has_filename() ? whole : whole.parent_path();
}

/// Where a solo lies below its folder.
std::filesystem::path below_root(const std::filesystem::path& root, const std::string& path) {
  const std::filesystem::path whole = std::filesystem::absolute(path).lexically_normal();
  const std::filesystem::path below = whole.lexically_relative(root);
  return below.empty() || below == "." || *below.begin() == ".." ? whole.filename() : below;
}

bool stands_as_it_is(char character) {
  constexpr std::string_view others = "-._~/";
  return (character >= 'a' && character <= 'z') || (character >= 'A' && character <= 'Z') ||
         (character >= '0' && character <= '9') || others.find(character) != std::string_view::npos;
}

}  // namespace

std::map<std::string, std::string> page_files(const SurveyOptions& options, const SurveyedFiles& files,
                                              const std::string& folder) {
  std::map<std::string, std::string> pages;
  std::set<std::string> taken;
  for (const SurveyedFile& file : files.found) {
    const std::filesystem::path root = root_of(options.folders[file.root]);
    const std::filesystem::path below = below_root(root, file.path);
    const std::filesystem::path name = options.folders.size() > 1 ? root.filename() / below : below;
    std::string page = (std::filesystem::path(folder) / name).string() + ".html";
    for (int copy = 2; !taken.insert(page).second; ++copy)
      page = (std::filesystem::path(folder) / name).string() + fmt::format("-{}.html", copy);
    pages.emplace(file.path, std::move(page));
  }
  return pages;
}

void write_solo_page(const SurveyOptions& options, const std::string& path, const std::string& page) {
  SoloOptions reading = options.reading;
  reading.solo = path;
  reading.pitch.reader = reports::ReadBy::player_of_the_part;
  const std::filesystem::path folder = std::filesystem::path(page).parent_path();
  std::error_code failed;
  if (!folder.empty()) std::filesystem::create_directories(folder, failed);
  if (failed) throw OutputError(folder, failed.message());
  PendingFile file(page, reports::html_report(analyzed(reading)));
  file.commit();
}

std::string link_between(const std::string& from, const std::string& to) {
  const std::filesystem::path base =
      is_standard_output(from) ? std::filesystem::current_path() : std::filesystem::absolute(from).parent_path();
  const std::string relative =
      std::filesystem::absolute(to).lexically_normal().lexically_relative(base.lexically_normal()).generic_string();
  std::string link;
  for (const char character : relative)
    link += stands_as_it_is(character) ? std::string(1, character)
                                       : fmt::format("%{:02X}", static_cast<unsigned char>(character));
  return link;
}

}  // namespace insideline::cli
