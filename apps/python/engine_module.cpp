// The module axlewright._engine: text and arrays across the border, nothing else. What people import is the package around it.

#include <optional>
#include <stdexcept>
#include <string>

#include <fmt/format.h>
#include <pybind11/pybind11.h>
#include <pybind11/stl.h>

#include "apps/python/outside.h"
#include "apps/python/posed_rig.h"
#include "apps/threads/in_threads.h"
#include "engine/ask/ask.h"
#include "engine/base/invariant.h"
#include "engine/base/version.h"

namespace py = pybind11;

namespace axlewright {
namespace {

/// A mistake of ours is an exception there too, and the interpreter goes on.
void raise_broken_invariant(const char* expression, const char* file, int line) {
  throw std::logic_error(
      fmt::format("this should not happen, please report it: {} ({}:{})", expression, file, line));
}

std::size_t threads_of(const std::optional<long long>& asked) {
  if (!asked) return all_threads();
  if (*asked < 1 || *asked > static_cast<long long>(kMostThreads))
    throw py::value_error(fmt::format("`threads` is a whole number from 1 to {}", kMostThreads));
  return static_cast<std::size_t>(*asked);
}

std::string ask_text(const std::string& question, const py::object& texts,
                     const py::object& progress, const std::optional<long long>& threads) {
  Outside outside(texts, progress);
  AskContext context = outside.context();
  context.for_each = in_threads(threads_of(threads));
  const Result<std::string> answer = [&]() -> Result<std::string> {
    const py::gil_scoped_release free;
    const Result<Json> json = ask(Json::parse(question), context);
    if (!json) return tl::unexpected(json.error());
    return json->dump(-1, ' ', false, Json::error_handler_t::replace);
  }();
  outside.finish();
  if (!answer) raise_faults(answer.error());
  return *answer;
}

}  // namespace
}  // namespace axlewright

PYBIND11_MODULE(_engine, m) {
  using namespace axlewright;
  set_invariant_handler(raise_broken_invariant);
  m.attr("version") = version();
  m.def("ask_text", ask_text, py::arg("question"), py::arg("texts"), py::arg("progress"),
        py::arg("threads"));
  py::class_<PosedRig>(m, "PosedRig")
      .def(py::init<const std::string&, const py::object&>(), py::arg("question"), py::arg("texts"))
      .def_property_readonly("truck", &PosedRig::truck)
      .def_property_readonly("quantities", &PosedRig::quantities)
      .def_property_readonly("bodies", &PosedRig::bodies)
      .def_property_readonly("height_range_mm", &PosedRig::height_range_mm)
      .def("poses", &PosedRig::poses, py::arg("names"), py::arg("inputs"), py::arg("flags"),
           py::arg("progress"));
}
