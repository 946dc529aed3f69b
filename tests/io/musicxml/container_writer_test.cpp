#include "io/musicxml/container_writer.hpp"

#include "io/musicxml/container.hpp"
#include "io/read_result.hpp"
#include "tests/io/musicxml/score_shorthand.hpp"

#include <zip.h>
#include <catch2/catch.hpp>

#include <memory>
#include <string>

using Catch::Matchers::Contains;
using insideline::io::packed_score;
using insideline::io::unpack_score;
using std::string;

namespace {

/// The names in an archive, one a line.
string names_in(const string& archive) {
  zip_source_t* const source = zip_source_buffer_create(archive.data(), archive.size(), 0, nullptr);
  zip_t* const opened = zip_open_from_source(source, ZIP_RDONLY, nullptr);
  REQUIRE(opened != nullptr);
  string names;
  for (zip_int64_t i = 0; i < zip_get_num_entries(opened, 0); ++i)
    names += string(zip_get_name(opened, static_cast<zip_uint64_t>(i), 0)) + "\n";
  zip_discard(opened);
  return names;
}

}  // namespace

TEST_CASE("a packed score is read back as it was, and the same score gives the same archive") {
  const string score = insideline::tests::score_xml("C4:4");
  const string packed = packed_score(score, "", "new.mxl");
  CHECK(insideline::io::is_zip(packed));
  const auto inside = unpack_score(packed, "new.mxl");
  CHECK(inside.bytes == score);
  CHECK(inside.file_name == "new.mxl(score.musicxml)");
  CHECK(inside.warnings.empty());
  CHECK(packed_score(score, "", "new.mxl") == packed);
}

TEST_CASE("a score that is replaced keeps its name and what lies beside it") {
  const string original = packed_score("<score-partwise/>", "", "a.mxl");
  const string replaced = packed_score(insideline::tests::score_xml("D4:4"), original, "a.mxl");
  CHECK(names_in(replaced) == "META-INF/container.xml\nscore.musicxml\n");
  CHECK(unpack_score(replaced, "a.mxl").bytes == insideline::tests::score_xml("D4:4"));
  CHECK(packed_score(insideline::tests::score_xml("D4:4"), original, "a.mxl") == replaced);
}

TEST_CASE("an archive that is damaged cannot be packed again") {
  const string packed = packed_score("<score-partwise/>", "", "a.mxl");
  CHECK_THROWS_WITH(packed_score("x", packed.substr(0, packed.size() / 2), "a.mxl"),
                    Contains("the compressed score is damaged"));
}
