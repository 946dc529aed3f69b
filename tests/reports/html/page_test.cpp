#include "reports/html/page.hpp"

#include <string>

#include <catch2/catch.hpp>

using Catch::Contains;
using insideline::reports::element;
using insideline::reports::folded_table;
using insideline::reports::line_map_script;
using insideline::reports::Page;
using insideline::reports::page_script;
using insideline::reports::page_style;
using insideline::reports::section;
using insideline::reports::table;
using insideline::reports::whole_page;

namespace {

std::string page_titled(const std::string& title) {
  Page page;
  page.title = title;
  page.main = section("one", "First", element("p", "Text"));
  return whole_page(page);
}

std::size_t count(const std::string& text, const std::string& needle) {
  std::size_t found = 0;
  for (std::size_t at = text.find(needle); at != std::string::npos; at = text.find(needle, at + 1)) ++found;
  return found;
}

}  // namespace

TEST_CASE("a page states that only its own style and script may run in it") {
  Page page;
  page.title = "Quay";
  page.scripts = {line_map_script};
  const std::string html = whole_page(page);
  CHECK_THAT(html, Contains("default-src &#39;none&#39;"));
  CHECK_THAT(html, Contains("style-src &#39;sha256-" + std::string(page_style.sha256) + "&#39;"));
  CHECK_THAT(html, Contains("script-src &#39;sha256-" + std::string(page_script.sha256) + "&#39; &#39;sha256-" +
                            std::string(line_map_script.sha256) + "&#39;"));
  CHECK_THAT(html, !Contains("unsafe"));
  CHECK_THAT(html, !Contains(" style="));
  CHECK_THAT(html, !Contains(" onclick"));
}

TEST_CASE("a page needs nothing from elsewhere") {
  const std::string html = page_titled("Quay");
  CHECK_THAT(html, !Contains("http://") && !Contains("https://") && !Contains(" src=") && !Contains("@import"));
}

TEST_CASE("titles with markup, quotes, emoji or thousands of characters are text") {
  const std::string title = GENERATE(as<std::string>(), "</title><script>alert(1)</script>", "\"Quay\" & 'Dock'",
                                     "Möwe 🎷", "\\\" #(exit)", std::string(5000, 'x'));
  const std::string html = page_titled(title);
  const std::string shown = insideline::reports::escaped(title);
  CHECK_THAT(html, Contains("<title>" + shown + "</title>"));
  CHECK_THAT(html, Contains("<h1>" + shown + "</h1>"));
  CHECK(count(html, "<script>") == 1);
}

TEST_CASE("data for the scripts cannot end its element") {
  Page page;
  page.data = R"json({"words":["</script><script>alert(1)"]})json";
  const std::string html = whole_page(page);
  CHECK_THAT(html, Contains(R"json({"words":["\u003c/script>\u003cscript>alert(1)"]})json"));
  CHECK(count(html, "</script>") == 2);  // the data and the page's own script
}

TEST_CASE("a page has its landmarks and a way past the heading") {
  const std::string html = page_titled("Quay");
  for (const char* landmark : {"<header", "<main id=\"main\"", "<footer", "href=\"#main\"", "<html lang=\"en-GB\""})
    CHECK_THAT(html, Contains(landmark));
  CHECK_THAT(html, Contains("<section id=\"one\" aria-labelledby=\"one-heading\"><h2 id=\"one-heading\">First</h2>"));
}

TEST_CASE("the parts of a page are there and cannot end their element") {
  for (const auto* part :
       {&page_style, &page_script, &insideline::reports::line_map_style, &line_map_script,
        &insideline::reports::player_style, &insideline::reports::address_script, &insideline::reports::rows_script,
        &insideline::reports::schedule_script, &insideline::reports::sound_script, &insideline::reports::loop_script,
        &insideline::reports::player_script}) {
    CHECK(part->text.size() > 300);
    CHECK(part->sha256.size() == 44);  // 32 bytes in base64
    CHECK(part->text.find("</") == std::string::npos);
  }
}

TEST_CASE("tables name their columns and rows") {
  const std::string html =
      table({.caption = "Degrees", .head = {"degree", "notes"}, .rows = {{"<3>", "12"}}, .numbers_from = 1}).html();
  CHECK_THAT(html, Contains("<caption>Degrees</caption>"));
  CHECK_THAT(html, Contains("<th scope=\"col\">degree</th><th scope=\"col\" class=\"number\">notes</th>"));
  CHECK_THAT(html, Contains("<th scope=\"row\">&lt;3&gt;</th><td class=\"number\">12</td>"));
  CHECK_THAT(folded_table({.caption = "x", .head = {}, .rows = {}}).html(), Contains("<details"));
}
