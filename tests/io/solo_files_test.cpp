#include "io/solo_files.hpp"

#include "io/read_result.hpp"
#include "tests/support/own_folder.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

namespace io = insideline::io;
namespace fs = std::filesystem;

namespace {

class Folder : public insideline::tests::OwnFolder {
 public:
  void put(const std::string& name) const { static_cast<void>(write(name, "x")); }
  [[nodiscard]] std::vector<std::string> found() const {
    std::vector<std::string> names;
    for (const std::string& file : io::find_solos(path()).files)
      names.push_back(fs::path(file).lexically_relative(path()).string());
    return names;
  }
};

}  // namespace

TEST_CASE("solos are found at any depth, by their endings, in order") {
  const Folder folder;
  for (const char* name : {"z.mid", "b/c/one.MusicXML", "a.xml", "b/two.mxl", "b/take.midi", "notes.txt", ".hidden.mid",
                           ".old/three.mid", "b/two.changes"})
    folder.put(name);
  CHECK(folder.found() == std::vector<std::string>{"a.xml", "b/c/one.MusicXML", "b/take.midi", "b/two.mxl", "z.mid"});
}

TEST_CASE("a solo is known by the end of its name, in capitals as well") {
  for (const char* const solo : {"a.musicxml", "SOLO.MID", "b/Take.Midi", "a.ABC", "x.mxl", "x.XML"})
    CHECK(io::is_solo_name(solo));
  for (const char* const other : {"tune.changes", "mid", ".mid", "a.mid.txt", ""}) CHECK_FALSE(io::is_solo_name(other));
}

TEST_CASE("links in a circle end, and a folder behind two names is looked into once") {
  const Folder folder;
  folder.put("b/one.mid");
  fs::create_directory_symlink(folder.path(), folder.path() / "b" / "round");
  fs::create_directory_symlink(folder.path() / "b", folder.path() / "c");
  CHECK(folder.found() == std::vector<std::string>{"b/one.mid"});
}

TEST_CASE("links out of the folder are named and followed only when asked") {
  const Folder elsewhere;
  elsewhere.put("deep/one.mid");
  elsewhere.put("two.mid");
  const Folder folder;
  folder.put("a/three.mid");
  fs::create_directory_symlink(elsewhere.path() / "deep", folder.path() / "b");
  fs::create_symlink(elsewhere.path() / "two.mid", folder.path() / "c.mid");
  fs::create_symlink(folder.path() / "a" / "three.mid", folder.path() / "d.mid");
  fs::create_symlink(elsewhere.path() / "two.mid", folder.path() / "notes.txt");
  const io::FoundSolos found = io::find_solos(folder.path());
  CHECK(found.files == std::vector<std::string>{folder.path() / "a/three.mid", folder.path() / "d.mid"});
  CHECK(found.links_out == std::vector<std::string>{folder.path() / "b", folder.path() / "c.mid"});
  const io::FoundSolos all = io::find_solos(folder.path(), io::LinksOut::followed);
  CHECK(all.files.size() == 4);
  CHECK(all.links_out.empty());
}

TEST_CASE("a folder that is itself a link is looked into") {
  const Folder folder;
  folder.put("a/one.mid");
  fs::create_directory_symlink(folder.path() / "a", folder.path() / "b");
  CHECK(io::find_solos(folder.path() / "b").files == std::vector<std::string>{folder.path() / "b/one.mid"});
}

TEST_CASE("who waits is told how many files were found") {
  const Folder folder;
  folder.put("a/one.mid");
  folder.put("b/two.mid");
  std::vector<std::size_t> told;
  io::find_solos(folder.path(), io::LinksOut::left_out, [&](std::size_t count) { told.push_back(count); });
  CHECK(told == std::vector<std::size_t>{0, 0, 1});
}

TEST_CASE("a link that leads nowhere is told, and so is a folder that does not exist") {
  const Folder folder;
  fs::create_symlink("nowhere.mid", folder.path() / "lost.mid");
  const io::FoundSolos found = io::find_solos(folder.path());
  CHECK(found.files.empty());
  REQUIRE(found.unreachable.size() == 1);
  CHECK(found.unreachable.front().reason == "the link leads nowhere");
  CHECK_THROWS_AS(io::find_solos(folder.path() / "none"), io::ReadError);
  CHECK_THROWS_WITH(io::find_solos(folder.path() / "none"), Catch::Contains("there is no such folder"));
}

TEST_CASE("changes lie beside a solo under its base name") {
  const Folder folder;
  folder.put("one.mid");
  folder.put("two.mid");
  folder.put("two.changes");
  CHECK_FALSE(io::changes_beside((folder.path() / "one.mid").string()));
  CHECK(io::changes_beside((folder.path() / "two.mid").string()) == (folder.path() / "two.changes").string());
  CHECK_FALSE(io::hearing_beside((folder.path() / "two.mid").string()));
  folder.put("two.hearing");
  CHECK(io::hearing_beside((folder.path() / "two.mid").string()) == (folder.path() / "two.hearing").string());
}

TEST_CASE("a stamp changes with the file and is empty without one") {
  const Folder folder;
  folder.put("one.mid");
  const std::string file = (folder.path() / "one.mid").string();
  const std::string stamp = io::file_stamp(file);
  CHECK(io::file_stamp(file) == stamp);
  std::ofstream(file, std::ios::app) << "more";
  CHECK(io::file_stamp(file) != stamp);
  CHECK(io::file_stamp(file + "x").empty());
}

TEST_CASE("an .xml file without a score in it is left to other programs") {
  CHECK(io::may_be_score("a.xml", "<score-partwise/>"));
  CHECK(io::may_be_score("a.xml", "<score-timewise/>"));
  CHECK(io::may_be_score("a.xml", std::string("\xFE\xFF\0<", 4)));
  CHECK(io::may_be_score("a.musicxml", "<settings/>"));
  CHECK_FALSE(io::may_be_score("a.xml", "<settings/>"));
}
