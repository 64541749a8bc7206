#include "engine/output/svg.h"

#include <string>

#include <gtest/gtest.h>

namespace axlewright {
namespace {

Json drawing_with(const Json& items) {
  return {
      {"words", "A <view> & \"more\""},
      {"paper_mm", {100, 50}},
      {"layers", Json::array({{{"name", "outline"}, {"line", "continuous"}, {"weight_mm", 0.5}},
                              {{"name", "hidden"}, {"line", "dashed"}, {"weight_mm", 0.25}},
                              {{"name", "text"}, {"line", "continuous"}, {"weight_mm", 0.25}}})},
      {"items", items}};
}

bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

// Paper has y up from its lower edge, SVG has y down from its upper one.
TEST(Svg, TurnsThePaperOver) {
  const std::string svg =
      svg_of(drawing_with(Json::array({{{"layer", "outline"}, {"line", {10, 0, 20, 50}}}})));
  EXPECT_TRUE(has(svg, "M10 50L20 0")) << svg;
  EXPECT_TRUE(has(svg, "width=\"100mm\" height=\"50mm\" viewBox=\"0 0 100 50\"")) << svg;
}

// A quarter from east to north around (10, 10): anticlockwise on the paper.
TEST(Svg, ArcsKeepTheirTurn) {
  const std::string svg =
      svg_of(drawing_with(Json::array({{{"layer", "outline"}, {"arc", {10, 10, 5, 0, 90}}}})));
  EXPECT_TRUE(has(svg, "M15 40A5 5 0 0 0 10 35")) << svg;
  EXPECT_TRUE(
      has(svg_of(drawing_with(Json::array({{{"layer", "outline"}, {"arc", {10, 10, 5, 0, 360}}}}))),
          "<circle cx=\"10\" cy=\"40\" r=\"5\"/>"));
}

// ISO 128-2: dashes of 12 line widths, gaps of 3.
TEST(Svg, DashesAreOfTheirWeight) {
  EXPECT_TRUE(
      has(svg_of(drawing_with(Json::array({{{"layer", "hidden"}, {"line", {0, 0, 1, 1}}}}))),
          "stroke-width=\"0.25\" stroke-linejoin=\"round\" stroke-dasharray=\"3 0.75\""));
}

TEST(Svg, LetteringIsEscaped) {
  const std::string svg = svg_of(drawing_with(Json::array({{{"layer", "text"},
                                                            {"text",
                                                             {{"at", {1, 2}},
                                                              {"text", "</text><script>"},
                                                              {"height_mm", 2.5},
                                                              {"anchor", "end"},
                                                              {"turn_deg", 90}}}}})));
  EXPECT_TRUE(has(svg, "&lt;/text&gt;&lt;script&gt;</text>")) << svg;
  EXPECT_TRUE(has(svg, "<title>A &lt;view&gt; &amp; &quot;more&quot;</title>"));
  EXPECT_TRUE(has(svg, "rotate(-90 1 48)")) << svg;
}

}  // namespace
}  // namespace axlewright
