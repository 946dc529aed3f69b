#include "tests/labelled/fit/heard_solo.hpp"

#include "io/read_result.hpp"
#include "tests/support/folders.hpp"
#include "tests/support/own_folder.hpp"

#include <algorithm>
#include <filesystem>
#include <stdexcept>
#include <string>

#include <catch2/catch.hpp>

using Catch::Matchers::Contains;
using insideline::Role;
using insideline::tests::heard_solo;
using insideline::tests::OwnFolder;

namespace {

void copy_piece(const OwnFolder& folder, const std::string& name) {
  for (const char* const ending : {".musicxml", ".changes"})
    std::filesystem::copy_file(INSIDELINE_CORPUS "/" + name + ending, folder.path() / (name + ending));
}

}  // namespace

TEST_CASE("a teacher's corrections become a labelled line, in which nobody was asked about the other notes") {
  const OwnFolder folder;
  copy_piece(folder, "lantern-street");
  const auto file = folder.write("lantern-street.hearing", "1 3.5 thirteenth\n5 3.5 passing tone\n");
  const auto example = heard_solo(file.string());
  CHECK(example.id == "lantern-street.musicxml");
  REQUIRE(example.readers.size() == 1);
  const auto& notes = example.readers.front().notes;
  CHECK(std::ranges::count_if(notes, [](const auto& note) { return !note.acceptable.empty(); }) == 2);
  CHECK(example.codes[2] == "T:13");
  CHECK(notes[2].acceptable.front().role == Role::tension);
  CHECK(std::ranges::count(example.codes, "PT") == 1);
  CHECK(std::ranges::count(example.codes, "-") == static_cast<std::ptrdiff_t>(notes.size()) - 2);
}

TEST_CASE("corrections without their solo, or that cannot be, are refused") {
  const OwnFolder folder;
  CHECK_THROWS_AS(heard_solo(folder.write("gone.hearing", "1 1 root\n").string()), std::invalid_argument);
  copy_piece(folder, "lantern-street");
  const auto file = folder.write("lantern-street.hearing", "\n1 3 b9\n");
  CHECK_THROWS_WITH(heard_solo(file.string()), Contains("lantern-street.hearing:2") && Contains("is not b9 of Ebmaj7"));
}
