#include "io/musicxml/container.hpp"

#include "io/musicxml/libzip_on_demand.hpp"

#include <fmt/format.h>
#include <zip.h>
#include <pugixml.hpp>

#include <algorithm>
#include <array>
#include <cstring>
#include <memory>
#include <optional>

namespace insideline::io {
namespace {

constexpr std::size_t largest_archive_bytes = std::size_t{16} << 20U;
constexpr std::size_t largest_entry_bytes = std::size_t{32} << 20U;
constexpr zip_int64_t most_entries = 1000;
constexpr std::string_view score_media_type = "application/vnd.recordare.musicxml+xml";

struct CloseArchive {
  void operator()(zip_t* archive) const noexcept { zip_discard(archive); }
};
using Archive = std::unique_ptr<zip_t, CloseArchive>;

struct CloseEntry {
  void operator()(zip_file_t* entry) const noexcept { zip_fclose(entry); }
};
using Entry = std::unique_ptr<zip_file_t, CloseEntry>;

[[noreturn]] void refuse(std::string_view file_name, std::string_view why) {
  throw ReadError(place_of(file_name), why);
}

Archive open_archive(std::string_view bytes, std::string_view file_name) {
  load_libzip(file_name);
  zip_error_t error;
  zip_error_init(&error);
  zip_source_t* const source = zip_source_buffer_create(bytes.data(), bytes.size(), 0, &error);
  zip_t* const archive = source == nullptr ? nullptr : zip_open_from_source(source, ZIP_RDONLY | ZIP_CHECKCONS, &error);
  if (archive == nullptr) {
    if (source != nullptr) zip_source_free(source);
    const std::string reason = zip_error_strerror(&error);
    zip_error_fini(&error);
    refuse(file_name, fmt::format("the compressed score is damaged ({}); export it again", reason));
  }
  zip_error_fini(&error);
  return Archive(archive);
}

/// Size, method and encryption, before a byte is unpacked.
zip_stat_t checked_entry(zip_t* archive, zip_uint64_t index, std::string_view file_name) {
  zip_stat_t entry;
  zip_stat_init(&entry);
  if (zip_stat_index(archive, index, 0, &entry) != 0 || (entry.valid & ZIP_STAT_SIZE) == 0)
    refuse(file_name, "the compressed score has an entry without a size; export it again");
  if (entry.size > largest_entry_bytes)
    refuse(file_name, fmt::format("\"{}\" would unpack to {} MiB, more than the 32 that are read; export it again",
                                  entry.name, entry.size >> 20U));
  if (entry.encryption_method != ZIP_EM_NONE) refuse(file_name, "the compressed score is locked with a password");
  if (entry.comp_method != ZIP_CM_STORE && entry.comp_method != ZIP_CM_DEFLATE)
    refuse(file_name, "the compressed score is packed in a way that MusicXML does not allow; export it again");
  return entry;
}

/// Reads to the end, so that the checksum is verified, and never past the declared size.
std::string entry_bytes(zip_t* archive, zip_uint64_t index, std::string_view file_name) {
  const zip_stat_t declared = checked_entry(archive, index, file_name);
  const Entry entry(zip_fopen_index(archive, index, 0));
  if (!entry) refuse(file_name, fmt::format("\"{}\" in the compressed score cannot be unpacked", declared.name));
  std::string bytes;
  std::array<char, 65536> buffer{};
  zip_int64_t got = 0;
  while ((got = zip_fread(entry.get(), buffer.data(), buffer.size())) > 0) {
    if (bytes.size() + static_cast<std::size_t>(got) > declared.size) break;
    bytes.append(buffer.data(), static_cast<std::size_t>(got));
  }
  if (got != 0 || bytes.size() != declared.size)
    refuse(file_name, fmt::format("\"{}\" in the compressed score is damaged; export it again", declared.name));
  return bytes;
}

/// The first rootfile of the container; none where the container does not say.
std::optional<std::string> rootfile_path(const std::string& container, std::string_view file_name) {
  pugi::xml_document document;
  if (!document.load_buffer(container.data(), container.size())) return std::nullopt;
  const pugi::xml_node rootfile = document.child("container").child("rootfiles").child("rootfile");
  const std::string_view media_type = rootfile.attribute("media-type").as_string();
  if (!media_type.empty() && media_type != score_media_type)
    refuse(file_name, fmt::format("the first file of the container is \"{}\", not a MusicXML score", media_type));
  const std::string path = rootfile.attribute("full-path").as_string();
  if (path.empty()) return std::nullopt;
  return path;
}

bool looks_like_score(std::string_view name) {
  if (name.starts_with("META-INF/") || name.starts_with("__MACOSX/")) return false;
  return name.ends_with(".musicxml") || name.ends_with(".xml");
}

std::optional<zip_uint64_t> first_score(zip_t* archive, zip_uint64_t entries) {
  for (zip_uint64_t index = 0; index < entries; ++index) {
    const char* const name = zip_get_name(archive, index, 0);
    if (name != nullptr && looks_like_score(name)) return index;
  }
  return std::nullopt;
}

std::optional<zip_uint64_t> entry_named(zip_t* archive, const std::string& name) {
  const zip_int64_t index = zip_name_locate(archive, name.c_str(), 0);
  if (index < 0) return std::nullopt;
  return static_cast<zip_uint64_t>(index);
}

/// The entry that the container points to; none where there is no sound container.
std::optional<zip_uint64_t> named_score(zip_t* archive, std::string_view file_name) {
  const auto container = entry_named(archive, container_name);
  if (!container) return std::nullopt;
  const auto path = rootfile_path(entry_bytes(archive, *container, file_name), file_name);
  return path ? entry_named(archive, *path) : std::nullopt;
}

}  // namespace

bool is_zip(std::string_view bytes) { return bytes.starts_with("PK\x03\x04") || bytes.starts_with("PK\x05\x06"); }

ScoreInContainer unpack_score(std::string_view bytes, std::string_view file_name) {
  if (bytes.size() > largest_archive_bytes)
    refuse(file_name, "the compressed score has more than 16 MiB; is it the right file?");
  const Archive archive = open_archive(bytes, file_name);
  const zip_int64_t entries = zip_get_num_entries(archive.get(), 0);
  if (entries < 1 || entries > most_entries)
    refuse(file_name, fmt::format("the compressed file holds {} files, which no score does", entries));
  ScoreInContainer score;
  auto index = named_score(archive.get(), file_name);
  if (!index) {
    score.container_is_broken = true;
    index = first_score(archive.get(), static_cast<zip_uint64_t>(entries));
    if (!index) refuse(file_name, "there is no score in this compressed file; export it as MusicXML");
    score.warnings.push_back(
        {place_of(file_name), fmt::format("the container names no score; took \"{}\", the first inside",
                                          zip_get_name(archive.get(), *index, 0))});
  }
  score.bytes = entry_bytes(archive.get(), *index, file_name);
  score.entry_name = zip_get_name(archive.get(), *index, 0);
  score.file_name = fmt::format("{}({})", file_name, score.entry_name);
  return score;
}

}  // namespace insideline::io
