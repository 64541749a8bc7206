#include "apps/cli/command_line.h"

#include <algorithm>
#include <array>
#include <utility>

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include "apps/cli/help.h"
#include "engine/base/did_you_mean.h"

// The one file that includes CLI11: it costs six seconds to compile.

namespace axlewright {
namespace {

constexpr const char* kBesideFlag = "--beside-height";

struct PoseFlag {
  const char *flag, *value, *does;
};

constexpr std::array<PoseFlag, 10> kPoseFlags{{
    {"--height", "LENGTH", "how far the frame is raised over the axle, from as measured"},
    {"--rear-height", "LENGTH", "the same at the rear axle: it tips the frame"},
    {"--travel", "LENGTH", "both wheels up (bump) or, negative, down"},
    {"--travel-left", "LENGTH", "the left wheel alone, on top of that"},
    {"--travel-right", "LENGTH", "the right wheel alone, on top of that"},
    {"--lean", "ANGLE", "lean of the frame on its axle; positive: left side up"},
    {"--steering-wheel", "ANGLE", "steering wheel from the gear's centre; positive: to the left"},
    {"--pitman", "ANGLE",
     "pitman arm instead of the steering wheel; positive: as the wheel turns left"},
    {"--road-wheels", "ANGLE", "mean steer of the road wheels instead; positive: to the left"},
    {kBesideFlag, "LENGTH", "the same truck at another height, drawn faintly"},
}};
constexpr std::size_t kPoseInputs =
    kPoseFlags.size() - 1;  // all but the last, which is of a drawing

/// One verb with its flags. The values land in the command and in places of its own, so it stays where it is.
class VerbLine {
 public:
  VerbLine(CLI::App& app, const VerbHelp& help) : help_(help) {
    sub_ = app.add_subcommand(std::string(help.verb), std::string(help.does));
    sub_->set_help_flag("--help,-h", "this page");
    command_.verb = help.verb;
    add_files();
    add_flags_of_the_verb();
    if (help.verb != "serve") add_shared_flags();
  }

  VerbLine(const VerbLine&) = delete;
  VerbLine& operator=(const VerbLine&) = delete;

  bool is_used() const { return sub_->parsed(); }

  Command take() {
    for (std::size_t k = 0; k < inputs_.size(); ++k) {
      if (sub_->get_option_no_throw(kPoseFlags[k].flag) != nullptr &&
          sub_->count(kPoseFlags[k].flag) > 0)
        command_.inputs.push_back({kPoseFlags[k].flag, inputs_[k]});
    }
    if (straight_ahead_) command_.inputs.push_back({"--straight-ahead", ""});
    if (held_) command_.inputs.push_back({"--held", ""});
    return std::move(command_);
  }

  std::string help() const {
    std::vector<FlagHelp> flags;
    for (const CLI::Option* option : sub_->get_options()) {
      if (option->get_positional()) continue;
      std::string flag = option->get_name(false, true);
      std::replace(flag.begin(), flag.end(), ',', ' ');
      const std::string value = option->get_type_name();
      if (!value.empty()) flag += ' ' + value;
      flags.push_back({std::move(flag), option->get_description()});
    }
    return verb_help(help_, flags);
  }

  std::vector<std::string> flag_names() const {
    std::vector<std::string> names;
    for (const CLI::Option* option : sub_->get_options()) {
      for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
    }
    return names;
  }

  bool takes_value(const std::string& flag) const {
    const CLI::Option* option = sub_->get_option_no_throw(flag);
    return option != nullptr && option->get_items_expected_max() > 0;
  }

  /// How often a flag was given, with a value or without.
  std::size_t count(const std::string& flag) const {
    const CLI::Option* option = sub_->get_option_no_throw(flag);
    return option == nullptr ? 0 : option->count();
  }

  const VerbHelp& verb() const { return help_; }

 private:
  CLI::Option* text(const char* flag, std::string& value, const char* type, const char* does) {
    return sub_->add_option(flag, value, does)->type_name(type)->expected(1);
  }

  void add_files() {
    if (help_.verb == "serve") {
      sub_->add_option("FOLDER", command_.files)->expected(1);
    } else if (help_.verb == "compare") {
      sub_->add_option("FILE", command_.files)->required()->expected(2, 1000);
    } else if (help_.verb == "show") {
      sub_->add_option("FILE", command_.files)->required()->expected(2);
    } else {
      sub_->add_option("FILE", command_.files)->required()->expected(1);
    }
  }

  void pose_input(std::size_t k) {
    text(kPoseFlags[k].flag, inputs_[k], kPoseFlags[k].value, kPoseFlags[k].does);
  }

