#pragma once

#include <string>
#include <vector>

#include <tl/expected.hpp>

#include "engine/base/result.h"
#include "engine/truck/truck.h"

namespace axlewright {

// The text of a truck file as a light tree in the order of the file, every key and value with its place. It knows
// nothing of trucks. No other file of ours sees the parser.

enum class NodeKind {
  table,
  array,
  text,
  number,
  boolean,
  other,  ///< a date or a time: nothing of ours is one
};

/// What a bare length means: each layer has its own unit. `unknown` where a layer fails to say: its lengths then
/// pass unread, since that one fault has been told.
enum class BareUnit { mm, inch, unknown };

struct Entry;

/// A value of the file. Which members count is told by `kind`.
struct Node {
  NodeKind kind = NodeKind::table;
  std::string text;
  double number = 0;  ///< finite, or not-a-number where the file says inf or nan
  bool boolean = false;
  std::vector<Node> items;
  std::vector<Entry> entries;
  TextPlace place;  ///< of a table written as [header]: the header
  BareUnit unit = BareUnit::mm;
  bool negated = false;  ///< turned over by a mirror: the number read counts with its sign changed
};

/// A key of a table with its value.
struct Entry {
  std::string key;
  TextPlace key_place;
  Node value;
  std::string
      mirror_of;  ///< key of the entry that a mirror made this one from; empty if written itself
};

/// The value of that key, or null. `table` may be of any kind.
const Node* find(const Node& table, const std::string& key);
Node* find(Node& table, const std::string& key);

/// Keys of a table, in the file's order.
std::vector<std::string> keys(const Node& table);

/// The texts that were read, to show their lines in faults.
class Sources {
 public:
  void add(const std::string& file, const std::string& text);

  /// The line without its line end; empty if there is none. Lines count from 1. Always UTF-8: bytes that are not
  /// are replaced, one by one.
  std::string line(const std::string& file, int line) const;

  /// Where the file stands in the order of reading; files never read come last.
  std::size_t order(const std::string& file) const;

 private:
  struct Source {
    std::string file;
    std::vector<std::string> lines;
  };
  std::vector<Source> sources_;
};

/// The largest text that is read at all, in bytes.
inline constexpr std::size_t kLargestFile = 2'000'000;

/// Parses TOML. Gives the root table, or the one fault that stopped it: too large, no UTF-8, nested too deep, a
/// name with letters beyond ASCII outside quotes, or whatever is no TOML. Never throws.
tl::expected<Node, Fault> parse_document(const std::string& file, const std::string& text);

/// Byte offset of a line and column (1-based, code points) in a text; its size if beyond the end.
std::size_t byte_offset(const std::string& text, int line, int column);

}  // namespace axlewright
