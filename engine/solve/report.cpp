#include "engine/solve/report.h"

namespace axlewright {

const char* word_for(Outcome outcome) {
  switch (outcome) {
    case Outcome::not_run:
      return "not run";
    case Outcome::converged:
      return "converged";
    case Outcome::out_of_reach:
      return "out of reach";
    case Outcome::bound:
      return "bound";
    case Outcome::dead_centre:
      return "dead centre";
    case Outcome::singular:
      return "singular";
    case Outcome::unassembled:
      return "not assembled";
    case Outcome::under_held:
      return "under-held";
    case Outcome::over_held:
      return "over-held";
    case Outcome::unstable:
      return "unstable";
    case Outcome::iteration_limit:
      return "iteration limit";
  }
  return "";
}

const char* word_for(Certificate certificate) {
  switch (certificate) {
    case Certificate::none:
      return "none";
    case Certificate::followed:
      return "followed";
    case Certificate::proved:
      return "proved";
  }
  return "";
}

}  // namespace axlewright