  void pose_inputs() {
    for (std::size_t k = 0; k < kPoseInputs; ++k) pose_input(k);
    sub_->add_flag("--straight-ahead", straight_ahead_,
                   "the truck goes straight (this is so unless another way to steer is given)");
    sub_->add_flag("--held", held_, "the steering wheel stays at its aligned angle");
  }

  void heights(const char* does) { text("--heights", command_.heights, "N", does); }

  void raise() {
    heights("how many heights from bottom to top (11)");
    pose_input(1);
    sub_->add_flag("--rear-with-front", command_.rear_with_front,
                   "raise the rear as much as the front");
    text("--threads", command_.threads, "N",
         "how many threads share the work (as many as the machine can run at once); the answer is "
         "the same");
  }

  void add_flags_of_the_verb() {
    if (help_.verb == "check") {
      sub_->add_flag("--expand", command_.expand, "list every body and joint that the parts make");
      text("--fitted", command_.fitted, "NEW",
           "write the points of a measured truck where the fit has them, as a file NEW on top of "
           "FILE");
    } else if (help_.verb == "pose") {
      pose_inputs();
    } else if (help_.verb == "draw") {
      pose_inputs();
      pose_input(kPoseInputs);
      text("--paper", command_.paper, "SIZE", "A2, A3 or 11x17 (A3)");
      sub_->add_flag("--svg", command_.svg, "as an SVG file (this is so unless --json is given)");
    } else if (help_.verb == "show") {
      text("--shop", command_.shop, "NAME", "the shop's name, at the head of the page");
      text("--words", command_.words, "TEXT", "the shop's own words, under its name");
    } else if (help_.verb == "sweep") {
      raise();
      text("--quantity", command_.quantity, "NAME",
           "what the points that matter are told for (steering_wheel_off_centre); `pose --csv` "
           "lists the names");
    } else if (help_.verb == "compare") {
      raise();
    } else if (help_.verb == "setup") {
      text("--height", inputs_[0], "LENGTH", "where to centre (the aligned height of the file)");
      heights("how many heights to show (11)");
    } else if (help_.verb == "start") {
      text(
          "--layout", command_.layout, "NAME",
          "plain, plain-tie-rod, push-pull, inverted-y, relay, four-bar, half-converted, guided or "
          "rocker-guided")
          ->required();
      sub_->add_flag("--example-numbers", command_.example_numbers,
                     "fill it with the numbers of a made-up truck, to try it out");
      sub_->add_flag("--force", command_.force, "write over files that are there");
    } else if (help_.verb == "serve") {
      text("--port", command_.port, "N", "where to listen (8645); 0 takes any port that is free");
    }
  }

  void add_shared_flags() {
    const bool starts = help_.verb == "start", shows = help_.verb == "show";
    const bool draws = help_.verb == "draw";
    if (!starts && !shows) add_settings();
    text("--units", command_.units, "inch|mm",
         starts ? "what the file is written in (mm)"
                : "what to show lengths in (the truck's own); bare lengths of flags are in it too");
    if (!shows && !draws)
      sub_->add_flag("--all", command_.all, "print everything, not the main part alone");
    if (!shows)
      sub_->add_flag("--json", command_.json, "the whole answer for programs, in mm and degrees");
    if (!shows && !draws)
      sub_->add_flag("--csv", command_.csv, "one table for spreadsheets, in mm and degrees");
    if (!starts)
      text("--output,-o", command_.output, "FILE", "write the answer to FILE, whole or not at all");
  }

  void add_settings() {
    // One value for each --set, so that it does not swallow the file behind it.
    sub_->add_option("--set", command_.settings,
                     "change a number of the file for this question: pitman_ball.z=+10mm, "
                     "parts.track_bar.length=\"36 in\"; may be repeated")
        ->type_name("NAME=VALUE")
        ->type_size(1)
        ->allow_extra_args(false);
    sub_->add_option("--with", command_.kits,
                     help_.verb == "compare" ? "a kit, put on top of each of them; may be repeated"
                                             : "a kit, put on top of the file; may be repeated")
        ->type_name("KIT")
        ->type_size(1)
        ->allow_extra_args(false);
    if (help_.verb == "compare") return;
    sub_->add_flag("--write", command_.write,
                   "write what --set says into FILE, changing nothing else in it");
  }

