#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/truck/complaints.h"
#include "engine/truck/document.h"
#include "engine/truck/stiffness.h"
#include "engine/truck/value.h"

namespace axlewright {

/// The keys of one table as they are asked for. Whatever was never asked for is unknown.
class Fields {
 public:
  /// owner  the table as the file spells it: "[parts.track_bar]"
  /// place  where a missing key is missed
  Fields(const Node& table, std::string owner, TextPlace place, Complaints& complaints);

  const std::string& owner() const { return owner_; }
  const TextPlace& place() const { return place_; }

  /// The value, or null. From then on the key is known.
  const Node* get(const std::string& key);
  /// The same, with a complaint if it is missing. `form`: what to write, "ends = [POINT, POINT]".
  const Node* need(const std::string& key, const std::string& form);

  std::optional<double> length(const std::string& key, const Range& range);
  std::optional<double> angle(const std::string& key, const Range& range);
  std::optional<double> plain_number(const std::string& key, const Range& range);
  std::optional<double> stiffness(const std::string& key, StiffnessKind kind, const Range& range);
  bool yes_no(const std::string& key, bool otherwise);
  std::optional<std::string> text(const std::string& key);
  /// Index of the word in `words`; `otherwise` if the key is missing; nothing after a complaint.
  std::optional<std::size_t> choice(const std::string& key, const std::vector<std::string>& words,
                                    std::size_t otherwise);
  /// The same for a key that must be there.
  std::optional<std::size_t> need_choice(const std::string& key,
                                         const std::vector<std::string>& words);

  /// Complains of every key that nobody asked for.
  void reject_unknown();

 private:
  std::optional<std::size_t> choose(const Node& node, const std::string& key,
                                    const std::vector<std::string>& words);

  const Node& table_;
  std::string owner_;
  TextPlace place_;
  Complaints& complaints_;
  std::vector<std::string> known_;
};

/// "'a', 'b' or 'c'"; "and" in place of "or" if so asked.
std::string one_of(const std::vector<std::string>& words, const char* last = " or ");

}  // namespace axlewright
