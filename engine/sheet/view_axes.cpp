#include "engine/sheet/view_axes.h"

#include <cmath>

namespace axlewright {

const char* name_of(ViewKind kind) {
  switch (kind) {
    case ViewKind::front:
      return "front";
    case ViewKind::side:
      return "side";
    case ViewKind::top:
    case ViewKind::top_below:
      return "top";
    case ViewKind::pictorial:
      return "pictorial";
  }
  return "";
}

const char* words_for(ViewKind kind) {
  switch (kind) {
    case ViewKind::front:
      return "Front view";
    case ViewKind::side:
      return "Side view, from the truck's left";
    case ViewKind::top:
    case ViewKind::top_below:
      return "Top view";
    case ViewKind::pictorial:
      return "Pictorial view";
  }
  return "";
}

ViewAxes view_axes(ViewKind kind, double turn, double tilt) {
  switch (kind) {
    case ViewKind::front:
      return {Vec3::UnitY(), Vec3::UnitZ(), Vec3::UnitX()};
    case ViewKind::side:
      return {-Vec3::UnitX(), Vec3::UnitZ(), Vec3::UnitY()};
    case ViewKind::top:
      return {-Vec3::UnitY(), Vec3::UnitX(), Vec3::UnitZ()};
    case ViewKind::top_below:
      return {Vec3::UnitY(), -Vec3::UnitX(), Vec3::UnitZ()};
    case ViewKind::pictorial:
      break;
  }
  const Vec3 toward(std::cos(tilt) * std::cos(turn), std::cos(tilt) * std::sin(turn),
                    std::sin(tilt));
  const Vec3 across(-std::sin(turn), std::cos(turn), 0);
  return {across, cross(toward, across), toward};
}

}  // namespace axlewright
