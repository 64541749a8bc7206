#include "engine/output/customer_page.h"

#include <string>

#include <gtest/gtest.h>

namespace axlewright {
namespace {

const char* const kPage =
    "<body><script id=\"axlewright-page\" type=\"application/json\">null</script><p>end</p></body>";

std::string data_in(const std::string& page) {
  const std::size_t from = page.find("json\">") + 6;
  return page.substr(from, page.find("</script>") - from);
}

// What was put in comes out as it was, whatever it is.
TEST(CustomerPage, CarriesItsDataWhole) {
  CustomerPage data;
  data.files["trucks/a.toml"] = "name = \"A\" # \xE2\x80\xA8 <b>\n";
  data.trucks = {"trucks/a.toml", "trucks/a.toml"};
  data.shop_name = "</script><img src=x onerror=alert(1)>";
  data.shop_words = "<!-- \"quoted\" \\ & -->";
  data.pictures.push_back({1, 0.12, "<svg></svg>", "at 120"});
  const Result<std::string> page = customer_page(kPage, data);
  ASSERT_TRUE(page.has_value());
  const std::string text = data_in(*page);
  EXPECT_EQ(text.find('<'), std::string::npos);
  const Json read = Json::parse(text);
  EXPECT_EQ(read["files"]["trucks/a.toml"], data.files["trucks/a.toml"]);
  EXPECT_EQ(read["shop"]["name"], data.shop_name);
  EXPECT_EQ(read["shop"]["words"], data.shop_words);
  EXPECT_EQ(read["units"], "mm");
  EXPECT_EQ(read["pictures"][0]["svg"], "<svg></svg>");
  EXPECT_EQ(read["pictures"][0]["height_mm"], 120.0);
  EXPECT_EQ(page->substr(page->size() - 17), "<p>end</p></body>");
}

TEST(CustomerPage, AnotherPageIsAFault) {
  EXPECT_FALSE(customer_page("<body></body>", {}).has_value());
  EXPECT_FALSE(customer_page(std::string(kPage) + kPage, {}).has_value());
}

}  // namespace
}  // namespace axlewright
