#include "engine/output/customer_page.h"

#include "engine/base/units.h"

namespace axlewright {
namespace {

constexpr const char* kWaiting =
    "<script id=\"axlewright-page\" type=\"application/json\">null</script>";
constexpr const char* kOpening = "<script id=\"axlewright-page\" type=\"application/json\">";
constexpr const char* kClosing = "</script>";

Json json_of(const CustomerPage& data) {
  Json j;
  j["files"] = Json::object();
  for (const auto& [path, text] : data.files) j["files"][path] = text;
  j["trucks"] = data.trucks;
  j["shop"] = Json{{"name", data.shop_name}, {"words", data.shop_words}};
  j["units"] = data.inches ? "inch" : "mm";
  j["pictures"] = Json::array();
  for (const RecordedPicture& picture : data.pictures) {
    j["pictures"].push_back(Json{{"truck", picture.truck},
                                 {"height_mm", to_mm(picture.height)},
                                 {"svg", picture.svg},
                                 {"words", picture.words}});
  }
  return j;
}

/// JSON in which nothing looks like a tag or a comment to HTML: "<" can only stand within texts.
std::string inert(const Json& j) {
  std::string text;
  for (const char c : j.dump(-1, ' ', false, Json::error_handler_t::replace)) {
    if (c == '<') {
      text += "\\u003c";
    } else {
      text += c;
    }
  }
  return text;
}

}  // namespace

Result<std::string> customer_page(const std::string& page, const CustomerPage& data) {
  const std::size_t at = page.find(kWaiting);
  if (at == std::string::npos || page.find(kWaiting, at + 1) != std::string::npos)
    return fail("the built page has no place for the trucks", "build it anew: ./run does");
  return page.substr(0, at) + kOpening + inert(json_of(data)) + kClosing +
         page.substr(at + std::string(kWaiting).size());
}

}  // namespace axlewright
