// What a command is about to write, held against everything that it reads: one guard for all commands.
#pragma once

#include <sys/types.h>

#include <optional>
#include <string>

#include <vector>

namespace insideline::cli {

struct SoloOptions;

/// Files are told apart by what they are and not by how they are spelled: links, hard links and detours lead to the
/// same file. A command tells all its destinations, then all that it reads, before it opens any of them for writing.
/// Each of the functions throws CLI::ValidationError, which names the option, where a file would be lost.
class Destinations {
 public:
  /// "-" is standard output, which takes one report.
  void add(const std::string& option, const std::string& destination);
  void add(const std::string& option, const std::optional<std::string>& destination);
  /// Also the files that SQLite keeps beside a database while it is in use.
  void add_database(const std::string& option, const std::string& database);

  /// No destination may be this file, which the command reads.
  void spare(const std::string& file) const;
  void spare(const std::optional<std::string>& file) const;
  void spare_database(const std::string& database) const;
  /// The solo, its changes, its beats and what is heard in it.
  void spare_all_of(const SoloOptions& options) const;

 private:
  /// What a file is: its number on its disk, or its name in such a folder where it is not there yet.
  struct Identity {
    dev_t device = 0;
    ino_t number = 0;
    std::string name;
    bool operator==(const Identity&) const = default;
  };
  struct Destination {
    std::string option;
    std::string name;
    std::optional<Identity> identity;  ///< none for a device, which any number of reports may go to
  };
  static std::optional<Identity> identity_of(const std::string& file);

  std::vector<Destination> all_;
  bool standard_output_taken_ = false;
};

}  // namespace insideline::cli
