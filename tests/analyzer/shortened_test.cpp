#include "analyzer/shortened.hpp"

#include <catch2/catch.hpp>

#include <string>

using insideline::shortened;

TEST_CASE("a message quotes the beginning of what is too long, and no half letters") {
  CHECK(shortened("Dm7") == "Dm7");
  CHECK(shortened(std::string(40, 'a')) == std::string(40, 'a'));
  CHECK(shortened(std::string(1'000'000, 'a')) == std::string(40, 'a') + "...");
  CHECK(shortened(std::string(39, 'a') + "é and more") == std::string(39, 'a') + "...");
}
