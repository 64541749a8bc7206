#pragma once

#include <string>
#include <vector>

#include "engine/ask/json.h"
#include "engine/base/result.h"
#include "engine/study/rig.h"

// Questions taken apart. Whatever is not as api/README.md says is a fault that names the key.

namespace axlewright {

/// Nothing, or a fault for each key of the question that is not one of `known` (`ask`, `set`, `units` and `with` always are).
std::vector<Fault> unknown_keys(const Json& question, const std::vector<std::string>& known);

/// The value under a key, or `otherwise` where the key is absent.
Result<double> number_in(const Json& question, const std::string& key, double otherwise);
Result<bool> flag_in(const Json& question, const std::string& key);
Result<std::string> text_in(const Json& question, const std::string& key,
                            const std::string& otherwise);

/// A whole number from `least` to `most`.
Result<int> count_in(const Json& question, const std::string& key, int otherwise, int least,
                     int most);

/// The texts of a list; empty where the key is absent.
Result<std::vector<std::string>> texts_in(const Json& question, const std::string& key);

/// The keys of a pose's inputs, and the request that they make.
const std::vector<std::string>& pose_keys();
Result<PoseRequest> pose_in(const Json& question);

}  // namespace axlewright
