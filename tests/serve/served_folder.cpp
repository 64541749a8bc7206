#include "tests/serve/served_folder.h"

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <sstream>

#include <arpa/inet.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <unistd.h>

#include <fmt/format.h>

namespace axlewright::test {

namespace fs = std::filesystem;

namespace {

fs::path new_folder() {
  std::string name = (fs::temp_directory_path() / "axlewright-serve-XXXXXX").string();
  if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder");
  return name;
}

Reply parsed(const std::string& bytes) {
  Reply reply;
  const std::size_t head_end = bytes.find("\r\n\r\n");
  if (head_end == std::string::npos) return reply;
  std::istringstream head(bytes.substr(0, head_end));
  std::string line;
  std::getline(head, line);
  reply.status = std::stoi(line.substr(line.find(' ')));
  while (std::getline(head, line)) {
    if (!line.empty() && line.back() == '\r') line.pop_back();
    const std::size_t colon = line.find(": ");
    reply.headers[line.substr(0, colon)] = line.substr(colon + 2);
  }
  reply.body = bytes.substr(head_end + 4);
  return reply;
}

}  // namespace

Visitor::Visitor(int port, const std::string& address)
    : socket_(::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0)) {
  const timeval patience{30, 0};
  ::setsockopt(socket_, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
  sockaddr_in to{};
  to.sin_family = AF_INET;
  to.sin_port = htons(static_cast<std::uint16_t>(port));
  ::inet_pton(AF_INET, address.c_str(), &to.sin_addr);
  if (::connect(socket_, reinterpret_cast<const sockaddr*>(&to), sizeof to) != 0) {
    ::close(socket_);
    socket_ = -1;
  }
}

Visitor::~Visitor() {
  if (socket_ >= 0) ::close(socket_);
}

bool Visitor::send(const std::string& bytes) const {
  for (std::size_t done = 0; done < bytes.size();) {
    const ssize_t count = ::send(socket_, bytes.data() + done, bytes.size() - done, MSG_NOSIGNAL);
    if (count <= 0) return false;
    done += static_cast<std::size_t>(count);
  }
  return true;
}

void Visitor::hang_up() const {
  ::shutdown(socket_, SHUT_WR);
}

std::string Visitor::rest() const {
  std::string all;
  char buffer[1 << 14];
  for (ssize_t count; (count = ::recv(socket_, buffer, sizeof buffer, 0)) > 0;)
    all.append(buffer, static_cast<std::size_t>(count));
  return all;
}

ServedFolder::ServedFolder() : root_(new_folder()) {
  fs::create_directories(shop_ / "kits");
  fs::create_directory(secret_.parent_path());
  write(shop_ / "small.toml", kSmall);
  write(shop_ / "kits" / "kit.toml", kKit);
  write(secret_, kSecret);
  serve();
}

ServedFolder::~ServedFolder() {
  stop();
  std::error_code error;
  fs::remove_all(root_, error);
}

void ServedFolder::serve(Server::Page page) {
  stop();
  auto folder = TruckFolder::open(shop_.string());
  if (!folder) throw std::runtime_error(folder.error());
  auto server = Server::start(std::move(*folder), std::move(page), 0);
  if (!server) throw std::runtime_error(server.error());
  server_.emplace(std::move(*server));
}

void ServedFolder::serve() {
  serve([] { return kPage; });
}

Reply ServedFolder::exchange(const std::string& bytes) const {
  const Visitor visitor(port());
  // The answer may come, and the connection go, before everything is sent.
  visitor.send(bytes);
  return parsed(visitor.rest());
}

std::string ServedFolder::request(const std::string& method, const std::string& target,
                                  const std::string& body, const Headers& headers) const {
  const std::string own = fmt::format("127.0.0.1:{}", port());
  Headers all{{"Host", own}, {"Origin", "http://" + own}, {"Sec-Fetch-Site", "same-origin"}};
  if (method == "PUT") {
    all.emplace("Content-Type", "application/json");
    all.emplace("Content-Length", std::to_string(body.size()));
  }
  for (const auto& [name, value] : headers) all.erase(name);
  all.insert(headers.begin(), headers.end());
  std::string text = fmt::format("{} {} HTTP/1.1\r\n", method, target);
  for (const auto& [name, value] : all) {
    if (!value.empty()) text += fmt::format("{}: {}\r\n", name, value);
  }
  return text + "\r\n" + body;
}

Reply ServedFolder::get(const std::string& target, const Headers& headers) const {
  return exchange(request("GET", target, "", headers));
}

Reply ServedFolder::put(const std::string& target, const std::string& body,
                        const Headers& headers) const {
  return exchange(request("PUT", target, body, headers));
}

Reply ServedFolder::save(const std::string& path, const std::string& text,
                         const std::string& version) const {
  return put("/files/" + path, nlohmann::json{{"text", text}, {"version", version}}.dump());
}

std::string ServedFolder::version(const std::string& path) const {
  return get("/files/" + path).json().at("version");
}

void ServedFolder::expect_nothing_happened() const {
  const Reply reply = get("/files/small.toml");
  EXPECT_EQ(reply.status, 200);
  EXPECT_EQ(read(shop_ / "small.toml"), kSmall);
  EXPECT_EQ(read(shop_ / "kits" / "kit.toml"), kKit);
  EXPECT_EQ(read(secret_), kSecret);
  EXPECT_EQ(std::distance(fs::directory_iterator(secret_.parent_path()), {}), 1);
  expect_no_leftovers();
}

void ServedFolder::expect_no_leftovers() const {
  for (const fs::directory_entry& entry : fs::recursive_directory_iterator(root_))
    EXPECT_NE(entry.path().filename().string().rfind(".axlewright-", 0), 0) << entry.path();
}

std::string ServedFolder::read(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

void ServedFolder::write(const fs::path& path, const std::string& text) {
  std::ofstream(path, std::ios::binary) << text;
}

}  // namespace axlewright::test
