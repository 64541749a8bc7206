#include "apps/cli/serve.h"

#include <charconv>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "apps/cli/exit_status.h"
#include "apps/cli/run.h"
#include "apps/cli/stop_signals.h"
#include "apps/cli/web_pages.h"
#include "apps/serve/server.h"
#include "engine/disk/read_file.h"

namespace axlewright {
namespace {

using namespace std::chrono_literals;

constexpr int kUsualPort = 8645;
constexpr int kLowestPort = 1024;  // those below belong to the system
constexpr int kHighestPort = 65535;

int refuse(std::string what, std::string fix) {
  report_faults(fail(std::move(what), std::move(fix)).value(), /*json=*/false);
  return kBadInput;
}

std::optional<int> port_of(const std::string& typed) {
  if (typed.empty()) return kUsualPort;
  int port = 0;
  const char* end = typed.data() + typed.size();
  const auto [behind, error] = std::from_chars(typed.data(), end, port);
  const bool in_range = port == 0 || (port >= kLowestPort && port <= kHighestPort);
  if (error != std::errc{} || behind != end || !in_range) return std::nullopt;
  return port;
}

std::string told(const std::string& folder, std::size_t files, int port) {
  return fmt::format(
      "Serving {} of the folder {} to this machine alone.\n"
      "  open  http://127.0.0.1:{}/\n"
      "  stop  Ctrl-C\n",
      files == 1 ? "1 truck file" : fmt::format("{} truck files", files), folder, port);
}

/// Until it is told to stop.
int serve(TruckFolder folder, std::size_t files, const std::string& named, const std::string& page,
          int port) {
  std::optional<StopSignals> signals;
  signals.emplace();  // before there are threads
  const auto server = Server::start(
      std::move(folder), [page] { return read_file(page); }, port);
  if (!server) return refuse(server.error(), "give another one: --port 0 takes any that is free");
  if (!print_out(told(named, files, server->port()))) return kBadInput;
  while (!signals->came_within(500ms)) {
    if (!server->is_running())
      return refuse("the system gives no more connections", "start it again");
  }
  signals.reset();  // a second Ctrl-C does not wait for what is being saved
  return kDone;
}

}  // namespace

int run_serve(const Command& command) {
  const std::string named = command.files.empty() ? "." : command.files.front();
  const std::optional<int> port = port_of(command.port);
  if (!port) {
    return refuse(fmt::format("--port does not take `{}`", command.port),
                  fmt::format("give a whole number from {} to {}, or 0 for any port that is free",
                              kLowestPort, kHighestPort));
  }
  const auto page = web_page_path("workspace.html");
  if (!page) return refuse(page.error(), "start it from the folder where it was built");
  if (const auto text = read_file(*page); !text) {
    return refuse(fmt::format("the workspace page '{}' cannot be read: {}", *page, text.error()),
                  "build it: ./run does");
  }
  const auto not_served = [&](const std::string& wrong, const char* fix) {
    return refuse(fmt::format("'{}' cannot be served: {}", named, wrong), fix);
  };
  auto folder = TruckFolder::open(named);
  if (!folder) return not_served(folder.error(), "check the path");
  const auto files = folder->list();
  if (!files) return not_served(files.error().words, "give the folder that holds the truck files");
  const int status = serve(std::move(*folder), files->size(), named, *page, *port);
  if (status != kDone) return status;
  return print_out("stopped\n") ? kDone : kBadInput;
}

}  // namespace axlewright
