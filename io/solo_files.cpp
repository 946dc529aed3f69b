#include "io/solo_files.hpp"

#include "analyzer/small_letters.hpp"
#include "io/read_result.hpp"

#include <fmt/format.h>
#include <sys/stat.h>

#include <algorithm>
#include <array>
#include <set>
#include <system_error>
#include <utility>

namespace insideline::io {
namespace {

bool is_hidden(const std::filesystem::path& file) { return file.filename().string().starts_with('.'); }

bool lies_below(const std::filesystem::path& file, const std::filesystem::path& folder) {
  return std::ranges::mismatch(folder, file).in1 == folder.end();
}

class Search {
 public:
  Search(const std::filesystem::path& root, LinksOut links_out, const std::function<void(std::size_t)>& progress)
      : root_(std::filesystem::canonical(root)), links_out_(links_out), progress_(progress) {}

  void look_into(const std::filesystem::path& folder) {
    struct stat about {};
    if (::stat(folder.c_str(), &about) != 0 || !visited_.insert({about.st_dev, about.st_ino}).second) return;
    std::error_code failed;
    std::vector<std::filesystem::directory_entry> entries;  // with what the folder says of them: no look at each
    for (std::filesystem::directory_iterator entry(folder, failed), end; !failed && entry != end;
         entry.increment(failed))
      entries.push_back(*entry);
    if (failed) found.unreachable.push_back({folder.string(), "the folder cannot be read: " + failed.message()});
    std::ranges::sort(entries);
    if (progress_) progress_(found.files.size());
    for (const std::filesystem::directory_entry& entry : entries) {
      if (is_hidden(entry) || leads_out(entry)) continue;
      std::error_code ignored;
      if (entry.is_directory(ignored)) {
        look_into(entry);
      } else if (is_solo_name(entry)) {
        take(entry);
      }
    }
  }

  FoundSolos found;

 private:
  /// Notes the link where it may not be followed.
  bool leads_out(const std::filesystem::directory_entry& link) {
    std::error_code failed;
    if (links_out_ == LinksOut::followed || !link.is_symlink(failed)) return false;
    const std::filesystem::path& entry = link.path();
    const std::filesystem::path target = std::filesystem::canonical(entry, failed);
    if (failed || lies_below(target, root_)) return false;
    if (std::filesystem::is_directory(target, failed) || is_solo_name(entry)) found.links_out.push_back(entry.string());
    return true;
  }

  void take(const std::filesystem::directory_entry& entry) {
    const std::string file = entry.path().string();
    std::error_code unknown;
    if (entry.is_regular_file(unknown)) {
      found.files.push_back(file);
      return;
    }
    const std::filesystem::file_status status = entry.status(unknown);
    if (status.type() == std::filesystem::file_type::not_found)
      found.unreachable.push_back({file, "the link leads nowhere"});
    else
      found.unreachable.push_back(
          {file, unknown ? "the file cannot be reached: " + unknown.message() : "this is not a file"});
  }

  std::filesystem::path root_;
  LinksOut links_out_;
  const std::function<void(std::size_t)>& progress_;
  std::set<std::pair<dev_t, ino_t>> visited_;
};

std::optional<std::string> file_beside(const std::string& solo, const char* ending) {
  const std::filesystem::path beside = std::filesystem::path(solo).replace_extension(ending);
  std::error_code ignored;
  if (!std::filesystem::exists(beside, ignored)) return std::nullopt;
  return beside.string();
}

}  // namespace

bool is_solo_name(const std::filesystem::path& file) {
  constexpr std::array endings{".musicxml", ".xml", ".mxl", ".mid", ".midi", ".abc"};
  return std::ranges::find(endings, in_small_letters(file.extension().string())) != endings.end();
}

FoundSolos find_solos(const std::filesystem::path& folder, LinksOut links_out,
                      const std::function<void(std::size_t)>& progress) {
  std::error_code failed;
  const std::filesystem::file_status status = std::filesystem::status(folder, failed);
  if (!std::filesystem::exists(status))
    throw ReadError(place_of(folder.string()), "there is no such folder; check its name");
  Search search(folder, links_out, progress);
  if (std::filesystem::is_regular_file(status))
    search.found.files.push_back(folder.string());
  else
    search.look_into(folder);
  std::ranges::sort(search.found.files);
  return std::move(search.found);
}

std::optional<std::string> changes_beside(const std::string& solo) { return file_beside(solo, ".changes"); }

std::optional<std::string> hearing_beside(const std::string& solo) { return file_beside(solo, ".hearing"); }

std::string file_stamp(const std::string& file) {
  struct stat about {};
  if (::stat(file.c_str(), &about) != 0) return {};
  return fmt::format("{}:{}.{:09}", about.st_size, about.st_mtim.tv_sec, about.st_mtim.tv_nsec);
}

bool may_be_score(const std::string& file, std::string_view bytes) {
  if (in_small_letters(std::filesystem::path(file).extension().string()) != ".xml") return true;
  const bool two_bytes_a_letter = bytes.substr(0, 4).find('\0') != std::string_view::npos;
  return two_bytes_a_letter || bytes.find("score-partwise") != std::string_view::npos ||
         bytes.find("score-timewise") != std::string_view::npos;
}

}  // namespace insideline::io
