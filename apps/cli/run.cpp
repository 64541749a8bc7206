#include "apps/cli/run.h"

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <utility>

#include <fmt/format.h>

#include "apps/cli/cli_question.h"
#include "apps/cli/exit_status.h"
#include "apps/cli/serve.h"
#include "apps/cli/show.h"
#include "apps/cli/terminal.h"
#include "apps/cli/threads_flag.h"
#include "apps/cli/truck_files.h"
#include "apps/files/whole_file.h"
#include "apps/threads/in_threads.h"
#include "engine/ask/ask.h"
#include "engine/base/lines.h"
#include "engine/output/answer_text.h"
#include "engine/output/csv.h"
#include "engine/output/svg.h"
#include "engine/truck/edit.h"
#include "engine/truck/fault_text.h"

namespace axlewright {
namespace {

namespace fs = std::filesystem;

constexpr const char* kStopped = "stopped; nothing was written\n";

/// A fault about a file as a whole.
std::vector<Fault> file_fault(const std::string& file, std::string what, std::string fix) {
  std::vector<Fault> faults = std::move(fail(std::move(what), std::move(fix)).value());
  faults.front().file = file;
  return faults;
}

int refuse(const Command& command, const std::vector<Fault>& faults) {
  report_faults(faults, command.json);
  return kBadInput;
}

int stopped() {
  std::fputs(kStopped, stderr);
  return kInterrupted;
}

/// A truck file before and after --write.
struct Edit {
  std::string path, before, after;
};

/// FILE with the settings written into its text. From now on the files read so; the disk does not yet.
Result<Edit> edit_file(const Command& command, TruckFiles& files) {
  Edit edit;
  edit.path = command.files.front();
  const auto text = files.text_of(edit.path);
  if (!text) {
    return tl::unexpected(
        file_fault(edit.path, fmt::format("'{}' cannot be read: {}", edit.path, text.error()),
                   "check the path"));
  }
  std::vector<Setting> settings;
  for (const std::string& setting : command.settings) settings.push_back({setting});
  Result<std::string> after = edit_text(*text, edit.path, settings, files.reader());
  if (!after) return tl::unexpected(std::move(after.error()));
  edit.before = *text;
  edit.after = std::move(*after);
  files.lay_over(edit.path, edit.after);
  return edit;
}

/// What was written, for the person: the lines before and after.
std::string changes_text(const Edit& edit) {
  if (edit.before == edit.after)
    return fmt::format("{} says so already; nothing was written\n", edit.path);
  const std::vector<std::string> before = lines_of(edit.before), after = lines_of(edit.after);
  std::string text = fmt::format("wrote {}\n", edit.path);
  for (std::size_t k = 0; k < before.size() && k < after.size(); ++k) {
    if (before[k] == after[k]) continue;
    text += fmt::format("  line {}, was: {}\n  line {}, now: {}\n", k + 1, printable(before[k]),
                        k + 1, printable(after[k]));
  }
  return text;
}

/// Puts the edit on the disk and says so. What is wrong with that, if anything.
std::vector<Fault> write_edit(const Edit& edit) {
  if (edit.before != edit.after) {
    if (const auto wrong = write_whole(edit.path, edit.after, Existing::replace)) {
      return file_fault(edit.path, fmt::format("'{}' cannot be written: {}", edit.path, *wrong),
                        "nothing was changed");
    }
  }
  std::fputs(changes_text(edit).c_str(), stderr);
  return {};
}

/// Puts the fitted truck on the disk as a file of its own, never over one that is there, and says so.
std::vector<Fault> write_fitted(const Command& command, const Json& answer) {
  const std::string& file = command.fitted;
  const std::string text = answer["measured"]["file_text"].get<std::string>();
  if (const auto wrong = write_whole(file, text, Existing::keep)) {
    return file_fault(file, fmt::format("'{}' cannot be written: {}", file, *wrong),
                      "check the name behind --fitted; a file that is there is never written over");
  }
  fmt::print(stderr, "wrote {}\n", printable(file));
  return {};
}

Result<Json> ask_with_progress(const Command& command, const Json& question, TruckFiles& files) {
  const Result<std::size_t> threads = threads_of(command.threads);
  if (!threads) return tl::unexpected(threads.error());
  ProgressLine line(fmt::format("axlewright {}", command.verb));
  AskContext context;
  context.text_of = files.reader();
  context.progress = [&](double done) {
    line.show(done);
    return !interrupted();
  };
  context.for_each = in_threads(*threads);
  return ask(question, context);
}

std::string answer_as_asked(const Command& command, const Json& answer) {
  if (command.json) return answer.dump(2) + "\n";
  if (command.verb == "draw") return svg_of(answer["drawing"]);
  if (command.csv) return answer_csv(answer);
  PrintStyle style;
  style.all = command.all;
  style.colour = command.output.empty() && colour_wanted();
  return answer_text(answer, style);
}

/// Where an answer goes: standard output, or the file of -o, made ready before anything else is written.
class Outlet {
 public:
  static Result<Outlet> open(const Command& command, const std::string& text) {
    Outlet outlet(command, text);
    if (command.output.empty()) return outlet;
    auto file = WholeFile::prepare(command.output, text, Existing::replace);
    if (!file) return tl::unexpected(outlet.not_written(file.error()));
    outlet.file_.emplace(std::move(*file));
    return outlet;
  }

