#include "reports/html/engraved_view.hpp"

#include <string>
#include <vector>

#include <catch2/catch.hpp>

using Catch::Contains;
using insideline::reports::engraved_view;

namespace {

const std::string system_drawing =
    "<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" version=\"1.2\" "
    "width=\"193.12mm\" height=\"31.18mm\" viewBox=\"-2.0 -8.2 125.5 20.2\">\n"
    "<style type=\"text/css\">\n<![CDATA[\ntspan { white-space: pre; }\n]]>\n</style>\n"
    "<g id=\"n35\" class=\"role-tension\" data-degree=\"9\"><path d=\"M0 0\"/></g>\n"
    "<text font-family=\"C059\"><tspan>9</tspan></text>\n</svg>\n";

std::string html_of(const std::vector<std::string>& drawings) { return engraved_view(drawings).html(); }

}  // namespace

TEST_CASE("a system is drawn as wide as the page, and its notes have ids of their own") {
  const std::string html = html_of({system_drawing, system_drawing});
  CHECK_THAT(html, Contains("aria-label=\"Engraved score, system 1\""));
  CHECK_THAT(html, Contains("aria-label=\"Engraved score, system 2\""));
  CHECK_THAT(html, Contains("viewBox=\"-2.0 -8.2 125.5 20.2\""));
  CHECK_THAT(html, Contains("id=\"e35\""));
  for (const char* gone : {"<style", "193.12mm", "31.18mm", "id=\"n35\"", "xlink"}) CHECK_THAT(html, !Contains(gone));
  CHECK_THAT(html, Contains("C059, Century Schoolbook, Georgia, serif"));
}

TEST_CASE("a drawing with anything but shapes and lettering in it is left out") {
  const auto with = [](const std::string& more) {
    std::string drawing = system_drawing;
    return drawing.insert(drawing.find("<text"), more);
  };
  for (const char* intruder : {"<script>alert(1)</script>", "<foreignObject><p>x</p></foreignObject>",
                               "<g onclick=\"alert(1)\"></g>", "<image href=\"x.png\"/>", "<a><path/></a>"}) {
    CAPTURE(intruder);
    CHECK(html_of({with(intruder)}).empty());
  }
  CHECK_FALSE(html_of({with("<rect/>")}).empty());
}

TEST_CASE("where nothing is drawn there is no score on the page") {
  CHECK(html_of({}).empty());
  CHECK(html_of({"no drawing", "<svg viewBox=\"0 0 1 1\"></svg>"}).empty());
}
