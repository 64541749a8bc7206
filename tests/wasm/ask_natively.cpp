// Answers questions natively as the browser's worker does: one question a line in, one answer a line out, files from the
// disk. web/tests/agreement.test.ts holds the compiled engine's answers to these.
#include <cstdio>
#include <fstream>
#include <iostream>
#include <iterator>
#include <string>

#include "apps/browser/reply.h"

namespace {

tl::expected<std::string, std::string> text_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) return tl::unexpected<std::string>("there is no such file");
  return std::string(std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>());
}

}  // namespace

int main() {
  std::string question;
  while (std::getline(std::cin, question)) {
    std::puts(axlewright::reply(question, {text_of, {}}).c_str());
    std::fflush(stdout);
  }
  return 0;
}
