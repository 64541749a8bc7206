// [bushes].

#include <algorithm>
#include <variant>

#include <fmt/format.h>

#include "engine/truck/ranges.h"
#include "engine/truck/read_context.h"
#include "engine/truck/typical_bushes.h"

namespace axlewright {

namespace {

/// The part or joint that the bush belongs to, if one is named.
void read_of(ReadContext& context, Fields& fields, BushEntry& bush) {
  const std::optional<std::string> of = fields.text("of");
  if (!of) return;
  bush.of = *of;
  const auto named = [&](const auto& entry) { return entry.name == bush.of; };
  const auto& parts = context.truck.parts;
  const auto& joints = context.truck.joints;
  if (context.incomplete || std::any_of(parts.begin(), parts.end(), named) ||
      std::any_of(joints.begin(), joints.end(), named))
    return;
  context.complaints.error(fields.get("of")->place,
                           fmt::format("no part or joint is called '{}'", bush.of),
                           "name the one whose ball it replaces, or leave 'of' away");
}

/// Rubber can only hold a bar that is a body: a distance has one number alone.
void check_bar(ReadContext& context, Fields& fields, const BushEntry& bush) {
  for (const Part& part : context.truck.parts) {
    const auto* bar = std::get_if<Bar>(&part.what);
    if (bar == nullptr || bar->body || (!bush.of.empty() && bush.of != part.name)) continue;
    if (bar->ends[0] != bush.ball && bar->ends[1] != bush.ball) continue;
    context.complaints.error(
        fields.get("ball")->place,
        fmt::format("the bush is at an end of '{}', which is no body", part.name),
        fmt::format("give [parts.{}] body = true", part.name));
  }
}

void read_stiffnesses(Fields& fields, BushEntry& bush) {
  std::vector<std::string> kinds;
  for (const TypicalBush& typical : typical_bushes()) kinds.push_back(typical.kind);
  const TypicalBush& typical = typical_bushes()[fields.choice("kind", kinds, 0).value_or(0)];
  const auto way = [&](const char* key, double usual) {
    return fields.stiffness(key, StiffnessKind::way, ranges::kBushForce).value_or(usual);
  };
  const auto turn = [&](const char* key, double usual) {
    return fields.stiffness(key, StiffnessKind::turn, ranges::kBushMoment).value_or(usual);
  };
  bush.radial = way("radial", typical.radial);
  bush.axial = way("axial", typical.axial);
  bush.tilt = turn("tilt", typical.tilt);
  bush.twist = turn("twist", typical.twist);
}

void check_holds(ReadContext& context, const BushEntry& bush) {
  if (bush.radial > 0 || bush.axial > 0) return;
  context.complaints.error(
      bush.place, fmt::format("[bushes.{}] holds nothing: 'radial' and 'axial' are 0", bush.name),
      "give one of the two a stiffness, or take the bush away for a ball");
}

void check_twice(ReadContext& context, const BushEntry& bush) {
  for (const BushEntry& other : context.truck.bushes) {
    if (other.ball != bush.ball || bush.ball.empty()) continue;
    if (!other.of.empty() && !bush.of.empty() && other.of != bush.of) continue;
    context.complaints.error(bush.place,
                             fmt::format("[bushes.{}] is at '{}' too", other.name, bush.ball),
                             "take one of the two away, or tell them apart with 'of'");
  }
}

}  // namespace

void read_bushes(ReadContext& context) {
  for (const Entry* entry : named_entries(context, "bushes")) {
    context.complaints.set_mirrored(!entry->mirror_of.empty());
    Fields fields(entry->value, fmt::format("[bushes.{}]", entry->key), entry->key_place,
                  context.complaints);
    BushEntry bush;
    bush.name = entry->key;
    bush.place = entry->key_place;
    bush.ball = need_point(context, fields, "ball").value_or("");
    if (!bush.ball.empty() && !context.incomplete && context.ball_points.count(bush.ball) == 0) {
      context.complaints.error(fields.get("ball")->place,
                               fmt::format("no ball is at '{}'", bush.ball),
                               "name a point where a ball joint, a bar's end or an eye is");
    }
    read_of(context, fields, bush);
    if (!bush.ball.empty()) check_bar(context, fields, bush);
    bush.axis = need_direction(context, fields, "axis", "").value_or(Direction{});
    read_stiffnesses(fields, bush);
    check_holds(context, bush);
    check_twice(context, bush);
    fields.get("mirror");
    fields.reject_unknown();
    context.truck.bushes.push_back(std::move(bush));
  }
  context.complaints.set_mirrored(false);
}

}  // namespace axlewright
