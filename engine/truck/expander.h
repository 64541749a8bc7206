#pragma once

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "engine/truck/expand.h"

// What the pieces of expand() share; nobody outside engine/truck includes it. The pieces go through the truck in the
// order in which expand() calls them, and each adds its bodies, joints and notes to one Expansion.

namespace axlewright {

/// The body that [rear_wheels] makes.
inline constexpr const char* kRearAxle = "rear_axle";

/// The expansion in the making, with names looked up and the joints that several parts are made of.
class Expander {
 public:
  explicit Expander(const Truck& truck) : truck_(truck) {}

  /// Frame and axle, which every truck has, then the bodies of the file and of its parts.
  void add_bodies();
  /// Everything that spins is told against the axle, the axle against the frame.
  void set_carriers();
  /// The places that the file names, each on the body it rides on.
  void add_points();

  const Truck& truck() const { return truck_; }
  Expansion& out() { return out_; }
  Mechanism& m() { return out_.mechanism; }
  Expansion take() { return std::move(out_); }

  BodyId add_body(const std::string& name, const std::string& words);
  const Point& point(const std::string& name) const;
  BodyId body(const std::string& name) const;

  /// The anchor of a point on a body: its own, or its twin on another body that a joint brings there.
  AnchorId anchor(const std::string& point_name, const std::string& body_name);
  AnchorId own_anchor(const std::string& point_name);
  /// A direction of the file as measured, in frame axes; not of unit length.
  Vec3 line_of(const Direction& direction) const;
  AxisId axis(const std::string& name, const std::string& body_name, const Direction& direction);

  /// A ball; or, where the file puts a bush in its place, that.
  JointId ball(const std::string& words, const std::string& of, const std::string& point_name,
               const std::string& a, const std::string& b);
  /// The file's bush at a point of a part or joint; none if there is none.
  const BushEntry* find_bush(const std::string& point_name, const std::string& of) const;
  /// A bush about a line through a point, in frame axes as measured.
  JointId bush(const std::string& words, const std::string& point_name, const std::string& a,
               const std::string& b, const Vec3& line, const Bush& gives);
  /// A pin about the line through two points, which both bodies have as measured; it holds the bodies at `at`.
  JointId pin(const std::string& words, const std::string& axis_words, const std::string& at,
              const std::string& to, const std::string& a, const std::string& b);
  /// A part's own body, pinned on another at a point about a direction. How it turns there is told.
  void turning(const std::string& words, const std::string& of_body, const std::string& on_body,
               const std::string& at, const Direction& direction);
  /// A bar without a body. `given` wins over the distance of the points.
  JointId distance(const std::string& words, AnchorId a, AnchorId b,
                   const std::optional<double>& given);
  void clamp(const std::string& words, BodyId a, BodyId b);
  /// Line x up on the bar stays square to up on the body that it is kept against.
  void keeper(const std::string& words, const std::string& holds, const std::string& against,
              const Vec3& line);

  /// Remembers a ball so that its tilt can be told; the stud's axis is filled in by expand_studs(). `housing` is empty
  /// where it is a bar without a body: then the line from `from` to `to` counts.
  void note_ball(const std::string& of, const std::string& point_name, const std::string& stud_body,
                 const std::string& housing, AnchorId from, AnchorId to);
  /// The bodies that a ball joins.
  struct BallBodies {
    std::string stud, housing;
  };
  /// The bodies of each ball in out().balls.
  const std::vector<BallBodies>& ball_bodies() const { return ball_bodies_; }

  /// The sector shaft; none until the pitman arm has made it.
  JointId shaft{};

 private:
  void name_body(const std::string& name, BodyId id);

  const Truck& truck_;
  Expansion out_;
  std::map<std::string, BodyId> bodies_;
  std::map<std::pair<std::string, std::string>, AnchorId> anchors_;
  std::vector<BallBodies> ball_bodies_;
};

/// The direction square to a unit `line` that is nearest to up, or to forward where the line stands upright itself.
/// Not of unit length.
Vec3 upright_square(const Vec3& line);
/// A point's name as words: "track bar axle".
std::string words_of(std::string name);

// --- each kind of part: its bodies, then its joints ---

void add_part_bodies(Expander& x, const Part& part, const Bar& bar);
void add_part_bodies(Expander& x, const Part& part, const Kingpin& kingpin);
void add_part_bodies(Expander& x, const Part& part, const PitmanArm& arm);
void add_part_bodies(Expander& x, const Part& part, const GuidedBar& bar);
void add_part_bodies(Expander& x, const Part& part, const FourBar& four_bar);
void add_part_bodies(Expander& x, const Part& part, const Relay& relay);
void add_part_bodies(Expander& x, const Part& part, const Clamp& clamp);
void add_part_bodies(Expander& x, const Part& part, const Keeper& keeper);
void add_part_bodies(Expander& x, const Part& part, const RadiusArm& arm);
void add_part_bodies(Expander& x, const Part& part, const LeafSpring& leaf);

void expand_part(Expander& x, const Part& part, const Bar& bar);
void expand_part(Expander& x, const Part& part, const Kingpin& kingpin);
void expand_part(Expander& x, const Part& part, const PitmanArm& arm);
void expand_part(Expander& x, const Part& part, const GuidedBar& bar);
void expand_part(Expander& x, const Part& part, const FourBar& four_bar);
void expand_part(Expander& x, const Part& part, const Relay& relay);
void expand_part(Expander& x, const Part& part, const Clamp& clamp);
void expand_part(Expander& x, const Part& part, const Keeper& keeper);
void expand_part(Expander& x, const Part& part, const RadiusArm& arm);
void expand_part(Expander& x, const Part& part, const LeafSpring& leaf);

// --- the rest of the truck ---

void expand_joint(Expander& x, const PlainJoint& joint);
void expand_wheels(Expander& x);
/// What sets the truck: the heights of its wheels, and the pitman arm or the road wheels.
void expand_inputs(Expander& x);
/// What locates a rear axle of its own spins against that one.
void set_rear_carriers(Expander& x);
/// The rear axle and what sets it, where the file names rear wheels; after the front's inputs.
void expand_rear_axle(Expander& x);
/// Names the balls, and gives each its stud.
void expand_studs(Expander& x);

}  // namespace axlewright