  const VerbHelp& help_;
  CLI::App* sub_ = nullptr;
  Command command_;
  std::array<std::string, kPoseFlags.size()> inputs_;
  bool straight_ahead_ = false;
  bool held_ = false;
};

/// Whether it looks like a flag and is none; "-units" is one that lacks a dash, "-o" and "-oFILE" are fine, "-40" is a number.
bool is_unknown_flag(const std::string& flag, const std::vector<std::string>& known) {
  const auto is_known = [&](const std::string& name) {
    return std::find(known.begin(), known.end(), name) != known.end();
  };
  if (flag.rfind("--", 0) == 0) return !is_known(flag);
  const bool one_dash = flag.size() > 2 && flag[0] == '-' && flag[1] >= 'a' && flag[1] <= 'z';
  return one_dash && (flag[1] != 'o' || is_known('-' + flag));
}

/// All verbs, ready to read one line.
class Line {
 public:
  Line() {
    app_.set_help_flag("--help,-h");
    app_.require_subcommand(1);
    for (const VerbHelp& help : verbs()) verbs_.push_back(std::make_unique<VerbLine>(app_, help));
  }

  Result<Asked> read(std::vector<std::string> words) {
    std::vector<Fault> faults = wrong_flags(words);
    if (!faults.empty()) return tl::unexpected(std::move(faults));
    std::reverse(words.begin(), words.end());  // as CLI11 takes them
    try {
      app_.parse(std::move(words));
    } catch (const CLI::CallForHelp&) {
      const VerbLine* used = used_verb();
      return Asked{std::nullopt, used == nullptr ? whole_help() : used->help(), 0};
    } catch (const CLI::ParseError& error) {
      return not_understood(error);
    }
    for (const std::unique_ptr<VerbLine>& verb : verbs_) {
      if (verb->is_used()) return Asked{verb->take(), "", 0};
    }
    return fail("no verb was given", "axlewright --help lists them");
  }

 private:
  const VerbLine* used_verb() const {
    for (const std::unique_ptr<VerbLine>& verb : verbs_) {
      if (verb->is_used()) return verb.get();
    }
    return nullptr;
  }

  const VerbLine* find_verb_line(const std::string& verb) const {
    for (const std::unique_ptr<VerbLine>& line : verbs_) {
      if (line->verb().verb == verb) return line.get();
    }
    return nullptr;
  }

  static Fault fault(std::string what, std::string fix) {
    return fail(std::move(what), std::move(fix)).value().front();
  }

  /// CLI11 says of a misspelt flag what its value looks like instead, and takes a value where none belongs, so flags are looked
  /// at first.
  std::vector<Fault> wrong_flags(const std::vector<std::string>& words) const {
    std::vector<Fault> faults;
    const VerbLine* verb = words.empty() ? nullptr : find_verb_line(words.front());
    if (verb == nullptr) return faults;
    const std::vector<std::string> known = verb->flag_names();
    for (const std::string& word : words) {
      if (word == "--") break;
      const std::size_t equals = word.find('=');
      const std::string flag = word.substr(0, equals);
      if (!is_unknown_flag(flag, known)) {
        const bool is_flag = flag.rfind("--", 0) == 0;
        if (is_flag && equals != std::string::npos && !verb->takes_value(flag))
          faults.push_back(fault(fmt::format("{} takes no value", flag),
                                 fmt::format("write {} alone, or leave it out", flag)));
        continue;
      }
      const std::string near = did_you_mean(flag.rfind("--", 0) == 0 ? flag : '-' + flag, known);
      faults.push_back(fault(
          fmt::format("{} has no flag {}", verb->verb().verb, flag),
          near.empty() ? fmt::format("axlewright {} --help lists its flags", verb->verb().verb)
                       : fmt::format("did you mean {}?", near)));
    }
    return faults;
  }

  /// Too many files, too few, a flag given twice or with nothing behind it; CLI11 names which of these in front of a colon.
  static Result<Asked> wrong_count(const std::string& message, const VerbLine& used) {
    const std::string name = message.substr(0, message.find(':'));
    const std::string verb(used.verb().verb);
    const std::string typed = fmt::format("type axlewright {} {}", verb, used.verb().files);
    if (name == "FOLDER") return fail("serve takes one folder, and more are given", typed);
    if (name != "FILE" && used.count(name) > 1)
      return fail(fmt::format("{} is given more than once", name), "give it once");
    if (name != "FILE")
      return fail(fmt::format("{} has nothing behind it", name),
                  fmt::format("axlewright {} --help tells what belongs there", verb));
    if (verb == "compare") return fail("one truck cannot be compared", typed);
    if (verb == "show") return fail("show takes two trucks", typed);
    return fail(fmt::format("{} takes one file, and more are given", verb),
                verb == "start" ? typed : typed + "; `compare` sets several side by side");
  }

