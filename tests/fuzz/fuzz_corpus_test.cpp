// Runs a fuzzer's entry point (linked in) on all that it ever found and on damaged copies of every truck. Nothing is compared: a
// crash, a broken invariant or a sanitizer's complaint fails the test.
#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include <gtest/gtest.h>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace {

std::vector<std::string> files_in(const std::string& folder) {
  std::vector<std::string> texts;
  for (const auto& entry :
       std::filesystem::recursive_directory_iterator(AXLEWRIGHT_ROOT "/" + folder)) {
    if (!entry.is_regular_file()) continue;
    std::ifstream file(entry.path(), std::ios::binary);
    texts.emplace_back(std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>());
  }
  return texts;
}

void read(const std::string& text) {
  LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(text.data()), text.size());
}

TEST(FuzzCorpus, SurvivesAllThatTheFuzzerFound) {
  const std::vector<std::string> texts = files_in("tests/fuzz/corpus");
  EXPECT_FALSE(texts.empty());
  for (const std::string& text : texts) read(text);
}

// 211 and 97 are primes: over the trucks the cuts and changes fall on every kind of place in a line.
TEST(FuzzCorpus, SurvivesTrucksCutShort) {
  for (const std::string& text : files_in("trucks")) {
    for (std::size_t end = 0; end < text.size(); end += 211) read(text.substr(0, end));
  }
}

TEST(FuzzCorpus, SurvivesTrucksWithOneCharacterChanged) {
  const std::string strange = {'\0', '"', '[', ']', '=', '-', '.', '9', '\n', '\xff', '\x80'};
  std::size_t next = 0;
  for (const std::string& text : files_in("trucks")) {
    for (std::size_t at = 0; at < text.size(); at += 97) {
      std::string changed = text;
      changed[at] = strange[next++ % strange.size()];
      read(changed);
    }
  }
}

}  // namespace