  /// Gives the status to end with.
  int hand_out(int status) {
    if (!file_) return print_out(text_) ? status : kBadInput;
    const std::optional<std::string> wrong = file_->commit();
    return wrong ? refuse(command_, not_written(*wrong)) : status;
  }

 private:
  Outlet(const Command& command, std::string text) : command_(command), text_(std::move(text)) {}

  std::vector<Fault> not_written(const std::string& wrong) const {
    return file_fault(command_.output,
                      fmt::format("'{}' cannot be written: {}", command_.output, wrong),
                      "give another name behind -o");
  }

  const Command& command_;
  std::string text_;
  std::optional<WholeFile> file_;
};

int run_question(const Command& command) {
  const Result<Json> question = question_of(command);
  if (!question) return refuse(command, question.error());
  TruckFiles files;
  std::optional<Edit> edit;
  if (command.write) {
    Result<Edit> edited = edit_file(command, files);
    if (!edited) return refuse(command, edited.error());
    edit = std::move(*edited);
  }
  // Asked before the file is written: what cannot be read must not be written either.
  const Result<Json> answer = ask_with_progress(command, *question, files);
  if (interrupted()) return stopped();
  if (!answer) return refuse(command, answer.error());
  // An answer over a file that it was read from would be the end of that file.
  if (files.has_read(command.output)) {
    return refuse(command,
                  file_fault(command.output, "the answer would be written over a truck file",
                             "give another name behind -o"));
  }
  Result<Outlet> outlet = Outlet::open(command, answer_as_asked(command, *answer));
  if (!outlet) return refuse(command, outlet.error());
  if (!command.fitted.empty()) {
    const std::vector<Fault> faults = write_fitted(command, *answer);
    if (!faults.empty()) return refuse(command, faults);
  }
  if (edit) {
    const std::vector<Fault> faults = write_edit(*edit);
    if (!faults.empty()) return refuse(command, faults);
  }
  return outlet->hand_out(exit_status(*answer));
}

/// "my-truck.toml" has the sheet "my-truck-measure.txt" beside it.
std::string sheet_of(const std::string& truck_file) {
  const fs::path path(truck_file);
  return (path.parent_path() / (path.stem().string() + "-measure.txt")).string();
}

/// Both files or none.
std::vector<Fault> write_start(const std::string& truck_file, const std::string& sheet_file,
                               const Json& answer, Existing existing) {
  const auto refused = [](const std::string& file, const std::string& wrong) {
    return file_fault(file, fmt::format("'{}' cannot be written: {}", file, wrong),
                      wrong == kNameTaken ? "give another name, or --force to write over it"
                                          : "give another name");
  };
  auto truck = WholeFile::prepare(truck_file, answer.value("file_text", ""), existing);
  if (!truck) return refused(truck_file, truck.error());
  auto sheet = WholeFile::prepare(sheet_file, answer.value("sheet_text", ""), existing);
  if (!sheet) return refused(sheet_file, sheet.error());
  if (const auto wrong = sheet->commit()) return refused(sheet_file, *wrong);
  if (const auto wrong = truck->commit()) {
    sheet->take_back();
    return refused(truck_file, *wrong);
  }
  return {};
}

int run_start(const Command& command) {
  const Result<Json> question = question_of(command);
  if (!question) return refuse(command, question.error());
  TruckFiles files;
  const Result<Json> answer = ask_with_progress(command, *question, files);
  if (interrupted()) return stopped();
  if (!answer) return refuse(command, answer.error());
  const std::string& truck_file = command.files.front();
  const std::string sheet_file = sheet_of(truck_file);
  const std::vector<Fault> faults = write_start(truck_file, sheet_file, *answer,
                                                command.force ? Existing::replace : Existing::keep);
  if (!faults.empty()) return refuse(command, faults);
  if (command.json || command.csv)
    return print_out(answer_as_asked(command, *answer)) ? kDone : kBadInput;
  PrintStyle style;
  style.all = command.all;
  style.colour = colour_wanted();
  return print_out(start_text(*answer, truck_file, sheet_file, style)) ? kDone : kBadInput;
}

}  // namespace

void report_faults(const std::vector<Fault>& faults, bool json) {
  for (const Fault& fault : faults) std::fputs(text_of(fault).c_str(), stderr);
  if (!json) return;
  Json list = Json::array();
  for (const Fault& fault : faults) list.push_back(json_of(fault));
  print_out(Json{{"faults", std::move(list)}}.dump(2, ' ', false, Json::error_handler_t::replace) +
            "\n");
}

bool print_out(const std::string& text) {
  const bool printed =
      std::fwrite(text.data(), 1, text.size(), stdout) == text.size() && std::fflush(stdout) == 0;
  if (!printed)
    fmt::print(stderr, "error: the answer cannot be printed: {}\n", std::strerror(errno));
  return printed;
}

int run_command(const Command& command) {
  if (command.verb == "serve") return run_serve(command);
  watch_for_interrupt();
  if (command.verb == "show") return run_show(command);
  return command.verb == "start" ? run_start(command) : run_question(command);
}

}  // namespace axlewright
