#include "io/read_solo.hpp"

#include "io/read_result.hpp"
#include "tests/support/folders.hpp"
#include "tests/support/own_folder.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <string>

using insideline::io::read_solo;
using insideline::tests::OwnFolder;
using std::string;

namespace {

string refusal_of(const std::filesystem::path& file) {
  try {
    read_solo(file);
  } catch (const insideline::io::ReadError& error) {
    return error.what();
  }
  return {};
}

}  // namespace

TEST_CASE("a file that cannot be a solo is refused with its name and the way out") {
  const OwnFolder folder;
  CHECK(refusal_of(folder.path() / "missing.xml") ==
        (folder.path() / "missing.xml").string() + ": there is no such file; check the name and the folder");
  CHECK(refusal_of(folder.path()) == folder.path().string() + ": this is a folder; name a file in it");
  CHECK(refusal_of(folder.write("empty.xml", "")).find("empty.xml: the file is empty; export or save it again") !=
        string::npos);
  CHECK(refusal_of("/dev/null").find("this is not an ordinary file") != string::npos);
}

TEST_CASE("a file of two gigabytes is refused without being read") {
  const OwnFolder folder;
  const auto file = folder.write("huge.xml", "<");
  std::filesystem::resize_file(file, std::uintmax_t{2} << 30U);  // sparse: takes no room
  CHECK(refusal_of(file).find("the file has 2048.0 MiB, more than the 32.0 MiB that are read") != string::npos);
}

TEST_CASE("every small score in the test data is read") {
  const std::filesystem::path data = std::filesystem::path(INSIDELINE_TESTS) / "io/data";
  int read = 0;
  for (const auto& entry : std::filesystem::directory_iterator(data)) {
    const string ending = entry.path().extension().string();
    if (ending != ".musicxml" && ending != ".xml" && ending != ".mxl") continue;
    CAPTURE(entry.path());
    CHECK_FALSE(read_solo(entry.path()).solo.notes.empty());
    ++read;
  }
  CHECK(read >= 12);
}
