#include "apps/cli/show.h"

#include <cmath>
#include <filesystem>
#include <map>
#include <utility>

#include <fmt/format.h>

#include "apps/cli/exit_status.h"
#include "apps/cli/run.h"
#include "apps/cli/truck_files.h"
#include "apps/cli/web_pages.h"
#include "apps/files/whole_file.h"
#include "engine/ask/ask.h"
#include "engine/base/units.h"
#include "engine/disk/read_file.h"
#include "engine/output/customer_page.h"
#include "engine/output/svg.h"

namespace axlewright {
namespace {

namespace fs = std::filesystem;

constexpr const char* kPageName = "why.html";

/// Heights of the recorded pictures, as shares of the range.
constexpr double kPictureHeights[] = {0, 0.5, 1};

int refuse(std::string what, std::string fix) {
  report_faults(fail(std::move(what), std::move(fix)).value(), /*json=*/false);
  return kBadInput;
}

fs::path whole_path(const std::string& path) {
  return fs::absolute(path).lexically_normal();
}

/// The deepest folder that all of the files are in.
fs::path common_folder(const std::vector<std::string>& paths) {
  fs::path common = whole_path(paths.front()).parent_path();
  for (const std::string& path : paths) {
    const fs::path whole = whole_path(path);
    while (!common.empty() && common != common.root_path() &&
           *whole.lexically_relative(common).begin() == "..")
      common = common.parent_path();
  }
  return common;
}

/// The files that were read, by their paths from that folder: what lies above it is nobody's business.
std::map<std::string, std::string> files_of_page(TruckFiles& files, const fs::path& folder) {
  std::map<std::string, std::string> texts;
  for (const std::string& path : files.paths()) {
    if (const auto text = files.text_of(path))
      texts[whole_path(path).lexically_relative(folder).generic_string()] = *text;
  }
  return texts;
}

Json view_question(const std::string& file, double height_mm, const std::string& units) {
  Json question{{"ask", "view"}, {"file", file}, {"height_mm", height_mm}};
  question["views"] = Json::array({Json{
      {"view", "front"}, {"paper_mm", {180, 110}}, {"hidden", false}, {"centre_lines", false}}});
  if (!units.empty()) question["units"] = units;
  return question;
}

/// What is said under a recorded picture.
std::string words_of(const Json& view) {
  if (!view["complete"].get<bool>()) return view["story"][0].get<std::string>();
  for (const Json& quantity : view["quantities"]) {
    if (quantity["name"] != "steering_wheel_off_centre_deg") continue;
    const Json& value = view["values"]["steering_wheel_off_centre_deg"];
    if (value.is_null()) return {};
    const double off = value.get<double>();
    constexpr double kCentred = 0.05;  // what rounds to 0.0
    if (std::abs(off) < kCentred) return "The steering wheel stays centred.";
    return fmt::format("The steering wheel is {:.1f} deg {} off centre.", std::abs(off),
                       quantity[off > 0 ? "positive" : "negative"].get<std::string>());
  }
  return {};
}

/// Puts drawings of a truck at its heights into the page, and of the first truck its unit where none is asked for; or gives the faults
/// of its files.
std::vector<Fault> add_pictures(const std::string& file, int truck, const std::string& units,
                                const AskContext& context, CustomerPage& page) {
  const Result<Json> range = ask(Json{{"ask", "view"}, {"file", file}}, context);
  if (!range) return range.error();
  if (truck == 0) page.inches = (units.empty() ? (*range)["units"] : Json(units)) == "inch";
  const double low = (*range)["height_range_mm"][0], high = (*range)["height_range_mm"][1];
  for (const double share : kPictureHeights) {
    const double height = low + share * (high - low);
    const Result<Json> view = ask(view_question(file, height, units), context);
    if (!view) return view.error();
    page.pictures.push_back({truck, from_mm(height), svg_of((*view)["views"][0]), words_of(*view)});
  }
  return {};
}

/// The page must find its files by itself: its trucks are asked about once more, out of its own texts.
std::vector<Fault> faults_in_page(const CustomerPage& page) {
  AskContext context;
  context.text_of = [&](const std::string& path) -> tl::expected<std::string, std::string> {
    const auto found = page.files.find(path);
    if (found == page.files.end()) return tl::unexpected<std::string>("it is not in the page");
    return found->second;
  };
  for (const std::string& truck : page.trucks) {
    const Result<Json> answer = ask(Json{{"ask", "view"}, {"file", truck}}, context);
    if (!answer) return answer.error();
  }
  return {};
}

Result<CustomerPage> page_of(const Command& command, TruckFiles& files) {
  AskContext context;
  context.text_of = files.reader();
  CustomerPage page;
  page.shop_name = command.shop;
  page.shop_words = command.words;
  for (std::size_t k = 0; k < command.files.size(); ++k) {
    if (auto faults =
            add_pictures(command.files[k], static_cast<int>(k), command.units, context, page);
        !faults.empty())
      return tl::unexpected(std::move(faults));
  }
  const fs::path folder = common_folder(files.paths());
  page.files = files_of_page(files, folder);
  for (const std::string& file : command.files)
    page.trucks.push_back(whole_path(file).lexically_relative(folder).generic_string());
  if (auto faults = faults_in_page(page); !faults.empty()) return tl::unexpected(std::move(faults));
  return page;
}

}  // namespace

int run_show(const Command& command) {
  if (command.output.empty())
    return refuse("show writes a page, and no file is named for it", "add -o why.html");
  const auto path = web_page_path(kPageName);
  if (!path) return refuse(path.error(), "start it from the folder where it was built");
  const auto built = read_file(*path);
  if (!built) {
    return refuse(fmt::format("the customer page '{}' cannot be read: {}", *path, built.error()),
                  "build it: ./run does");
  }
  TruckFiles files;
  const Result<CustomerPage> data = page_of(command, files);
  if (!data) {
    report_faults(data.error(), /*json=*/false);
    return kBadInput;
  }
  if (files.has_read(command.output))
    return refuse("the page would be written over a truck file", "give another name behind -o");
  const Result<std::string> page = customer_page(*built, *data);
  if (!page) {
    report_faults(page.error(), /*json=*/false);
    return kBadInput;
  }
  if (const auto wrong = write_whole(command.output, *page, Existing::replace))
    return refuse(fmt::format("'{}' cannot be written: {}", command.output, *wrong),
                  "give another name behind -o");
  return print_out(fmt::format("wrote {} ({:.1f} MB): open it in any browser\n", command.output,
                               static_cast<double>(page->size()) / 1e6))
             ? kDone
             : kBadInput;
}

}  // namespace axlewright
