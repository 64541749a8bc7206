#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace axlewright {

/// The largest body of a request: a truck file in JSON, where a line end takes two bytes and a control character six.
inline constexpr std::size_t kMostBytesOfABody = std::size_t{2} << 20;

/// What a request says before its body.
struct RequestHead {
  std::string method;
  std::string target;  ///< as it came, encoded
  /// Every value that came under a name, in any spelling of it.
  std::function<std::vector<std::string>(const char*)> values_of;
};

/// Why a request is turned away: a status of HTTP, and words.
struct TurnedAway {
  int status;
  std::string words;
};

/// Lets in what our own page asks, on the address that it was served from, and nothing else. Looks at the head alone, so that
/// no body is read for strangers. A web page of another origin can send requests here, but not with a Host of ours after its
/// name was made to lead here (DNS rebinding), and its browser tells its Origin with whatever would change something.
std::optional<TurnedAway> turned_away(const RequestHead& head, int port);

}  // namespace axlewright
