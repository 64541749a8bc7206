#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace axlewright {

/// What a verb is for, and how it is typed.
struct VerbHelp {
  std::string_view verb;
  std::string_view files;  ///< what stands behind it: "FILE", "FILE FILE..."
  std::string_view does;   ///< one line
  std::string_view more;   ///< a paragraph
  std::vector<std::string_view> examples;
};

const std::vector<VerbHelp>& verbs();
/// Null if there is none.
const VerbHelp* find_verb(std::string_view verb);

/// A flag in a help page: how it is typed, and what it does.
struct FlagHelp {
  std::string flag;
  std::string does;
};

/// What the program says when nothing is asked of it.
std::string short_help();
/// The verbs, what they answer, the exit statuses.
std::string whole_help();
std::string verb_help(const VerbHelp& verb, const std::vector<FlagHelp>& flags);
std::string version_text();

}  // namespace axlewright
