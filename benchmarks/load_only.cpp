// load_only FILE: the floor for a whole program. Reads the file, lets pugixml parse it, and ends.
#include <cstdio>
#include <fstream>
#include <iterator>
#include <pugixml.hpp>
#include <string>

int main(int count, char** arguments) {
  if (count != 2) return 2;
  std::ifstream file(arguments[1], std::ios::binary);
  const std::string bytes((std::istreambuf_iterator<char>(file)), std::istreambuf_iterator<char>());
  pugi::xml_document document;
  if (!document.load_buffer(bytes.data(), bytes.size()) || !document.child("score-partwise")) {
    std::fputs("load_only: not a score\n", stderr);
    return 1;
  }
  return 0;
}
