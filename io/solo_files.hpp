// The solos under a folder: which files they are, in an order that does not depend on the disk.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace insideline::io {

/// A folder or file that could not be looked at.
struct Unreachable {
  std::string path;
  std::string reason;
};

struct FoundSolos {
  std::vector<std::string> files;        ///< sorted; each begins with the folder as it was given
  std::vector<Unreachable> unreachable;  ///< in the order met
  std::vector<std::string> links_out;    ///< symbolic links that lead out of the folder and were not followed
};

/// Whether the name ends as that of a score or a MIDI file, in capitals or not: .musicxml, .xml, .mxl, .mid, .midi,
/// .abc.
bool is_solo_name(const std::filesystem::path& file);

enum class LinksOut : std::uint8_t { left_out, followed };

/// Every file below `folder` whose name is that of a solo, which may be such a file itself. Symbolic
/// links are followed where they stay in the folder; a folder that was visited is not visited again, so that links in a
/// circle end. Hidden folders are left out. `progress` is told now and then how many files were found. Throws ReadError
/// where `folder` does not exist.
FoundSolos find_solos(const std::filesystem::path& folder, LinksOut links_out = LinksOut::left_out,
                      const std::function<void(std::size_t)>& progress = {});

/// The changes file of the same base name beside `solo`, if there is one.
std::optional<std::string> changes_beside(const std::string& solo);

/// The file of the same base name beside `solo` with what a listener says of its notes, if there is one.
std::optional<std::string> hearing_beside(const std::string& solo);

/// Size and time of the last change, to see without reading that a file is as it was; empty where it cannot be reached.
std::string file_stamp(const std::string& file);

/// False for an .xml file whose bytes hold no score: many programs keep their settings in such files.
bool may_be_score(const std::string& file, std::string_view bytes);

}  // namespace insideline::io
