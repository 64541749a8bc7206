#include "apps/cli/help.h"

#include <algorithm>

#include <fmt/format.h>

#include "engine/base/version.h"
#include "engine/output/text.h"

namespace axlewright {
namespace {

constexpr int kFlagWidth = 26;
constexpr int kVerbWidth = 9;

void print_verbs(Page& page) {
  for (const VerbHelp& verb : verbs())
    page.item(std::string(verb.verb), std::string(verb.does), kVerbWidth);
}

void print_lines(Page& page, const std::vector<std::string_view>& lines) {
  for (const std::string_view line : lines) page.item(std::string(line), "", 0);
}

}  // namespace

const std::vector<VerbHelp>& verbs() {
  static const std::vector<VerbHelp> list = {
      {"check",
       "FILE",
       "reads a truck file: what is wrong in it, what is held, what is loose",
       "Reads the truck file and names everything that is wrong in it, with its line and how to "
       "mend it. Then it tells which part holds what, what is left loose and what moves with it, "
       "and how far height, lean and steering can go before something binds.",
       {"axlewright check trucks/guided.toml",
        "axlewright check trucks/guided.toml --set pitman_ball.z=+10mm"}},
      {"pose",
       "FILE",
       "everything about the truck at one height, bump, lean and steering",
       "A pose is one height, wheel travel, lean and steering of the truck. What is not given is "
       "0, and the truck goes straight. A bare number is in mm (in inches with --units inch) or "
       "in degrees; text carries its own unit: 4in, \"4 1/2 in\", 25mm, \"2 deg 30 min\", "
       "\"1.5 turns\".",
       {"axlewright pose trucks/guided.toml --height 120 --lean 3",
        "axlewright pose trucks/guided.toml --height 4in --steering-wheel \"1 turn\"",
        "axlewright pose trucks/guided.toml --travel-left 25mm --held"}},
      {"sweep",
       "FILE",
       "raises it from bottom to top: steering wheel, axle, alignment, limits",
       "Raises the truck over its whole height range and, at each height, bumps it, leans it and "
       "steers it. Tells what the steering wheel, the axle and the alignment do, which limits of "
       "the file are met and broken and where, and which points matter most.",
       {"axlewright sweep trucks/guided.toml",
        "axlewright sweep trucks/guided.toml --heights 21 --quantity bump_steer",
        "axlewright sweep trucks/guided.toml --csv -o guided.csv"}},
      {"compare",
       "FILE FILE...",
       "the same sweep for several trucks, side by side",
       "Raises each truck over its height range and sets them side by side: which is better at "
       "what, and by how much. With --with the trucks are platforms and the same kit goes on "
       "each: what it does on which.",
       {"axlewright compare trucks/plain-mismatched.toml trucks/guided.toml",
        "axlewright compare dunlin-28.toml dunlin-45.toml --with kits/guided-kit.toml"}},
      {"setup",
       "FILE",
       "the bar lengths that centre steering wheel and axle at a height",
       "Finds the lengths of drag link and track bar that centre the steering wheel and the axle "
       "at one height (the aligned height of the file unless --height says another), in turns of "
       "their sleeves too, and what the truck then does at the other heights.",
       {"axlewright setup trucks/plain-parallel.toml --height 100mm"}},
      {"start",
       "FILE --layout NAME",
       "a truck file to fill in, and the sheet of what to measure",
       "Writes FILE, a truck file with comments to fill in for a layout, and beside it a sheet of "
       "what to measure on the truck, in which order, from where and how well. Neither is written "
       "over a file that is there, unless --force is given.",
       {"axlewright start my-truck.toml --layout guided",
        "axlewright start try.toml --layout plain --example-numbers"}},
      {"draw",
       "FILE",
       "the shop sheet of a pose: three views, dimensions, parts, as SVG",
       "Draws front, side and top view of the truck at one height, bump, lean and steering, with "
       "hidden edges, centre lines, dimensions, numbered parts and a title block, to scale on "
       "its paper. Where the pose cannot be had, the last one on the way to it is drawn, and says "
       "so. Flags of the pose are those of `axlewright pose`.",
       {"axlewright draw trucks/guided.toml --height 120 --svg -o guided.svg",
        "axlewright draw trucks/guided.toml --height 4in --beside-height 0 --paper A2 -o "
        "guided.svg"}},
      {"show",
       "FILE FILE -o PAGE",
       "the customer page: two front ends side by side, one file for any browser",
       "Writes one page, the engine inside it, that shows a customer what two front ends do as the "
       "truck is raised, bumped, leaned and steered, and why. It opens from disk, on a phone too, "
       "without a network. The files of both trucks are in the page.",
       {"axlewright show trucks/plain-mismatched.toml trucks/guided.toml -o why.html",
        "axlewright show before.toml after.toml -o why.html --shop \"Skarn Lane Fabrication\""}},
      {"serve",
       "[FOLDER]",
       "the workspace in the browser, over the truck files of a folder",
       "Hands out the workspace page and the truck files (.toml) in FOLDER and below (the folder "
       "at hand if none is given), and saves what the page changes, to this machine alone. It "
       "prints the address to open in a browser and runs until Ctrl-C, which ends it with status "
       "0. Nothing outside FOLDER is read or written; links are not followed.",
       {"axlewright serve trucks", "axlewright serve trucks --port 0"}},
  };
  return list;
}

const VerbHelp* find_verb(std::string_view verb) {
  const auto found = std::find_if(verbs().begin(), verbs().end(),
                                  [&](const VerbHelp& one) { return one.verb == verb; });
  return found == verbs().end() ? nullptr : &*found;
}

std::string short_help() {
  Page page{PrintStyle{}};
  page.paragraph(
      "axlewright computes what a live front axle and its steering do as the truck is raised.");
  page.heading("To begin, type");
  page.item("axlewright sweep trucks/guided.toml", "", 0);
  page.heading("Other things to ask");
  print_verbs(page);
  page.paragraph("axlewright VERB --help tells more about each, axlewright --help about all.");
  return page.take();
}

std::string whole_help() {
  Page page{PrintStyle{}};
  page.paragraph(
      "axlewright computes what a live front axle and its steering do as the truck is raised, "
      "bumped, leaned and steered, out of a truck file with the places of its points.");
  page.heading("Typed as");
  page.item("axlewright VERB FILE [flags]", "", 0);
  page.heading("Verbs");
  print_verbs(page);
  page.heading("To begin");
  print_lines(page, {"axlewright sweep trucks/guided.toml",
                     "axlewright compare trucks/plain-mismatched.toml trucks/guided.toml",
                     "axlewright sweep --help"});
  page.heading("Exit status");
  page.item("0", "done, and no limit of the file is broken", 3);
  page.item("1", "done, but a limit is broken, or a pose where it holds cannot be had", 3);
  page.item("2", "something is wrong with the command line or a file", 3);
  page.item("3", "there is no solution: nothing to tell", 3);
  page.item("130", "stopped by Ctrl-C; nothing was written", 5);
  page.heading("Also");
  page.item("--help, -h", "this, or behind a verb what it does and its flags", 14);
  page.item("--version", "which version this is", 14);
  return page.take();
}

std::string verb_help(const VerbHelp& verb, const std::vector<FlagHelp>& flags) {
  Page page{PrintStyle{}};
  page.paragraph(fmt::format("axlewright {} {} [flags]", verb.verb, verb.files));
  page.paragraph(std::string(verb.more));
  page.heading("Flags");
  for (const FlagHelp& flag : flags) {
    if (text_width(flag.flag) + 2 > kFlagWidth) {
      page.item(flag.flag, "", 0);
      page.item("", flag.does, kFlagWidth);
    } else {
      page.item(flag.flag, flag.does, kFlagWidth);
    }
  }
  page.heading("For instance");
  print_lines(page, verb.examples);
  return page.take();
}

std::string version_text() {
  return fmt::format("axlewright {}\n", version());
}

}  // namespace axlewright
