#pragma once

#include <string>

namespace axlewright {

/// How the search for a pose ended. Only `converged` may be used as a pose.
enum class Outcome {
  not_run,       ///< nobody tried: never reads as success
  converged,     ///< closed; see residual and step
  out_of_reach,  ///< the path from as measured ends before the wanted pose: a limit point lies between, or a bush is at 90 deg
  bound,         ///< at a limit point: nearer than kBound or than the shortest step of a path
  dead_centre,  ///< the path ends where the road wheels stop answering the pitman arm, while the mechanism still moves
  singular,     ///< the mechanism is loose at the as-measured pose itself
  unassembled,  ///< no pose is found from the points as measured: given lengths or bushes do not go with them
  under_held,      ///< something moves with every input held
  over_held,       ///< closures fight: rigid parts cannot do it
  unstable,        ///< bushes balance there, but not as a minimum of their energy: no place of rest
  iteration_limit  ///< Newton did not settle and no limit point was found
};

/// How a pose is known to lie on the as-measured assembly's branch (definition 16).
///   followed  a step-controlled path led here: each step contracted by kContraction, the tangent turned by
///             less than kTangentTurn, the Jacobian's determinant kept its sign
///   proved    each step of the path satisfied a Newton-Kantorovich bound
enum class Certificate { none, followed, proved };

/// How the search for one pose ended, and how well it closed. Travels with every pose.
struct SolveReport {
  Outcome outcome = Outcome::not_run;
  Certificate certificate = Certificate::none;
  int iterations = 0;  ///< Newton and chord steps, over the whole path
  int path_steps = 0;
  double residual = 0;   ///< of a pose: largest over the equations solved [m] (angles at 0.4 m)
  double last_step = 0;  ///< of a pose: size of the last correction [m] (angles at 0.4 m)
  double set_aside_miss = 0;   ///< largest miss of a redundant closure [m]
  double path_reached = 1;     ///< share of the way from the last pose asked to this one, 1 = there
  std::string what_ran_out;    ///< for a failure: parts, "drag link and left knuckle", or a closure
  std::string how_it_ran_out;  ///< makes a sentence of it: "run straight", "is at a dead centre"
  std::string message;         ///< for a failure: one sentence

  bool usable() const { return outcome == Outcome::converged; }
};

const char* word_for(Outcome outcome);
const char* word_for(Certificate certificate);

}  // namespace axlewright
