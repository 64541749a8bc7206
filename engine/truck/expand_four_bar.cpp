// [parts] of kind "four-bar": a crank pinned on one body, with an arm from each of its ends to another.

#include "engine/truck/expander.h"

namespace axlewright {

namespace {

void expand_arm(Expander& x, const Part& part, const std::string& which,
                const std::array<std::string, 2>& ends) {
  Part arm;
  arm.name = part.name + "_" + which + "_arm";
  arm.words = part.words + " " + which + " arm";
  Bar bar;
  bar.ends = ends;
  expand_part(x, arm, bar);
}

}  // namespace

void add_part_bodies(Expander& x, const Part& part, const FourBar&) {
  x.add_body(part.name + "_crank", part.words + " crank");
}

void expand_part(Expander& x, const Part& part, const FourBar& four_bar) {
  const std::string crank = part.name + "_crank";
  x.turning(part.words + " crank", crank, four_bar.carries, four_bar.pivot, four_bar.axis);
  expand_arm(x, part, "upper", four_bar.upper_arm);
  expand_arm(x, part, "lower", four_bar.lower_arm);
  x.out().four_bars.push_back({part.name, part.words, x.body(crank), x.body(four_bar.carries)});
}

}  // namespace axlewright
