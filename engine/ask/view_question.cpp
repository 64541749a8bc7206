#include "engine/ask/view_question.h"

#include <array>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "engine/ask/question.h"
#include "engine/base/did_you_mean.h"
#include "engine/base/units.h"

namespace axlewright {
namespace {

constexpr std::array<ViewKind, 4> kKinds{ViewKind::front, ViewKind::side, ViewKind::top,
                                         ViewKind::pictorial};

// [mm of paper]
constexpr double kLeastPaper = 10, kMostPaper = 5000;

constexpr double kWholeTurn = 360;  // [deg]

using Faults = tl::unexpected<std::vector<Fault>>;

/// The faults of an entry, with the entry named.
Faults in_entry(std::vector<Fault> faults, const std::string& entry) {
  for (Fault& fault : faults) fault.what = entry + ": " + fault.what;
  return Faults(std::move(faults));
}

Result<ViewKind> kind_in(const Json& entry) {
  const Result<std::string> name = text_in(entry, "view", "front");
  if (!name) return Faults(name.error());
  std::vector<std::string> names;
  for (const ViewKind kind : kKinds) {
    if (*name == name_of(kind)) return kind;
    names.emplace_back(name_of(kind));
  }
  const std::string near = did_you_mean(*name, names);
  return fail(fmt::format("there is no view \"{}\"", *name),
              near.empty() ? "ask for front, side, top or pictorial"
                           : fmt::format("did you mean \"{}\"?", near));
}

Result<Vec2> paper_in(const Json& entry) {
  const auto wrong = [] {
    return fail("`paper_mm` is not two numbers from 10 to 5000",
                "give width and height, [400, 300]");
  };
  if (!entry.contains("paper_mm")) return ViewPlan{}.paper;
  const Json& paper = entry["paper_mm"];
  if (!paper.is_array() || paper.size() != 2) return wrong();
  Vec2 size = Vec2::Zero();
  for (int k = 0; k < 2; ++k) {
    const Json& side = paper[static_cast<std::size_t>(k)];
    if (!side.is_number()) return wrong();
    const double mm = side.get<double>();
    if (!(mm >= kLeastPaper && mm <= kMostPaper)) return wrong();
    size[k] = from_mm(mm);
  }
  return size;
}

/// A flag that is `otherwise` where it is absent.
Result<bool> flag_or(const Json& entry, const std::string& key, bool otherwise) {
  return entry.contains(key) ? flag_in(entry, key) : Result<bool>(otherwise);
}

Result<AskedView> view_in(const Json& entry) {
  if (!entry.is_object()) return fail("it is not an object", "give {\"view\": \"front\"}");
  if (auto faults = unknown_keys(entry, {"view", "paper_mm", "hidden", "areas", "centre_lines",
                                         "swept", "beside_height_mm", "turn_deg", "tilt_deg"});
      !faults.empty())
    return Faults(std::move(faults));
  AskedView view;
  const ViewPlan usual;
  const Result<ViewKind> kind = kind_in(entry);
  const Result<Vec2> paper = paper_in(entry);
  const Result<bool> hidden = flag_or(entry, "hidden", usual.hidden);
  const Result<bool> areas = flag_or(entry, "areas", usual.areas);
  const Result<bool> centre_lines = flag_or(entry, "centre_lines", usual.centre_lines);
  const Result<double> turn = number_in(entry, "turn_deg", to_deg(usual.turn));
  const Result<double> tilt = number_in(entry, "tilt_deg", to_deg(usual.tilt));
  const Result<double> beside = number_in(entry, "beside_height_mm", 0);
  Result<std::vector<std::string>> swept = texts_in(entry, "swept");
  if (!kind) return Faults(kind.error());
  if (!paper) return Faults(paper.error());
  if (!hidden) return Faults(hidden.error());
  if (!areas) return Faults(areas.error());
  if (!centre_lines) return Faults(centre_lines.error());
  if (!turn) return Faults(turn.error());
  if (!tilt) return Faults(tilt.error());
  if (!beside) return Faults(beside.error());
  if (!swept) return Faults(swept.error());
  view.plan = {*kind, *paper, from_deg(*turn), from_deg(*tilt), *areas, *hidden, *centre_lines};
  view.swept = std::move(*swept);
  if (entry.contains("beside_height_mm")) view.beside = from_mm(*beside);
  return view;
}

}  // namespace

Result<std::vector<AskedView>> views_in(const Json& question) {
  std::vector<AskedView> views;
  if (!question.contains("views")) return views;
  if (!question["views"].is_array())
    return fail("`views` is not a list", "give a list of views or leave it out");
  for (const Json& entry : question["views"]) {
    Result<AskedView> view = view_in(entry);
    if (!view) {
      return in_entry(std::move(view.error()), fmt::format("view {}", views.size() + 1));
    }
    views.push_back(std::move(*view));
  }
  return views;
}

Result<std::optional<AskedMotion>> motion_in(const Json& question) {
  if (!question.contains("loose")) return std::optional<AskedMotion>();
  const Json& loose = question["loose"];
  if (!loose.is_object())
    return fail("`loose` is not an object", "give {\"name\": \"...\", \"angle_deg\": 5}");
  if (auto faults = unknown_keys(loose, {"name", "angle_deg"}); !faults.empty())
    return Faults(std::move(faults));
  const Result<std::string> name = text_in(loose, "name", "");
  const Result<double> angle = number_in(loose, "angle_deg", 0);
  if (!name) return Faults(name.error());
  if (!angle) return Faults(angle.error());
  if (std::abs(*angle) > kWholeTurn)
    return fail("`angle_deg` is more than a whole turn", "give -360 to 360");
  return std::optional<AskedMotion>({*name, from_deg(*angle)});
}

}  // namespace axlewright
