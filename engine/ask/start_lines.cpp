#include "engine/ask/start_lines.h"

#include <utility>

#include <fmt/format.h>

namespace axlewright {
namespace {

bool ends_in_left(const std::string& name) {
  constexpr const char* kLeft = "_left";
  return name.size() > 5 && name.compare(name.size() - 5, 5, kLeft) == 0;
}

}  // namespace

Blank length(double mm) {
  return Blank{BlankKind::length, mm, ""};
}
Blank angle(double deg) {
  return Blank{BlankKind::angle, deg, ""};
}
Blank turns(double count) {
  return Blank{BlankKind::turns, count, ""};
}

FileLine point(PointForm form) {
  const bool both = ends_in_left(form.name);
  FileLine line;
  line.text = fmt::format("{} = {{ on = \"{}\", at = [@, @, @], plus_minus = \"%\"{} }}", form.name,
                          form.on, both ? ", mirror = true" : "");
  for (const double coordinate : form.example) line.blanks.push_back(length(coordinate));
  line.step = MeasuringStep{form.name,          std::move(form.what), std::move(form.from),
                            form.accuracy,      {"x", "y", "z"},      both,
                            std::move(form.why)};
  return line;
}

FileLine key(const std::string& section, const std::string& name, std::vector<Blank> blanks,
             MeasuringStep step) {
  step.entry = section + "." + name;
  const char* value = blanks.size() == 2 ? "[@, @]" : "@";
  return FileLine{fmt::format("{} = {}", name, value), std::move(blanks), std::move(step)};
}

void add(Lines& lines, const Lines& more) {
  lines.insert(lines.end(), more.begin(), more.end());
}

Lines joined(std::initializer_list<Lines> parts) {
  Lines lines;
  for (const Lines& part : parts) add(lines, part);
  return lines;
}

Lines as_they_are(std::initializer_list<const char*> texts) {
  Lines lines;
  for (const char* text : texts) lines.push_back(FileLine{text});
  return lines;
}

}  // namespace axlewright
