// [parts]: the leaf spring.

#include <cmath>

#include <fmt/format.h>

#include "engine/truck/ranges.h"
#include "engine/truck/read_context.h"

namespace axlewright {

namespace {

/// Each half must be long enough to bend beyond the clamp.
void check_halves(ReadContext& context, const Fields& fields, const LeafSpring& leaf) {
  for (const std::string& eye : {leaf.eye, leaf.shackle_eye}) {
    const auto half = distance(context, leaf.seat, eye);
    if (!half || (*half <= ranges::kBarLength.high && *half > leaf.clamp)) continue;
    context.complaints.error(
        fields.place(),
        fmt::format("'{}' is {} from the seat, out of reason for half a leaf spring", eye,
                    length_words(*half, context.unit)),
        "place eye and seat farther apart, and give 'clamp' the length that cannot bend");
  }
}

int read_pieces(ReadContext& context, Fields& fields) {
  const double pieces = fields.plain_number("pieces", ranges::kLeafPieces).value_or(0);
  if (pieces != std::floor(pieces)) {
    context.complaints.error(fields.get("pieces")->place,
                             fmt::format("'pieces' is {}, no whole number", pieces),
                             "give each half a whole number of pieces, such as pieces = 6");
  }
  return static_cast<int>(pieces);
}

}  // namespace

void read_leaf_spring(ReadContext& context, Fields& fields, Part& part) {
  LeafSpring leaf;
  leaf.eye = need_point(context, fields, "eye").value_or("");
  leaf.shackle_eye = need_point(context, fields, "shackle_eye").value_or("");
  leaf.shackle = need_point(context, fields, "shackle").value_or("");
  leaf.seat = need_point(context, fields, "seat").value_or("");
  const std::string shackle_body = part.name + "_shackle";
  check_rides_on(context, fields, "eye", leaf.eye, "frame");
  check_rides_on(context, fields, "shackle", leaf.shackle, "frame");
  check_rides_on(context, fields, "shackle_eye", leaf.shackle_eye, shackle_body);
  check_rides_on(context, fields, "seat", leaf.seat, "axle");
  if (!leaf.shackle.empty() && !leaf.shackle_eye.empty())
    check_line(context, {leaf.shackle, leaf.shackle_eye}, "the shackle", fields.place());
  if (fields.need("rate", "rate = \"60 N/mm\"") != nullptr)
    leaf.rate = fields.stiffness("rate", StiffnessKind::way, ranges::kLeafRate).value_or(0);
  leaf.clamp = fields.length("clamp", ranges::kLeafClamp).value_or(0);
  leaf.width_to_thickness =
      fields.plain_number("width_to_thickness", ranges::kWidthToThickness).value_or(7);
  leaf.shape =
      fields.choice("shape", {"tapered", "even"}, 0) == 1u ? LeafShape::even : LeafShape::tapered;
  leaf.pieces = read_pieces(context, fields);
  check_halves(context, fields, leaf);
  for (const std::string& ball : {leaf.eye, leaf.shackle_eye, leaf.shackle}) {
    if (!ball.empty()) context.ball_points.insert(ball);
  }
  context.touched_bodies.insert({shackle_body, "frame", "axle"});
  part.what = leaf;
}

}  // namespace axlewright
