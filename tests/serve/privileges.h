#pragma once

#include <unistd.h>

namespace axlewright::test {

/// Root may do everything, so a test of permissions is nobody for a while. Where the tests run as somebody else, nothing
/// changes.
class WithoutPrivileges {
 public:
  WithoutPrivileges() : was_root_(::geteuid() == 0 && ::seteuid(kNobody) == 0) {}
  ~WithoutPrivileges() {
    if (was_root_ && ::seteuid(0) != 0) ::abort();
  }
  WithoutPrivileges(const WithoutPrivileges&) = delete;
  WithoutPrivileges& operator=(const WithoutPrivileges&) = delete;

  /// Whether the files belong to somebody else by now.
  bool is_stranger() const { return was_root_; }

 private:
  static constexpr uid_t kNobody = 65534;
  bool was_root_;
};

}  // namespace axlewright::test
