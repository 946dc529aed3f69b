#include "io/musicxml/container_writer.hpp"
#include "tests/io/musicxml/score_shorthand.hpp"

#include <zip.h>
#include <catch2/catch.hpp>

#include <string>
#include <utility>
#include <vector>

using insideline::io::parse_musicxml;
using insideline::tests::notes_of;
using insideline::tests::refusal_of;
using insideline::tests::score_xml;
using insideline::tests::warning_lines;
using std::string;

namespace {

using Entries = std::vector<std::pair<string, string>>;

string bytes_of(zip_source_t* source) {
  zip_source_open(source);
  zip_source_seek(source, 0, SEEK_END);
  string bytes(static_cast<std::size_t>(zip_source_tell(source)), '\0');
  zip_source_seek(source, 0, SEEK_SET);
  zip_source_read(source, bytes.data(), bytes.size());
  zip_source_close(source);
  return bytes;
}

string zip_of(const Entries& entries) {
  zip_error_t error;
  zip_error_init(&error);
  zip_source_t* const source = zip_source_buffer_create(nullptr, 0, 0, &error);
  zip_source_keep(source);
  zip_t* const archive = zip_open_from_source(source, ZIP_TRUNCATE, &error);
  for (const auto& [name, content] : entries)
    zip_file_add(archive, name.c_str(), zip_source_buffer(archive, content.data(), content.size(), 0),
                 ZIP_FL_ENC_UTF_8);
  zip_close(archive);
  string bytes = bytes_of(source);
  zip_source_free(source);
  return bytes;
}

string container(const string& rootfiles) {
  return "<?xml version=\"1.0\"?><container><rootfiles>" + rootfiles + "</rootfiles></container>";
}

const string score = score_xml("C4:4");
const string other = score_xml("D4:4");
constexpr const char* container_name = "META-INF/container.xml";

}  // namespace

TEST_CASE("a compressed score is the first that its container names") {
  const string rootfiles = GENERATE(
      string("<rootfile full-path=\"b/solo.musicxml\"/>"),
      string("<rootfile full-path=\"b/solo.musicxml\" media-type=\"application/vnd.recordare.musicxml+xml\"/>"),
      string(
          "<rootfile full-path=\"b/solo.musicxml\"/><rootfile full-path=\"a.pdf\" media-type=\"application/pdf\"/>"));
  const auto read = parse_musicxml(zip_of({{"mimetype", "application/vnd.recordare.musicxml"},
                                           {container_name, container(rootfiles)},
                                           {"a.xml", other},
                                           {"b/solo.musicxml", score}}),
                                   "solo.mxl");
  CHECK(notes_of(read) == "C4@0:4");
  CHECK(read.warnings.empty());
}

TEST_CASE("a broken container is told, and the first score inside is taken") {
  const Entries entries = GENERATE(
      Entries{{"solo.xml", score}}, Entries{{container_name, "<container>"}, {"solo.xml", score}},
      Entries{{container_name, container("<rootfile full-path=\"missing.xml\"/>")},
              {"readme.txt", "-"},
              {"solo.musicxml", score}},
      Entries{
          {container_name, container("")}, {"__MACOSX/._solo.xml", "-"}, {"solo.xml", score}, {"second.xml", other}});
  const auto read = parse_musicxml(zip_of(entries), "solo.mxl");
  CHECK(notes_of(read) == "C4@0:4");
  CHECK(warning_lines(read).find("solo.mxl: the container names no score; took \"solo.") == 0);
  // Written back, it is whole.
  const string again = insideline::io::packed_score(score, zip_of(entries), "solo.mxl");
  const auto whole = parse_musicxml(again, "solo.mxl");
  CHECK(notes_of(whole) == "C4@0:4");
  CHECK(whole.warnings.empty());
}

TEST_CASE("an error inside names the archive and the score in it") {
  CHECK(
      refusal_of(zip_of({{"solo.xml", "<html/>"}})).find("solo.musicxml(solo.xml):1:2: this is XML but not MusicXML") ==
      0);
}

TEST_CASE("an archive that holds no score is refused") {
  const auto [entries, expected] = GENERATE(table<Entries, string>({
      {{{"readme.txt", "-"}}, "there is no score in this compressed file"},
      {{{container_name, container("<rootfile full-path=\"a.pdf\" media-type=\"application/pdf\"/>")}, {"a.pdf", "-"}},
       "the first file of the container is \"application/pdf\", not a MusicXML score"},
      {{{"solo.xml", string(std::size_t{33} << 20U, ' ')}},
       "\"solo.xml\" would unpack to 33 MiB, more than the 32 that are read"},
  }));
  CHECK(refusal_of(zip_of(entries)).find(expected) != string::npos);
}

TEST_CASE("an archive of too many files is refused") {
  Entries entries;
  for (int i = 0; i < 1001; ++i) entries.emplace_back(std::to_string(i) + ".xml", "-");
  CHECK(refusal_of(zip_of(entries)).find("the compressed file holds 1001 files") != string::npos);
}

TEST_CASE("an archive with a byte changed anywhere is refused or gives the same notes") {
  const string whole = zip_of({{container_name, container("<rootfile full-path=\"solo.xml\"/>")}, {"solo.xml", score}});
  for (std::size_t i = 0; i < whole.size(); i += 3) {
    string changed = whole;
    changed[i] = static_cast<char>(changed[i] ^ 0x55);
    CAPTURE(i);
    const string message = refusal_of(changed);
    if (message.empty())
      CHECK(notes_of(parse_musicxml(changed, "solo.mxl")) == "C4@0:4");
    else
      CHECK(message.starts_with("solo.m"));
  }
}

TEST_CASE("an archive cut off anywhere is refused") {
  const string whole = zip_of({{"solo.xml", score}});
  for (std::size_t length = 4; length < whole.size(); length += 5) {
    CAPTURE(length);
    CHECK(refusal_of(whole.substr(0, length)).find("the compressed score is damaged") != string::npos);
  }
}

TEST_CASE("an entry that unpacks to more than it says is refused") {
  string lying = zip_of({{"solo.xml", score + string(100'000, ' ')}});
  const auto put_size = [&](std::size_t place) { lying.replace(place, 4, string("\x64\0\0\0", 4)); };
  put_size(22);                              // uncompressed size in the local header
  put_size(lying.rfind("PK\x01\x02") + 24);  // and in the central directory
  CHECK(refusal_of(lying).find("is damaged; export it again") != string::npos);
}
