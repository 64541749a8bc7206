#include "engine/truck/read.h"

#include <utility>

#include "engine/truck/complaints.h"
#include "engine/truck/fit_measured.h"
#include "engine/truck/layers.h"
#include "engine/truck/mirror.h"
#include "engine/truck/read_context.h"
#include "engine/truck/setting.h"

namespace axlewright {

namespace {

void read_sections(ReadContext& context) {
  // Names first, then places, then what hangs on them: so each complaint can look at all that it needs.
  read_truck_section(context);
  collect_bodies(context);
  read_points(context);
  read_measured(context);
  check_point_sides(context);
  read_parts(context);
  read_joints(context);
  read_studs(context);
  read_bushes(context);
  read_wheels(context);
  read_rear_wheels(context);
  read_gear(context);
  read_axle_stops(context);
  read_travel(context);
  read_readings(context);
  read_limits(context);
  check_truck(context);
}

tl::unexpected<std::vector<Fault>> all_of(const Complaints& complaints) {
  return tl::unexpected<std::vector<Fault>>(complaints.sorted());
}

}  // namespace

Result<Truck> read_truck(const std::string& path, const TextOf& text_of,
                         const std::vector<Setting>& settings,
                         const std::vector<std::string>& kits) {
  Sources sources;
  Complaints complaints(sources);
  std::optional<Layered> layered = read_layers(path, text_of, sources, complaints, kits);
  if (!layered) return all_of(complaints);
  apply_settings(*layered, settings, sources, complaints);
  write_mirrors_out(layered->root, complaints);
  ReadContext context(layered->root, layered->unit, complaints);
  context.head = layered->head;
  context.incomplete = layered->unknown_sections;
  context.truck.name = layered->name;
  context.truck.file = path;
  context.truck.kits = layered->kits;
  context.truck.inches = layered->unit == BareUnit::inch;
  read_sections(context);
  if (complaints.has_errors()) return all_of(complaints);
  context.truck.warnings = complaints.sorted();
  if (context.measured) return fit_measured(std::move(context.truck), *context.measured, sources);
  return std::move(context.truck);
}

}  // namespace axlewright
