#include "engine/ask/drawing_json.h"

#include <cmath>

#include "engine/base/units.h"

namespace axlewright {
namespace {

/// mm of paper; a hundredth is finer than any pen.
double paper_mm(double metres) {
  return std::round(to_mm(metres) * 100) / 100;
}

double tenth_deg(double radians) {
  return std::round(to_deg(radians) * 10) / 10;
}

/// Places are told finer than they are drawn: what a point is held against.
Json exact_place(const Vec2& place) {
  return Json::array({to_mm(place.x()), to_mm(place.y())});
}

Json flat_list(const std::vector<Vec2>& points) {
  Json list = Json::array();
  list.get_ref<Json::array_t&>().reserve(2 * points.size());
  for (const Vec2& p : points) {
    list.push_back(paper_mm(p.x()));
    list.push_back(paper_mm(p.y()));
  }
  return list;
}

void write(const Polyline& line, Json& j) {
  j["line"] = flat_list(line.points);
}

void write(const Arc& arc, Json& j) {
  j["arc"] = Json::array({paper_mm(arc.centre.x()), paper_mm(arc.centre.y()), paper_mm(arc.radius),
                          tenth_deg(arc.from), tenth_deg(arc.to)});
}

void write(const Area& area, Json& j) {
  j["area"] = flat_list(area.points);
}

void write(const Text& text, Json& j) {
  static constexpr const char* kAnchors[] = {"start", "middle", "end"};
  j["text"] = Json{{"at", Json::array({paper_mm(text.at.x()), paper_mm(text.at.y())})},
                   {"text", text.text},
                   {"height_mm", paper_mm(text.height)},
                   {"anchor", kAnchors[static_cast<std::size_t>(text.anchor)]},
                   {"turn_deg", tenth_deg(text.turn)}};
}

Json json_of(const Item& item) {
  Json j;
  j["layer"] = style_of(item.layer).name;
  j["part"] = item.part;
  std::visit([&](const auto& what) { write(what, j); }, item.what);
  return j;
}

Json plain_vector(const Vec3& v) {
  return Json::array({v.x(), v.y(), v.z()});
}

Json json_of(const Handle& handle) {
  Json j{{"name", handle.name},
         {"on", handle.on},
         {"at_mm", exact_place(handle.at)},
         {"sets", handle.sets},
         {"measured_mm", place_mm(handle.measured)},
         {"across", plain_vector(handle.across)},
         {"up", plain_vector(handle.up)}};
  if (!handle.from.empty()) j["from"] = handle.from;
  return j;
}

}  // namespace

Json json_of(const Drawing& drawing) {
  Json j;
  j["view"] = drawing.view;
  j["words"] = drawing.words;
  j["paper_mm"] = exact_place(drawing.paper);
  j["scale"] = drawing.scale;
  j["origin_mm"] = exact_place(drawing.origin);
  j["layers"] = Json::array();
  for (const LayerStyle& style : layer_styles()) {
    j["layers"].push_back(Json{
        {"name", style.name}, {"line", word_for(style.line)}, {"weight_mm", to_mm(style.weight)}});
  }
  j["items"] = Json::array();
  for (const Item& item : drawing.items) j["items"].push_back(json_of(item));
  j["points"] = Json::array();
  for (const Handle& handle : drawing.points) j["points"].push_back(json_of(handle));
  return j;
}

}  // namespace axlewright
