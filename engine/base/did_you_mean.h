#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace axlewright {

/// Edits between two words: letters put in, taken out, changed, or swapped with their neighbour. Counts bytes.
int edit_distance(std::string_view a, std::string_view b);

/// The candidate that was most likely meant by `word`: the nearest one, if no more than a third of the word differs;
/// else empty. Of equally near ones the first.
std::string did_you_mean(std::string_view word, const std::vector<std::string>& candidates);

}  // namespace axlewright
