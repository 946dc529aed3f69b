#include "io/musicxml/container_writer.hpp"

#include "io/musicxml/container.hpp"
#include "io/musicxml/libzip_on_demand.hpp"
#include "io/musicxml/xml_text.hpp"
#include "io/read_result.hpp"

#include <fmt/format.h>
#include <zip.h>

#include <memory>

namespace insideline::io {
namespace {

constexpr const char* new_score_name = "score.musicxml";
/// Source: MusicXML 4.0, "Compressed .mxl files".
std::string container_for(std::string_view score_name) {
  return fmt::format(
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<container><rootfiles><rootfile full-path=\"{}\" "
      "media-type=\"application/vnd.recordare.musicxml+xml\"/></rootfiles></container>\n",
      escaped(score_name));
}

struct DiscardArchive {
  void operator()(zip_t* archive) const noexcept { zip_discard(archive); }
};
struct FreeSource {
  void operator()(zip_source_t* source) const noexcept { zip_source_free(source); }
};

class ArchiveInMemory {
 public:
  ArchiveInMemory(std::string_view bytes, std::string_view file_name) : file_name_(file_name) {
    load_libzip(file_name);
    zip_error_t error;
    zip_error_init(&error);
    source_.reset(zip_source_buffer_create(bytes.empty() ? nullptr : bytes.data(), bytes.size(), 0, &error));
    if (source_) zip_source_keep(source_.get());  // it is read again after the archive is closed
    archive_.reset(source_ ? zip_open_from_source(source_.get(), bytes.empty() ? ZIP_CREATE | ZIP_TRUNCATE : 0, &error)
                           : nullptr);
    if (source_ && !archive_) zip_source_free(source_.get());
    zip_error_fini(&error);
    if (!archive_) fail();
  }

  /// Adds or replaces. `bytes` must live until `finish`.
  void put(const char* name, std::string_view bytes) {
    zip_source_t* const content = zip_source_buffer(archive_.get(), bytes.data(), bytes.size(), 0);
    const zip_int64_t index =
        content == nullptr ? -1 : zip_file_add(archive_.get(), name, content, ZIP_FL_OVERWRITE | ZIP_FL_ENC_UTF_8);
    if (index < 0) {
      if (content != nullptr) zip_source_free(content);
      fail();
    }
    // The clock would make every archive another one: 1980-01-01, the earliest a zip can say.
    if (zip_file_set_dostime(archive_.get(), static_cast<zip_uint64_t>(index), 0, (1U << 5U) | 1U, 0) != 0) fail();
  }

  std::string finish() {
    if (zip_close(archive_.get()) != 0) fail();
    static_cast<void>(archive_.release());
    zip_stat_t stat;
    zip_stat_init(&stat);
    if (zip_source_stat(source_.get(), &stat) != 0 || zip_source_open(source_.get()) != 0) fail();
    std::string bytes(stat.size, '\0');
    const zip_int64_t got = zip_source_read(source_.get(), bytes.data(), bytes.size());
    zip_source_close(source_.get());
    if (got < 0 || static_cast<std::size_t>(got) != bytes.size()) fail();
    return bytes;
  }

 private:
  [[noreturn]] void fail() const {
    throw ReadError(place_of(file_name_), "the compressed score cannot be written; write it as .musicxml instead");
  }

  std::string file_name_;
  std::unique_ptr<zip_source_t, FreeSource> source_;
  std::unique_ptr<zip_t, DiscardArchive> archive_;
};

}  // namespace

std::string packed_score(std::string_view score, std::string_view original, std::string_view file_name) {
  if (is_zip(original)) {
    const ScoreInContainer inside = unpack_score(original, file_name);
    ArchiveInMemory archive(original, file_name);
    archive.put(inside.entry_name.c_str(), score);
    const std::string container = container_for(inside.entry_name);
    if (inside.container_is_broken) archive.put(container_name, container);
    return archive.finish();
  }
  ArchiveInMemory archive({}, file_name);
  const std::string container = container_for(new_score_name);
  archive.put(container_name, container);
  archive.put(new_score_name, score);
  return archive.finish();
}

}  // namespace insideline::io
