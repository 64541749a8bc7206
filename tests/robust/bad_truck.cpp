#include "tests/robust/bad_truck.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>

#include <fmt/format.h>

#include "engine/base/index.h"
#include "engine/base/units.h"
#include "engine/truck/ranges.h"
#include "tests/oracle/truck_families.h"
#include "tests/support/truck_files.h"

namespace axlewright::robust {
namespace {

using oracle::Random;

constexpr double kFarthestThrow = 0.300;  // [m]

std::vector<std::string> rigid_bases() {
  std::vector<std::string> names = {"trucks/plain-mismatched.toml", "trucks/plain-parallel.toml",
                                    "trucks/half-converted.toml", "trucks/guided.toml",
                                    "trucks/guided-loose.toml"};
  for (const auto& file : std::filesystem::directory_iterator(AXLEWRIGHT_ROOT "/tests/layouts")) {
    const std::string name = file.path().filename().string();
    if (file.path().extension() == ".toml" && name != "base.toml")
      names.push_back("tests/layouts/" + name);
  }
  std::sort(names.begin() + 5, names.end());
  return names;
}

/// Every tenth truck is held by bushes: it takes twenty times as long.
std::string base_for(std::uint64_t seed) {
  static const std::vector<std::string> rigid = rigid_bases();
  static constexpr const char* kElastic[] = {"trucks/radius-arm.toml", "trucks/leaf.toml"};
  return seed % 10 == 0 ? kElastic[seed / 10 % 2] : rigid[seed % rigid.size()];
}

bool ends_with(const std::string& text, const std::string& tail) {
  return text.size() >= tail.size() &&
         text.compare(text.size() - tail.size(), tail.size(), tail) == 0;
}

class Breaker {
 public:
  explicit Breaker(std::uint64_t seed) : random_(seed) {
    out_.seed = seed;
    out_.base = base_for(seed);
    truck_ = testing::truck_of(out_.base);
  }

  BadTruck build() {
    // One to three things are wrong.
    const int harms = 1 + pick(3);
    for (int k = 0; k < harms; ++k) do_harm();
    keep_to_sides();
    write();
    return std::move(out_);
  }

 private:
  int pick(int count) { return static_cast<int>(random_.between(0, count)); }

  template <class T>
  T& one_of(std::vector<T>& list) {
    return list[index(pick(static_cast<int>(list.size())))];
  }

  void tell(const std::string& what) { out_.harm += (out_.harm.empty() ? "" : "; ") + what; }

  void do_harm() {
    switch (pick(9)) {
      case 0:
        return throw_points(kFarthestThrow * std::pow(random_.between(0, 1), 2));
      case 1:
        return throw_one();
      case 2:
        return fold_a_bar();
      case 3:
        return shrink_a_bar();
      case 4:
        return line_up_the_pitman_arm();
      case 5:
        return swap_sides();
      case 6:
        return spoil_lengths();
      case 7:
        return truck_.bushes.empty() ? throw_points(0.05) : spoil_bushes();
      default:
        return widen_ranges();
    }
  }

  void move(Point& point, double way) {
    for (int k = 0; k < 3; ++k) point.at[k] += random_.between(-way, way);
  }

  void throw_points(double way) {
    for (Point& point : truck_.points) move(point, way);
    tell(fmt::format("points thrown by {:.0f} mm", to_mm(way)));
  }

  void throw_one() {
    Point& point = one_of(truck_.points);
    move(point, kFarthestThrow);
    tell(point.name + " thrown far");
  }

  /// The bars that are one part between two points.
  std::vector<const Part*> bars() const {
    std::vector<const Part*> bars;
    for (const Part& part : truck_.parts) {
      if (std::holds_alternative<Bar>(part.what)) bars.push_back(&part);
    }
    return bars;
  }

  Point& named(const std::string& name) {
    return *std::find_if(truck_.points.begin(), truck_.points.end(),
                         [&](const Point& point) { return point.name == name; });
  }

  /// One end put to the other side of the other one.
  void fold_a_bar() {
    std::vector<const Part*> all = bars();
    if (all.empty()) return;
    const Part& part = *one_of(all);
    const Bar& bar = std::get<Bar>(part.what);
    Point& moved = named(bar.ends[0]);
    moved.at = 2 * named(bar.ends[1]).at - moved.at;
    tell(part.name + " folded over");
  }

  void shrink_a_bar() {
    std::vector<const Part*> all = bars();
    if (all.empty()) return;
    const Part& part = *one_of(all);
    const Bar& bar = std::get<Bar>(part.what);
    Point& moved = named(bar.ends[0]);
    const Vec3 at = named(bar.ends[1]).at;
    const double length = random_.between(1, 2) * ranges::kBarLength.low;
    moved.at = at + length * (moved.at - at).normalized();
    tell(fmt::format("{} {:.0f} mm long", part.name, to_mm(length)));
  }

