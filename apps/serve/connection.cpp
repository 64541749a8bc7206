#include "apps/serve/connection.h"

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <utility>

#include <poll.h>
#include <sys/socket.h>

namespace axlewright {
namespace {

constexpr int kLookUpMs = 50;  // how often to see whether the server stops
constexpr std::chrono::milliseconds kFarewell{1000};
constexpr std::size_t kMostDrained = std::size_t{16} << 20;

}  // namespace

Connection::Connection(int socket, std::function<bool()> stopping)
    : socket_(socket), stopping_(std::move(stopping)), until_(Clock::now()) {}

void Connection::allow(std::size_t bytes, std::chrono::milliseconds time) {
  left_ += bytes;
  until_ = Clock::now() + time;
}

bool Connection::wait_for(short event) {
  while (Clock::now() < until_) {
    const bool stopping = stopping_();
    pollfd waited{socket_, event, 0};
    const int ready = ::poll(&waited, 1, stopping ? 0 : kLookUpMs);
    if (ready > 0) return true;
    if (stopping || (ready < 0 && errno != EINTR)) return false;
  }
  return false;
}

ssize_t Connection::receive() {
  if (stopping_() || !wait_for(POLLIN)) return -1;
  return ::recv(socket_, buffer_, sizeof buffer_, 0);
}

ssize_t Connection::read(char* to, std::size_t size) {
  if (left_ == 0) return -1;
  if (begin_ == end_) {
    const ssize_t count = receive();
    if (count <= 0) return count;
    begin_ = 0;
    end_ = static_cast<std::size_t>(count);
  }
  const std::size_t count = std::min({size, end_ - begin_, left_});
  std::memcpy(to, buffer_ + begin_, count);
  begin_ += count;
  left_ -= count;
  return static_cast<ssize_t>(count);
}

ssize_t Connection::write(const char* from, std::size_t size) {
  if (!wait_for(POLLOUT)) return -1;
  return ::send(socket_, from, size, MSG_NOSIGNAL);
}

void Connection::finish() {
  ::shutdown(socket_, SHUT_WR);
  until_ = std::min(until_, Clock::now() + kFarewell);
  for (std::size_t drained = 0; drained < kMostDrained;) {
    const ssize_t count = receive();
    if (count <= 0) return;
    drained += static_cast<std::size_t>(count);
  }
}

}  // namespace axlewright
