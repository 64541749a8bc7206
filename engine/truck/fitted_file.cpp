#include "engine/truck/fitted_file.h"

#include <algorithm>
#include <vector>

#include <fmt/format.h>

#include "engine/base/invariant.h"
#include "engine/base/number.h"
#include "engine/base/units.h"
#include "engine/truck/spell.h"

namespace axlewright {

namespace {

class Writer {
 public:
  explicit Writer(const Truck& truck) : truck_(truck), fit_(*truck.fit) {}

  std::string text(const std::string& based_on) const {
    std::string text = "# Where the points of " + comment_text(truck_.name) +
                       " are by all that was measured of it, set straight. The measurements\n"
                       "# themselves stand in the file below.\n\n";
    text += fmt::format("format = 1\nunits = \"{}\"\nname = {}\nbased_on = [{}]\n",
                        truck_.inches ? "inch" : "mm", quoted(truck_.name + ", as fitted"),
                        quoted(based_on));
    text += fmt::format("remove = [{}]\n\n[truck]\nrake = {}\n\n[points]\n", removed(),
                        decimal_text(to_deg(truck_.rake), 0, 4));
    for (std::size_t k = 0; k < truck_.points.size(); ++k) {
      const Point& point = truck_.points[k];
      if (point.mirror_of.empty() && !is_measuring_only(point.name)) text += line_of(k);
    }
    return text;
  }

 private:
  /// A name in a comment stays on its line.
  static std::string comment_text(std::string name) {
    std::replace_if(
        name.begin(), name.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20; }, ' ');
    return name;
  }

  bool is_measuring_only(const std::string& point) const {
    const auto& only = fit_.measuring_only;
    if (std::find(only.begin(), only.end(), point) == only.end()) return false;
    // A point goes with its mirror image: as long as something uses that, it stays.
    return std::none_of(truck_.points.begin(), truck_.points.end(), [&](const Point& other) {
      return other.mirror_of == point &&
             std::find(only.begin(), only.end(), other.name) == only.end();
    });
  }

  std::string removed() const {
    std::vector<std::string> entries;
    if (fit_.has_section) entries.push_back("\"measured\"");
    if (fit_.has_readings) entries.push_back("\"readings\"");
    for (const Point& point : truck_.points) {
      if (point.mirror_of.empty() && is_measuring_only(point.name))
        entries.push_back(fmt::format("\"points.{}\"", point.name));
    }
    std::string list;
    for (const std::string& entry : entries) list += (list.empty() ? "" : ", ") + entry;
    return list;
  }

  bool has_mirror(const std::string& point) const {
    return std::any_of(truck_.points.begin(), truck_.points.end(),
                       [&](const Point& other) { return other.mirror_of == point; });
  }

  std::string number(double metres) const {
    return truck_.inches ? decimal_text(to_inch(metres), 0, 4) : decimal_text(to_mm(metres), 0, 3);
  }

  std::string line_of(std::size_t k) const {
    const Point& point = truck_.points[k];
    std::string line =
        fmt::format("{} = {{ on = \"{}\", at = [{}, {}, {}]", point.name, point.on,
                    number(point.at.x()), number(point.at.y()), number(point.at.z()));
    const double open = fit_.points[k].plus_minus.maxCoeff();
    // What is known better than the last digit written counts as exact.
    if (number(open) != "0") line += fmt::format(", plus_minus = {}", number(open));
    if (has_mirror(point.name)) line += ", mirror = true";
    return line + " }\n";
  }

  const Truck& truck_;
  const MeasuredFit& fit_;
};

}  // namespace

std::string fitted_file(const Truck& truck, const std::string& based_on) {
  AXLEWRIGHT_INVARIANT(truck.fit.has_value());
  return Writer(truck).text(based_on);
}

}  // namespace axlewright
