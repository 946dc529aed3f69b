#include "cli/destinations.hpp"

#include "cli/hearing_option.hpp"
#include "cli/output.hpp"
#include "cli/solo_options.hpp"
#include "io/solo_files.hpp"

#include <sys/stat.h>

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <array>
#include <filesystem>
#include <system_error>

namespace insideline::cli {
namespace {

constexpr std::array beside_a_database{"-wal", "-shm", "-journal"};

/// Where links lead, followed to their end even if nothing is there yet.
std::filesystem::path end_of_links(std::filesystem::path file) {
  constexpr int most_links = 40;  // as many as Linux follows
  std::error_code failed;
  for (int links = 0; links < most_links && std::filesystem::is_symlink(file, failed); ++links) {
    const std::filesystem::path target = std::filesystem::read_symlink(file, failed);
    if (failed) break;
    file = target.is_absolute() ? target : file.parent_path() / target;
  }
  return file;
}

[[noreturn]] void refuse(const std::string& option, const std::string& destination, const std::string& other) {
  std::string message = destination + " would overwrite another file of this command";
  if (other != destination) message += fmt::format(": it is the same file as {}", other);
  throw CLI::ValidationError(option, message);
}

}  // namespace

std::optional<Destinations::Identity> Destinations::identity_of(const std::string& file) {
  struct stat about {};
  if (::stat(file.c_str(), &about) == 0) {
    if (!S_ISREG(about.st_mode) && !S_ISDIR(about.st_mode)) return std::nullopt;
    return Identity{about.st_dev, about.st_ino, {}};
  }
  const std::filesystem::path target = end_of_links(file);
  const std::filesystem::path folder = target.has_parent_path() ? target.parent_path() : ".";
  if (::stat(folder.c_str(), &about) != 0) return Identity{0, 0, target.lexically_normal().string()};
  return Identity{about.st_dev, about.st_ino, target.filename().string()};
}

void Destinations::add(const std::string& option, const std::string& destination) {
  if (is_standard_output(destination)) {
    if (standard_output_taken_) throw CLI::ValidationError(option, "only one report can go to standard output");
    standard_output_taken_ = true;
    return;
  }
  Destination added{option, destination, identity_of(destination)};
  for (const Destination& other : all_)
    if (added.identity && added.identity == other.identity) refuse(option, destination, other.name);
  all_.push_back(std::move(added));
}

void Destinations::add(const std::string& option, const std::optional<std::string>& destination) {
  if (destination) add(option, *destination);
}

void Destinations::add_database(const std::string& option, const std::string& database) {
  add(option, database);
  for (const char* ending : beside_a_database) add(option, database + ending);
}

void Destinations::spare(const std::string& file) const {
  if (all_.empty()) return;
  const std::optional<Identity> identity = identity_of(file);
  for (const Destination& destination : all_)
    if (identity && identity == destination.identity) refuse(destination.option, destination.name, file);
}

void Destinations::spare(const std::optional<std::string>& file) const {
  if (file) spare(*file);
}

void Destinations::spare_database(const std::string& database) const {
  spare(database);
  for (const char* ending : beside_a_database) spare(database + ending);
}

void Destinations::spare_all_of(const SoloOptions& options) const {
  spare(options.solo);
  spare(options.changes);
  spare(options.beats_file);
  if (!options.changes) spare(io::changes_beside(options.solo));
  spare(hearing_file_of(options));
}

}  // namespace insideline::cli
