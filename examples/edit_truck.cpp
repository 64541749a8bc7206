// Reads a truck file, changes a number in its text and asks the changed truck. Only the bytes of the number change: comments
// and layout stay. Nothing is written to the disk.
//
//   edit_truck TRUCK.toml SETTING...       edit_truck trucks/plain-mismatched.toml track_bar_axle.z=+20mm

#include <cstdio>
#include <string>

#include <engine/base/lines.h>
#include <engine/base/number.h>
#include <engine/base/units.h>
#include <engine/disk/read_file.h>
#include <engine/study/rig.h>
#include <engine/truck/edit.h>
#include <engine/truck/fault_text.h>

namespace aw = axlewright;

namespace {

int refuse(const std::vector<aw::Fault>& faults) {
  for (const aw::Fault& fault : faults) std::fputs(aw::text_of(fault).c_str(), stdout);
  return 2;
}

void print_off_centre(const char* when, const aw::Truck& truck) {
  aw::Rig rig(truck);
  const aw::PoseResult pose = rig.solve({.height = truck.height_range[1]});
  if (!pose.report.usable()) {
    std::printf("%s: %s\n", when, pose.report.message.c_str());
    return;
  }
  const double off_centre = aw::to_deg(pose.values[aw::kSteeringWheelOffCentre]);
  std::printf("%s: at the top the steering wheel is %s deg to the left\n", when,
              aw::decimal_text(off_centre, 1, 1).c_str());
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 3) {
    std::fputs("usage: edit_truck TRUCK.toml SETTING...\n", stderr);
    return 2;
  }
  const std::string file = argv[1];
  std::vector<aw::Setting> settings;
  for (int k = 2; k < argc; ++k) settings.push_back({argv[k]});

  const aw::TextOf on_disk = aw::texts_on_disk();
  const aw::Result<aw::Truck> before = aw::read_truck(file, on_disk);
  if (!before) return refuse(before.error());
  print_off_centre("Before", *before);

  // The new text, or faults: a setting that is misspelt, or whose value stands in a layer of the file.
  const std::string old_text = *on_disk(file);
  const aw::Result<std::string> new_text = aw::edit_text(old_text, file, settings, on_disk);
  if (!new_text) return refuse(new_text.error());

  const std::vector<std::string> was = aw::lines_of(old_text), is = aw::lines_of(*new_text);
  for (std::size_t k = 0; k < was.size(); ++k) {
    if (was[k] != is[k])
      std::printf("line %zu, was: %s\nline %zu, now: %s\n", k + 1, was[k].c_str(), k + 1,
                  is[k].c_str());
  }

  // The engine opens no file by itself: it asks for texts. Here the changed one is handed out in place of the file.
  const aw::TextOf changed = [&](const std::string& path) {
    return path == file ? tl::expected<std::string, std::string>(*new_text) : on_disk(path);
  };
  const aw::Result<aw::Truck> after = aw::read_truck(file, changed);
  if (!after) return refuse(after.error());
  print_off_centre("After", *after);
}
