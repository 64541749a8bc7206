#include "apps/python/outside.h"

#include <utility>

#include "engine/disk/read_file.h"
#include "engine/truck/fault_text.h"

namespace py = pybind11;

namespace axlewright {

Outside::Outside(py::object texts, py::object progress)
    : texts_(std::move(texts)), progress_(std::move(progress)) {}

AskContext Outside::context() {
  return {.text_of = [this](const std::string& path) { return text_of(path); },
          .progress = [this](double share) { return goes_on(share); }};
}

void Outside::finish() {
  if (raised_) std::rethrow_exception(std::exchange(raised_, nullptr));
}

tl::expected<std::string, std::string> Outside::text_of(const std::string& path) {
  if (texts_.is_none()) return read_file(path);
  const py::gil_scoped_acquire lock;
  try {
    return texts_(path).cast<std::string>();
  } catch (const py::error_already_set& error) {
    if (error.matches(PyExc_LookupError))
      return tl::unexpected<std::string>("there is no such file");
    if (error.matches(PyExc_OSError))
      return tl::unexpected(py::str(error.value()).cast<std::string>());
    raised_ = std::current_exception();
  } catch (const py::cast_error&) {
    raised_ = std::make_exception_ptr(py::type_error("`texts` gave something else than text"));
  }
  return tl::unexpected<std::string>("it was not given");
}

bool Outside::goes_on(double share) {
  if (raised_) return false;
  const py::gil_scoped_acquire lock;
  try {
    if (PyErr_CheckSignals() != 0) throw py::error_already_set();
    if (!progress_.is_none()) progress_(share);
  } catch (const py::error_already_set&) {
    raised_ = std::current_exception();
  }
  return !raised_;
}

void raise_faults(const std::vector<Fault>& faults) {
  const py::module_ ours = py::module_::import("axlewright._faults");
  py::list list;
  for (const Fault& fault : faults) {
    list.append(ours.attr("Fault")(fault.severity == Severity::error ? "error" : "warning",
                                   fault.file, fault.line, fault.column, fault.length, fault.what,
                                   fault.fix, fault.source_line, text_of(fault)));
  }
  const py::object type = ours.attr("Faults");
  PyErr_SetObject(type.ptr(), type(list).ptr());
  throw py::error_already_set();
}

}  // namespace axlewright
