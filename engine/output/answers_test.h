#pragma once

#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "engine/ask/ask.h"

// Real answers about the example trucks, for tests of what is printed.

namespace axlewright::testing {

inline const std::vector<std::string>& example_trucks() {
  static const std::vector<std::string> names{
      "plain-mismatched", "plain-parallel", "half-converted", "guided-loose",
      "guided",           "rocker-guided",  "four-bar"};
  return names;
}

inline std::string example_file(const std::string& name) {
  return std::string(AXLEWRIGHT_ROOT) + "/trucks/" + name + ".toml";
}

inline tl::expected<std::string, std::string> text_on_disk(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) return tl::unexpected<std::string>("no such file");
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

inline Json answer_to(const Json& question) {
  AskContext context;
  context.text_of = text_on_disk;
  const Result<Json> answer = ask(question, context);
  EXPECT_TRUE(answer.has_value()) << question << (answer ? "" : answer.error().front().what);
  return answer ? *answer : Json();
}

inline Json sweep_of(const std::string& truck, int heights = 5) {
  return answer_to({{"ask", "sweep"}, {"file", example_file(truck)}, {"heights", heights}});
}

inline std::vector<std::string> lines_in(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

/// The first line that has this in it; empty if none has.
inline std::string line_with(const std::string& text, const std::string& part) {
  for (const std::string& line : lines_in(text)) {
    if (line.find(part) != std::string::npos) return line;
  }
  return "";
}

}  // namespace axlewright::testing
