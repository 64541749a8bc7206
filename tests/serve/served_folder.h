#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "apps/serve/server.h"

namespace axlewright::test {

/// An answer as it came over the socket.
struct Reply {
  int status = 0;  ///< 0: nothing came
  std::map<std::string, std::string> headers;
  std::string body;

  nlohmann::json json() const { return nlohmann::json::parse(body); }
  std::string error() const { return json().value("error", ""); }
};

/// A connection to a port of this machine. What is sent is sent as it is: no client library puts it right.
class Visitor {
 public:
  explicit Visitor(int port, const std::string& address = "127.0.0.1");
  ~Visitor();
  Visitor(const Visitor&) = delete;
  Visitor& operator=(const Visitor&) = delete;

  bool is_connected() const { return socket_ >= 0; }
  /// False if the other side has hung up.
  bool send(const std::string& bytes) const;
  /// Sends no more, and still listens.
  void hang_up() const;
  /// Everything until the other side is done, for 30 s at most.
  std::string rest() const;

 private:
  int socket_ = -1;
};

/// A header line more, or another value of one that a page of ours sends; an empty value leaves it out.
using Headers = std::multimap<std::string, std::string>;

/// A server over the folder "shop" with two trucks; beside it "outside" with a file that nobody may see.
class ServedFolder : public ::testing::Test {
 protected:
  ServedFolder();
  ~ServedFolder() override;

  void serve(Server::Page page);
  void serve();
  void stop() { server_.reset(); }
  int port() const { return server_->port(); }

  /// One connection: these bytes in, everything out.
  Reply exchange(const std::string& bytes) const;
  /// A request as our page sends it. `headers` replace those of the same name.
  Reply get(const std::string& target, const Headers& headers = {}) const;
  Reply put(const std::string& target, const std::string& body, const Headers& headers = {}) const;
  /// Saves a text in place of a version.
  Reply save(const std::string& path, const std::string& text, const std::string& version) const;
  std::string version(const std::string& path) const;

  std::string request(const std::string& method, const std::string& target, const std::string& body,
                      const Headers& headers) const;

  /// The server goes on, and the files are as they were.
  void expect_nothing_happened() const;
  /// No file but those with a name that a person gave.
  void expect_no_leftovers() const;

  static std::string read(const std::filesystem::path& path);
  static void write(const std::filesystem::path& path, const std::string& text);

  const std::filesystem::path root_;
  const std::filesystem::path shop_ = root_ / "shop";
  const std::filesystem::path secret_ = root_ / "outside" / "secret.toml";

 private:
  std::optional<Server> server_;
};

inline constexpr const char* kSmall = "name = \"Small\"\n";
inline constexpr const char* kKit = "name = \"Kit\"\n";
inline constexpr const char* kSecret = "name = \"Secret\"\n";
inline constexpr const char* kPage = "<!doctype html><title>Page</title>";

}  // namespace axlewright::test
