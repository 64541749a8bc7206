#include "tests/support/asked.h"

#include <gtest/gtest.h>

#include "tests/support/truck_files.h"

namespace axlewright::testing {

std::string example_file(const std::string& truck) {
  return source_path("trucks/" + truck + ".toml");
}

Result<Json> asked(const Json& question) {
  AskContext context;
  context.text_of = text_of_file;
  return ask(question, context);
}

Json answer(const Json& question) {
  const Result<Json> result = asked(question);
  EXPECT_TRUE(result.has_value()) << question << (result ? "" : result.error().front().what);
  return result ? *result : Json();
}

std::string fault_of(const Json& question) {
  const Result<Json> result = asked(question);
  EXPECT_FALSE(result.has_value()) << question;
  return result ? "" : result.error().front().what + " / " + result.error().front().fix;
}

}  // namespace axlewright::testing
