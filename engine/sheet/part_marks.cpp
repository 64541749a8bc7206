#include "engine/sheet/part_marks.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "engine/sheet/part_words.h"

namespace axlewright {
namespace {

constexpr double kCircle = 3.2e-3;
constexpr double kSpacing = 8e-3;
constexpr double kHair = 1e-6;  // [m of paper] what differs by less is alike: the first one counts

/// What a view shows of a part: length of its lines, and the middle of the longest of them.
struct Shown {
  double length = 0, longest = 0;
  Vec2 at = Vec2::Zero();
};

/// Road and pads are no parts of a truck.
bool is_part(const std::string& part) {
  return !part.empty() && part != "road" && part.rfind("pad_", 0) != 0;
}

std::map<std::string, Shown> shown_in(const Drawing& drawing) {
  std::map<std::string, Shown> parts;
  for (const Item& item : drawing.items) {
    if (!is_part(item.part)) continue;
    if (item.layer != DrawingLayer::outline && item.layer != DrawingLayer::adjacent &&
        item.layer != DrawingLayer::detail)
      continue;
    const auto* line = std::get_if<Polyline>(&item.what);
    if (line == nullptr) continue;
    Shown& part = parts[item.part];
    for (std::size_t k = 1; k < line->points.size(); ++k) {
      const Vec2 &a = line->points[k - 1], &b = line->points[k];
      const double length = (b - a).norm();
      part.length += length;
      if (length <= part.longest + kHair) continue;
      part.longest = length;
      part.at = 0.5 * (a + b);
    }
  }
  return parts;
}

bool is_one_of_a_pair(const std::string& part) {
  const auto ends_in = [&](const std::string& end) {
    return part.size() > end.size() && part.compare(part.size() - end.size(), end.size(), end) == 0;
  };
  return ends_in("_left") || ends_in("_right");
}

struct Mark {
  std::string part;
  Vec2 at = Vec2::Zero();
};

/// Places in a row, in the order of what they point at, no two nearer than the spacing.
std::vector<double> row_of(const std::vector<Mark>& marks, double left, double right) {
  std::vector<double> places;
  for (const Mark& mark : marks) {
    const double least = places.empty() ? left : places.back() + kSpacing;
    places.push_back(std::max(mark.at.x(), least));
  }
  double most = right;
  for (std::size_t k = places.size(); k-- > 0;) {
    places[k] = std::min(places[k], most);
    most = places[k] - kSpacing;
  }
  return places;
}

}  // namespace

std::vector<PartMark> mark_parts(const std::vector<MarkedView>& views, const Truck& truck,
                                 Pen& pen) {
  std::vector<std::map<std::string, Shown>> shown;
  std::map<std::string, std::size_t> best;
  for (std::size_t v = 0; v < views.size(); ++v) {
    shown.push_back(shown_in(*views[v].drawing));
    for (const auto& [part, what] : shown.back()) {
      if (!views[v].both_sides && is_one_of_a_pair(part)) continue;
      const auto found = best.find(part);
      if (found == best.end() || what.length > shown[found->second][part].length + kHair)
        best[part] = v;
    }
  }
  std::vector<PartMark> named;
  for (std::size_t v = 0; v < views.size(); ++v) {
    std::vector<Mark> marks;
    for (const auto& [part, what] : shown[v]) {
      const auto found = best.find(part);
      if (found != best.end() && found->second == v) marks.push_back({part, what.at});
    }
    // Those above each other stay in the order of their names.
    std::stable_sort(marks.begin(), marks.end(), [](const Mark& a, const Mark& b) {
      return std::round(a.at.x() / kHair) < std::round(b.at.x() / kHair);
    });
    const std::vector<double> row = row_of(marks, views[v].left, views[v].right);
    for (std::size_t k = 0; k < marks.size(); ++k) {
      const int number = static_cast<int>(named.size()) + 1;
      const Vec2 centre(row[k], views[v].row);
      const Vec2 way = (marks[k].at - centre).normalized();
      pen.circle(DrawingLayer::dimension, centre, kCircle);
      pen.write(centre - Vec2(0, 0.5 * kSmallLetters), std::to_string(number), kSmallLetters,
                Anchorage::middle);
      pen.leader(centre + kCircle * way, marks[k].at);
      named.push_back({number, marks[k].part, words_for_part(truck, marks[k].part)});
    }
  }
  return named;
}

}  // namespace axlewright
