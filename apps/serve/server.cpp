#include "apps/serve/server.h"

#include <atomic>
#include <cstdio>
#include <thread>
#include <utility>

#include <netinet/in.h>
#include <sys/socket.h>
#include <unistd.h>

#include <fmt/format.h>
#include <httplib.h>

#include "apps/serve/connection.h"
#include "apps/serve/file_answers.h"
#include "apps/serve/gate.h"

// The one file that includes cpp-httplib: it costs three seconds to compile.

namespace axlewright {
namespace {

using namespace std::chrono_literals;

constexpr const char* kLoopback = "127.0.0.1";
constexpr std::size_t kThreads =
    8;  // a browser opens six connections at most, some of them in advance
constexpr int kQueue = 64;
constexpr std::size_t kMostBytesOfAHead = std::size_t{16} << 10;
constexpr auto kTimeForAHead = 5000ms;
constexpr auto kTimeForTheRest = 20000ms;
constexpr std::string_view kFiles = "/files";
constexpr const char* kEverything = "[^]*";

/// The page is one file: script and style stand in it, the engine is WebAssembly in it, and a worker is made of a blob.
constexpr const char* kPagePolicy =
    "default-src 'none'; script-src 'unsafe-inline' 'wasm-unsafe-eval' blob:; "
    "style-src 'unsafe-inline'; img-src data: blob:; font-src data:; worker-src blob:; "
    "connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";
constexpr const char* kFilePolicy = "default-src 'none'; frame-ancestors 'none'";

/// A connection as cpp-httplib reads and writes it.
class ConnectionStream : public httplib::Stream {
 public:
  explicit ConnectionStream(Connection& connection) : connection_(connection) {}

  bool is_readable() const override { return true; }
  bool is_writable() const override { return true; }
  ssize_t read(char* to, size_t size) override { return connection_.read(to, size); }
  ssize_t write(const char* from, size_t size) override { return connection_.write(from, size); }
  void get_remote_ip_and_port(std::string& ip, int& port) const override {
    ip = kLoopback, port = 0;
  }
  void get_local_ip_and_port(std::string& ip, int& port) const override {
    ip = kLoopback, port = 0;
  }
  socket_t socket() const override { return connection_.socket(); }

 private:
  Connection& connection_;
};

/// cpp-httplib's server, which by itself waits for slow senders one byte at a time and reads heads of any length. One
/// request a connection: on one machine that costs nothing, and no idle connection keeps a thread.
class BoundedServer : public httplib::Server {
 public:
  /// After binding. Its own queue holds five that wait to be accepted; a sixth is not told and tries again after a second.
  void lengthen_queue() { ::listen(svr_sock_, kQueue); }

 private:
  bool process_and_close_socket(socket_t socket) override {
    const Descriptor closed_in_the_end(socket);
    Connection connection(socket, [this] { return svr_sock_ == INVALID_SOCKET; });
    connection.allow(kMostBytesOfAHead, kTimeForAHead);
    ConnectionStream stream(connection);
    bool closed = false;
    bool answered = false;
    try {
      answered = process_request(stream, /*close_connection=*/true, closed,
                                 [&](httplib::Request& request) {
                                   // Thousands of ranges in one head would multiply the answer.
                                   request.ranges.clear();
                                   connection.allow(kMostBytesOfABody, kTimeForTheRest);
                                 });
    } catch (const std::exception& error) {
      std::fprintf(stderr, "axlewright serve: a request was dropped: %s\n", error.what());
    }
    connection.finish();
    return answered;
  }
};

RequestHead head_of(const httplib::Request& request) {
  return {request.method, request.target, [&request](const char* name) {
            std::vector<std::string> values;
            const auto [begin, end] = request.headers.equal_range(name);
            for (auto header = begin; header != end; ++header) values.push_back(header->second);
            return values;
          }};
}

void give(httplib::Response& response, const FileAnswer& answer) {
  response.status = answer.status;
  response.set_content(answer.json, "application/json");
}

/// What cpp-httplib refuses by itself comes without words.
std::string words_for(int status) {
  switch (status) {
    case 400:
      return "the request is not understood";
    case 413:
      return "the body is too large";
    case 414:
      return "the address is too long";
    case 416:
      return "ranges are not understood";
    default:
      return "the request cannot be answered";
  }
}

std::string words_of(const std::exception_ptr& thrown) {
  try {
    std::rethrow_exception(thrown);
  } catch (const std::exception& error) {
    return error.what();
  } catch (...) {
    return "no words for it";
  }
}

}  // namespace

struct Server::Parts {
  Parts(TruckFolder the_folder, Page the_page)
      : folder(std::move(the_folder)), page(std::move(the_page)) {}
  ~Parts();

  bool listen(int wanted);
  void set_up();
  void answer_get(std::string_view path, httplib::Response& response) const;
  void answer_put(std::string_view path, const std::string& body, httplib::Response& response);

