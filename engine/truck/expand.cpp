#include "engine/truck/expand.h"

#include <variant>

#include <fmt/format.h>

#include "engine/base/units.h"
#include "engine/truck/expander.h"

namespace axlewright {
namespace {

std::string place_text(const Vec3& p) {
  return fmt::format("({:.3f}, {:.3f}, {:.3f})", to_mm(p.x()), to_mm(p.y()), to_mm(p.z()));
}

}  // namespace

const Point* find_point(const Truck& truck, const std::string& name) {
  for (const Point& point : truck.points) {
    if (point.name == name) return &point;
  }
  return nullptr;
}

Expansion expand(const Truck& truck) {
  Expander x(truck);
  x.add_bodies();
  x.set_carriers();
  set_rear_carriers(x);
  x.add_points();
  for (const Part& part : truck.parts) {
    std::visit([&](const auto& what) { expand_part(x, part, what); }, part.what);
  }
  for (const PlainJoint& joint : truck.joints) expand_joint(x, joint);
  expand_wheels(x);
  expand_inputs(x);
  expand_rear_axle(x);
  expand_studs(x);
  return x.take();
}

std::string describe(const Expansion& expansion) {
  const Mechanism& m = expansion.mechanism;
  std::string text = "bodies\n";
  for (const std::string& name : expansion.body_names) text += "  " + name + "\n";
  text += "joints (places in mm, as measured)\n";
  for (const Joint& joint : m.joints) {
    text += fmt::format("  {}: {} between {} and {}", joint.name, word_for(joint.kind),
                        expansion.body_names[static_cast<std::size_t>(joint.body_a.value)],
                        expansion.body_names[static_cast<std::size_t>(joint.body_b.value)]);
    if (joint.kind == JointKind::distance) {
      text += fmt::format(", {} to {}, length {:.3f}", place_text(m.anchor(joint.a).at),
                          place_text(m.anchor(joint.b).at), to_mm(m.length(joint.length).value));
    } else if (joint.b.value >= 0) {
      text += " at " + place_text(m.anchor(joint.b).at);
    }
    text += joint.kind == JointKind::bush ? ", gives\n"
                                          : fmt::format(", holds {}\n", held_by(joint.kind));
  }
  return text;
}

}  // namespace axlewright