  /// The pitman ball put where the shaft, it and what it pushes lie in one line, to a few degrees.
  void line_up_the_pitman_arm() {
    for (const Part* part : bars()) {
      const Bar& bar = std::get<Bar>(part->what);
      for (const int end : {0, 1}) {
        Point& ball = named(bar.ends[index(end)]);
        if (ball.on != "pitman") continue;
        const Vec3 shaft = named("sector_shaft_low").at;
        Vec3 arm = ball.at - shaft, way = named(bar.ends[index(1 - end)]).at - shaft;
        arm.z() = way.z() = 0;
        const double off = random_.between(-0.05, 0.05) * arm.norm();
        const Vec3 along = (pick(2) == 0 ? 1 : -1) * arm.norm() * way.normalized();
        ball.at.x() = shaft.x() + along.x() - off * way.normalized().y();
        ball.at.y() = shaft.y() + along.y() + off * way.normalized().x();
        return tell("pitman arm near its dead centre");
      }
    }
  }

  /// What has a side trades places fore-aft and up, what has none goes to the other side of the truck.
  void swap_sides() {
    Point& point = one_of(truck_.points);
    tell(point.name + " on the wrong side");
    if (!ends_with(point.name, "_left")) {
      point.at.y() = -point.at.y();
      return;
    }
    Point& other = named(point.name.substr(0, point.name.size() - 4) + "right");
    std::swap(point.at, other.at);
  }

  /// Given lengths that the points contradict by up to the most that a file may allow.
  void spoil_lengths() {
    spoilt_lengths_ = true;
    tell("lengths wrong");
  }

  void spoil_bushes() {
    for (BushEntry& bush : truck_.bushes) {
      for (double* stiffness : {&bush.radial, &bush.axial, &bush.tilt, &bush.twist})
        *stiffness = pick(6) == 0 ? 0 : *stiffness * std::pow(10.0, random_.between(-6, 2));
    }
    tell("bushes of any stiffness");
  }

  void widen_ranges() {
    truck_.height_range = {random_.between(-0.6, 0), random_.between(0.05, 0.8)};
    truck_.lean = from_deg(random_.between(2, 25));
    tell("ranges far too wide");
  }

  /// The reader turns down a left point on the right: put it in the middle instead, so that the rest is looked at.
  void keep_to_sides() {
    for (Point& point : truck_.points) {
      if (ends_with(point.name, "_left")) point.at.y() = std::max(point.at.y(), 0.002);
      if (ends_with(point.name, "_right")) point.at.y() = std::min(point.at.y(), -0.002);
    }
  }

  void write() {
    std::string& text = out_.text;
    text = fmt::format(
        "format = 1\nunits = \"mm\"\nname = \"Bad truck {}\"\nbased_on = [\"{}\"]\n\n[truck]\n"
        "height_range = [{:.9f}, {:.9f}]\nlean = \"{:.9f} deg\"\n",
        out_.seed, testing::source_path(out_.base), to_mm(truck_.height_range[0]),
        to_mm(truck_.height_range[1]), to_deg(truck_.lean));
    if (spoilt_lengths_) text += "tolerance = 50\n";
    text += "\n[points]\n";
    for (const Point& point : truck_.points) {
      text += fmt::format("{} = {{ on = \"{}\", at = [{:.9f}, {:.9f}, {:.9f}] }}\n", point.name,
                          point.on, to_mm(point.at.x()), to_mm(point.at.y()), to_mm(point.at.z()));
    }
    for (const BushEntry& bush : truck_.bushes) write_bush(bush);
    if (spoilt_lengths_) set_lengths();
  }

  void write_bush(const BushEntry& bush) {
    const Vec3& axis = bush.axis.fixed;
    out_.text += fmt::format(
        "\n[bushes.{}]\nball = \"{}\"\n{}axis = [{}, {}, {}]\nradial = \"{:.9g} N/m\"\naxial = "
        "\"{:.9g} N/m\"\ntilt = \"{:.9g} N m/rad\"\ntwist = \"{:.9g} N m/rad\"\n",
        bush.name, bush.ball, bush.of.empty() ? "" : fmt::format("of = \"{}\"\n", bush.of),
        axis.x(), axis.y(), axis.z(), bush.radial, bush.axial, bush.tilt, bush.twist);
  }

  void set_lengths() {
    for (const Part* part : bars()) {
      if (ends_with(part->name, "_right")) continue;  // set with the left one, which it mirrors
      const Bar& bar = std::get<Bar>(part->what);
      const double points_say = (named(bar.ends[0]).at - named(bar.ends[1]).at).norm();
      const double length = points_say + random_.between(-0.05, 0.05);
      out_.settings.push_back({fmt::format("parts.{}.length={:.9f}", part->name, to_mm(length))});
    }
  }

  Random random_;
  Truck truck_;
  BadTruck out_;
  bool spoilt_lengths_ = false;
};

}  // namespace

Result<Truck> BadTruck::read() const {
  const std::string file = "bad-truck.toml";
  const auto text_of = [&](const std::string& path) -> tl::expected<std::string, std::string> {
    return path == file ? text : testing::text_of_file(path);
  };
  return read_truck(file, text_of, settings);
}

std::string BadTruck::words() const {
  std::string words = fmt::format("seed {}, {}: {}", seed, base, harm);
  for (const Setting& setting : settings) words += "\n  --set " + setting.text;
  return words;
}

BadTruck bad_truck(std::uint64_t seed) {
  return Breaker(seed).build();
}

}  // namespace axlewright::robust
