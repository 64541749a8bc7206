#include "apps/serve/gate.h"

#include <algorithm>
#include <charconv>
#include <string_view>

#include <fmt/format.h>

namespace axlewright {
namespace {

constexpr std::size_t kMostBytesOfATarget = 4096;

std::string lower(std::string text) {
  // Not of the locale: header values are ASCII.
  std::transform(text.begin(), text.end(), text.begin(), [](char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  });
  return text;
}

/// "application/json; charset=utf-8" is of the type "application/json".
std::string media_type(const std::string& value) {
  std::string type = value.substr(0, value.find(';'));
  while (!type.empty() && type.back() == ' ') type.pop_back();
  return lower(type);
}

/// The one value that came under that name; a second one could be what the next reader sees.
std::optional<std::string> only(const std::vector<std::string>& values) {
  if (values.size() != 1) return std::nullopt;
  return values.front();
}

std::optional<TurnedAway> wrong_host(const RequestHead& head, int port) {
  const std::optional<std::string> host = only(head.values_of("Host"));
  if (host && (*host == fmt::format("127.0.0.1:{}", port) ||
               lower(*host) == fmt::format("localhost:{}", port)))
    return std::nullopt;
  return TurnedAway{
      403, fmt::format("this is http://127.0.0.1:{}/ and answers under no other name", port)};
}

/// Other sites may link to the page, but neither frame it, load it nor ask for files.
bool may_be_linked(const RequestHead& head) {
  const std::string path = head.target.substr(0, head.target.find('?'));
  return head.method == "GET" && path == "/" &&
         only(head.values_of("Sec-Fetch-Mode")) == "navigate";
}

std::optional<TurnedAway> wrong_origin(const RequestHead& head) {
  const TurnedAway stranger{403, "only the page that this server hands out may ask this"};
  const std::vector<std::string> origins = head.values_of("Origin");
  const std::string own = "http://" + head.values_of("Host").front();
  if (origins.empty() ? head.method == "PUT" : only(origins) != own) return stranger;
  const std::vector<std::string> sites = head.values_of("Sec-Fetch-Site");
  const std::optional<std::string> site = only(sites);
  if (sites.empty() || site == "same-origin") return std::nullopt;
  // "none": somebody typed the address, or opened a bookmark.
  const bool harmless = head.method != "PUT" && (site == "none" || may_be_linked(head));
  return harmless ? std::nullopt : std::optional(stranger);
}

std::optional<TurnedAway> wrong_length(const RequestHead& head) {
  const std::optional<std::string> told = only(head.values_of("Content-Length"));
  if (!told || !head.values_of("Transfer-Encoding").empty())
    return TurnedAway{411, "a body has to come in one piece, with its Content-Length"};
  std::size_t length = 0;
  const char* end = told->data() + told->size();
  const auto [behind, error] = std::from_chars(told->data(), end, length);
  if (error == std::errc::result_out_of_range ||
      (error == std::errc{} && behind == end && length > kMostBytesOfABody))
    return TurnedAway{413, "the body is larger than 2 MiB: that is no truck file"};
  if (error != std::errc{} || behind != end)
    return TurnedAway{400, "the Content-Length is not a number"};
  return std::nullopt;
}

std::optional<TurnedAway> wrong_body(const RequestHead& head) {
  const std::optional<std::string> type = only(head.values_of("Content-Type"));
  if (!type || media_type(*type) != "application/json")
    return TurnedAway{415, "a body has to be application/json"};
  if (!head.values_of("Content-Encoding").empty())
    return TurnedAway{415, "a body has to come as it is, not compressed"};
  return wrong_length(head);
}

}  // namespace

std::optional<TurnedAway> turned_away(const RequestHead& head, int port) {
  if (auto wrong = wrong_host(head, port)) return wrong;
  if (head.method != "GET" && head.method != "HEAD" && head.method != "PUT")
    return TurnedAway{405, "GET reads and PUT saves; there is nothing else"};
  if (head.target.size() > kMostBytesOfATarget) return TurnedAway{414, "the address is too long"};
  if (auto wrong = wrong_origin(head)) return wrong;
  return head.method == "PUT" ? wrong_body(head) : std::nullopt;
}

}  // namespace axlewright