  TruckFolder folder;
  Page page;
  int port = 0;
  BoundedServer http;
  std::thread listening;
  std::atomic<bool> ended = false;
};

Server::Parts::~Parts() {
  if (!listening.joinable()) return;
  http.stop();
  listening.join();
}

void Server::Parts::answer_get(std::string_view path, httplib::Response& response) const {
  if (path == "/") {
    const auto text = page();
    if (!text) return give(response, error_answer(404, text.error()));
    response.set_header("Content-Security-Policy", kPagePolicy);
    response.set_content(*text, "text/html; charset=utf-8");
  } else if (path == "/favicon.ico") {
    response.status = 204;  // browsers ask for it unasked
  } else if (path == kFiles) {
    give(response, list_files(folder));
  } else if (path.substr(0, kFiles.size() + 1) == "/files/") {
    give(response, read_truck_file(folder, path.substr(kFiles.size() + 1)));
  } else {
    give(response, error_answer(404, "there is nothing here; the page is at /"));
  }
}

void Server::Parts::answer_put(std::string_view path, const std::string& body,
                               httplib::Response& response) {
  if (path.substr(0, kFiles.size() + 1) == "/files/") {
    give(response, save_truck_file(folder, path.substr(kFiles.size() + 1), body));
  } else {
    give(response, error_answer(404, "nothing can be saved here; truck files are at /files/"));
  }
}

void Server::Parts::set_up() {
  using HandlerResponse = httplib::Server::HandlerResponse;
  http.new_task_queue = [] { return new httplib::ThreadPool(kThreads); };
  http.set_tcp_nodelay(true);
  // Without its SO_REUSEPORT, which lets a second server take every other visitor away unnoticed.
  http.set_socket_options([](socket_t socket) {
    const int yes = 1;
    ::setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
  });
  http.set_pre_routing_handler(
      [this](const httplib::Request& request, httplib::Response& response) {
        const auto away = turned_away(head_of(request), port);
        if (!away) return HandlerResponse::Unhandled;
        if (away->status == 405) response.set_header("Allow", "GET, HEAD, PUT");
        give(response, error_answer(away->status, away->words));
        return HandlerResponse::Handled;
      });
  // Paths are taken from the target as it came: cpp-httplib has decodings of its own.
  const auto path_of = [](const httplib::Request& request) {
    return std::string_view(request.target).substr(0, request.target.find('?'));
  };
  http.Get(kEverything, [=, this](const httplib::Request& request, httplib::Response& response) {
    answer_get(path_of(request), response);
  });
  http.Put(kEverything, [=, this](const httplib::Request& request, httplib::Response& response) {
    answer_put(path_of(request), request.body, response);
  });
  http.set_error_handler([](const httplib::Request&, httplib::Response& response) {
    if (!response.body.empty()) return;
    give(response, error_answer(response.status, words_for(response.status)));
  });
  http.set_exception_handler(
      [](const httplib::Request&, httplib::Response& response, const std::exception_ptr& thrown) {
        const std::string words = words_of(thrown);
        std::fprintf(stderr, "axlewright serve: this should not happen, please report it: %s\n",
                     words.c_str());
        give(response, error_answer(500, "this should not happen, please report it"));
      });
  http.set_post_routing_handler([](const httplib::Request&, httplib::Response& response) {
    if (!response.has_header("Content-Security-Policy"))
      response.set_header("Content-Security-Policy", kFilePolicy);
    response.set_header("X-Content-Type-Options", "nosniff");
    response.set_header("Referrer-Policy", "no-referrer");
    response.set_header("Cross-Origin-Opener-Policy", "same-origin");
    response.set_header("Cross-Origin-Resource-Policy", "same-origin");
    response.set_header("Cache-Control", "no-store");
  });
}

bool Server::Parts::listen(int wanted) {
  set_up();
  if (wanted == 0) {
    port = http.bind_to_any_port(kLoopback);
  } else {
    port = http.bind_to_port(kLoopback, wanted) ? wanted : -1;
  }
  if (port <= 0) return false;
  http.lengthen_queue();
  listening = std::thread([this] {
    http.listen_after_bind();
    ended = true;
  });
  // Stopping before it runs would be overheard.
  while (!http.is_running() && !ended) std::this_thread::sleep_for(1ms);
  return true;
}

tl::expected<Server, std::string> Server::start(TruckFolder folder, Page page, int port) {
  auto parts = std::make_unique<Parts>(std::move(folder), std::move(page));
  if (!parts->listen(port)) {
    return tl::unexpected(fmt::format(
        "port {} cannot be had: another program listens there, or it is not allowed", port));
  }
  return Server(std::move(parts));
}

Server::Server(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {}
Server::Server(Server&&) noexcept = default;
Server::~Server() = default;

int Server::port() const {
  return parts_->port;
}

bool Server::is_running() const {
  return !parts_->ended;
}

}  // namespace axlewright
