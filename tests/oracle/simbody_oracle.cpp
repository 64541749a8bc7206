#include "tests/oracle/simbody_oracle.h"

#include <exception>

#include "tests/oracle/simbody_model.h"

namespace axlewright::oracle {

std::optional<std::vector<Placement>> solve(const Problem& problem,
                                            const std::vector<Placement>& start) {
  try {
    Model model(problem);
    model.put(start);
    model.close();
    return model.placements();
  } catch (const std::exception&) {
    return std::nullopt;  // Simbody's way to say that no pose was found
  }
}

std::optional<Statics> solve_statics(const Problem& problem, const std::vector<Placement>& start,
                                     const std::vector<Push>& loads) {
  try {
    Model model(problem);
    model.put(start);
    model.close();
    model.load(loads);
    return Statics{model.placements(), model.constraint_pushes(problem.labels),
                   model.acceleration()};
  } catch (const std::exception&) {
    return std::nullopt;
  }
}

}  // namespace axlewright::oracle
