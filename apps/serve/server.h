#pragma once

#include <functional>
#include <memory>
#include <string>

#include <tl/expected.hpp>

#include "apps/serve/truck_folder.h"

namespace axlewright {

/// Hands out the workspace page and the truck files of one folder to this machine alone, and saves them. It computes nothing:
/// the page does, with the engine that it holds. api/README.md has the contract, docs/adr/0011-serve.md the reasons.
class Server {
 public:
  /// The text of the page, or in words why it cannot be had. Asked anew for every visit, by several threads.
  using Page = std::function<tl::expected<std::string, std::string>()>;

  /// Listens on 127.0.0.1, at any free port if `port` is 0, in threads of its own. In words what is wrong.
  static tl::expected<Server, std::string> start(TruckFolder folder, Page page, int port);

  Server(Server&&) noexcept;
  Server& operator=(Server&&) = delete;
  Server(const Server&) = delete;
  Server& operator=(const Server&) = delete;
  /// Stops: lets what is being saved be saved, drops whoever only waits.
  ~Server();

  int port() const;

  /// Whether it still answers; it may end by itself if the system gives it no more connections.
  bool is_running() const;

 private:
  struct Parts;
  explicit Server(std::unique_ptr<Parts> parts);
  std::unique_ptr<Parts> parts_;
};

}  // namespace axlewright
