#include "engine/truck/fields.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

namespace axlewright {

std::string one_of(const std::vector<std::string>& words, const char* last) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) text += i + 1 == words.size() ? last : ", ";
    text += "'" + words[i] + "'";
  }
  return text;
}

Fields::Fields(const Node& table, std::string owner, TextPlace place, Complaints& complaints)
    : table_(table), owner_(std::move(owner)), place_(std::move(place)), complaints_(complaints) {}

const Node* Fields::get(const std::string& key) {
  if (std::find(known_.begin(), known_.end(), key) == known_.end()) known_.push_back(key);
  return find(table_, key);
}

const Node* Fields::need(const std::string& key, const std::string& form) {
  const Node* node = get(key);
  if (node == nullptr) {
    complaints_.error(place_, fmt::format("{} has no '{}'", owner_, key), "add " + form);
  }
  return node;
}

std::optional<double> Fields::length(const std::string& key, const Range& range) {
  const Node* node = get(key);
  return node == nullptr ? std::nullopt : read_length(*node, key, range, complaints_);
}

std::optional<double> Fields::angle(const std::string& key, const Range& range) {
  const Node* node = get(key);
  return node == nullptr ? std::nullopt : read_angle(*node, key, range, complaints_);
}

std::optional<double> Fields::plain_number(const std::string& key, const Range& range) {
  const Node* node = get(key);
  return node == nullptr ? std::nullopt : read_plain_number(*node, key, range, complaints_);
}

std::optional<double> Fields::stiffness(const std::string& key, StiffnessKind kind,
                                        const Range& range) {
  const Node* node = get(key);
  if (node == nullptr) return std::nullopt;
  return read_stiffness(*node, key, kind, range, complaints_);
}

bool Fields::yes_no(const std::string& key, bool otherwise) {
  const Node* node = get(key);
  return node == nullptr ? otherwise : read_yes_no(*node, key, complaints_).value_or(otherwise);
}

std::optional<std::string> Fields::text(const std::string& key) {
  const Node* node = get(key);
  return node == nullptr ? std::nullopt : read_text(*node, key, complaints_);
}

std::optional<std::size_t> Fields::choose(const Node& node, const std::string& key,
                                          const std::vector<std::string>& words) {
  if (is_blank(node, key, "write " + one_of(words), complaints_)) return std::nullopt;
  const std::optional<std::string> word = read_text(node, key, complaints_);
  if (!word) return std::nullopt;
  const auto at = std::find(words.begin(), words.end(), *word);
  if (at != words.end()) return static_cast<std::size_t>(at - words.begin());
  complaints_.error(node.place, fmt::format("no '{}' is called '{}'", key, *word),
                    fix_for_name(*word, words, "write " + one_of(words)));
  return std::nullopt;
}

std::optional<std::size_t> Fields::choice(const std::string& key,
                                          const std::vector<std::string>& words,
                                          std::size_t otherwise) {
  const Node* node = get(key);
  return node == nullptr ? otherwise : choose(*node, key, words);
}

std::optional<std::size_t> Fields::need_choice(const std::string& key,
                                               const std::vector<std::string>& words) {
  const Node* node = need(key, fmt::format("{} = \"...\": {}", key, one_of(words)));
  return node == nullptr ? std::nullopt : choose(*node, key, words);
}

void Fields::reject_unknown() {
  for (const Entry& entry : table_.entries) {
    if (std::find(known_.begin(), known_.end(), entry.key) != known_.end()) continue;
    complaints_.error(entry.key_place, fmt::format("{} knows no key '{}'", owner_, entry.key),
                      fix_for_name(entry.key, known_, "its keys are " + one_of(known_, " and ")));
  }
}

}  // namespace axlewright