  Result<Asked> not_understood(const CLI::ParseError& error) const {
    const VerbLine* used = used_verb();
    const std::string page = used == nullptr
                                 ? "axlewright --help"
                                 : fmt::format("axlewright {} --help", used->verb().verb);
    const std::string otherwise = page + " lists what can be given";
    if (dynamic_cast<const CLI::ExtrasError*>(&error) != nullptr) {
      std::vector<std::string> left_over = app_.remaining(true);
      const std::string word = left_over.empty() ? "" : left_over.front();
      const std::string near = used == nullptr ? "" : did_you_mean(word, used->flag_names());
      return fail(fmt::format("`{}` is not understood here", word),
                  near.empty() ? otherwise : fmt::format("did you mean {}?", near));
    }
    if (dynamic_cast<const CLI::ArgumentMismatch*>(&error) != nullptr && used != nullptr)
      return wrong_count(error.what(), *used);
    if (dynamic_cast<const CLI::RequiredError*>(&error) != nullptr && used != nullptr)
      return fail(fmt::format("something is missing: {}", error.what()),
                  fmt::format("type axlewright {} {}", used->verb().verb, used->verb().files));
    return fail(error.what(), otherwise);
  }

  CLI::App app_{"axlewright"};
  std::vector<std::unique_ptr<VerbLine>> verbs_;
};

bool is_one_of(const std::string& word, std::initializer_list<const char*> words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

/// What no single flag is wrong about.
std::vector<Fault> contradictions(const Command& command) {
  std::vector<Fault> faults;
  const auto complain = [&](std::string what, std::string fix) {
    faults.push_back(std::move(fail(std::move(what), std::move(fix)).value().front()));
  };
  if (command.json && command.csv)
    complain("--json and --csv both say how to print the answer", "give one of them");
  if (command.json && command.svg)
    complain("--json and --svg both say how to print the answer", "give one of them");
  if (!command.units.empty() && !is_one_of(command.units, {"inch", "mm"}))
    complain(fmt::format("--units does not know `{}`", command.units), "give inch or mm");
  if (command.write && command.settings.empty())
    complain("--write has nothing to write", "say what to change: --set NAME=VALUE");
  if (command.write && !command.kits.empty())
    complain("--write writes into FILE alone, and --with puts a kit on top of it",
             "leave one of them out; to write into a kit, name it as FILE");
  const bool gives_rear =
      std::any_of(command.inputs.begin(), command.inputs.end(),
                  [](const PoseInput& input) { return input.flag == "--rear-height"; });
  if (gives_rear && command.rear_with_front)
    complain("--rear-height and --rear-with-front both say how high the rear stands",
             "give one of them");
  std::vector<std::string> ways;
  for (const PoseInput& input : command.inputs) {
    if (is_one_of(input.flag,
                  {"--steering-wheel", "--pitman", "--road-wheels", "--straight-ahead", "--held"}))
      ways.push_back(input.flag);
  }
  if (ways.size() > 1)
    complain(fmt::format("{} and {} both steer the pose", ways[0], ways[1]), "give one of them");
  return faults;
}

/// What to type instead of a first word that is no verb.
std::string fix_for_verb(const std::vector<std::string>& words) {
  const std::string& first = words.front();
  if (first.size() > 5 && first.compare(first.size() - 5, 5, ".toml") == 0) {
    const bool verb_behind = words.size() > 1 && find_verb(words[1]) != nullptr;
    return fmt::format("the verb comes first: axlewright {} {}", verb_behind ? words[1] : "check",
                       first);
  }
  std::vector<std::string> names;
  for (const VerbHelp& verb : verbs()) names.emplace_back(verb.verb);
  const std::string near = did_you_mean(first, names);
  return near.empty() ? "axlewright --help lists them" : fmt::format("did you mean {}?", near);
}

}  // namespace

Result<Asked> read_command_line(const std::vector<std::string>& words) {
  if (words.empty()) return Asked{std::nullopt, short_help(), 2};
  const std::string& first = words.front();
  if (first == "--version") return Asked{std::nullopt, version_text(), 0};
  if (first.rfind('-', 0) != 0 && find_verb(first) == nullptr)
    return fail(fmt::format("there is no verb `{}`", first), fix_for_verb(words));
  Result<Asked> asked = Line().read(words);
  if (!asked || !asked->command) return asked;
  std::vector<Fault> faults = contradictions(*asked->command);
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  return asked;
}

}  // namespace axlewright
