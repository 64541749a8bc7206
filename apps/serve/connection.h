#pragma once

#include <chrono>
#include <cstddef>
#include <functional>

#include <sys/types.h>

namespace axlewright {

/// One connection that was accepted, with an end to everything: whoever sends too much, too slowly or not at all is dropped.
/// When the server stops nothing is read any more, and an answer gets no further than it gets at once.
class Connection {
 public:
  using Clock = std::chrono::steady_clock;

  /// Does not own the socket. `stopping` is asked several times a second.
  Connection(int socket, std::function<bool()> stopping);

  /// From now on so many bytes more may come, and the whole has to be over in that time.
  void allow(std::size_t bytes, std::chrono::milliseconds time);

  /// Like recv and send, but wait no longer than allowed; -1 if it is over.
  ssize_t read(char* to, std::size_t size);
  ssize_t write(const char* from, std::size_t size);

  /// Lets the other side read the answer to its end before the socket is closed: closing on bytes that nobody read resets the
  /// connection, and what was on its way is lost.
  void finish();

  int socket() const { return socket_; }

 private:
  bool wait_for(short event);
  ssize_t receive();

  int socket_;
  std::function<bool()> stopping_;
  std::size_t left_ = 0;
  Clock::time_point until_;
  char buffer_[4096];
  std::size_t begin_ = 0, end_ = 0;
};

}  // namespace axlewright
