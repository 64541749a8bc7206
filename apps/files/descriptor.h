#pragma once

#include <utility>

#include <unistd.h>

namespace axlewright {

/// A file descriptor, closed in the end.
class Descriptor {
 public:
  Descriptor() = default;
  explicit Descriptor(int number) : number_(number) {}
  Descriptor(Descriptor&& other) noexcept : number_(std::exchange(other.number_, -1)) {}
  Descriptor& operator=(Descriptor&& other) noexcept {
    std::swap(number_, other.number_);
    return *this;
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() {
    if (is_open()) ::close(number_);
  }

  int number() const { return number_; }
  bool is_open() const { return number_ >= 0; }

  /// Some disks tell only here that they are full.
  bool close() { return ::close(std::exchange(number_, -1)) == 0; }
  /// From now on somebody else closes it.
  int release() { return std::exchange(number_, -1); }

 private:
  int number_ = -1;
};

}  // namespace axlewright
