// Slips are looked for only where the parser has refused a text; what it takes must then show none on the way to its fault.
#include "engine/truck/toml_slip.h"

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "engine/truck/document.h"
#include "engine/truck/sample_truck_test.h"

namespace axlewright {

namespace {

/// The sample, every truck of ours, and what TOML allows beyond them.
std::vector<std::string> good_texts() {
  std::vector<std::string> texts{
      sample::kTruck,
      "",
      "\xef\xbb\xbf# a byte order mark\r\na = 1\r\n\t[b]\r\n",
      "a = [ # a note, with a comma\n  1,\n\n  [2, 3], # and ] here\n]\n",
      "a = [\n  [true],\n  [inf],\n  [-nan]\n]",
      "a = '\"' # odd\nb = \"\\\"\"\nc = {}\nd = []\ne = { \"x y\" = '', z.w = 2 }",
      "a = \"\"\"one \" and \"\" two\\\"\"\"\"\"\"\nb = '''\nlines \\'''\n",
      "a = 1_000\nb = -1.5e-3\nc = 0x1F\nd = 0b1\ne = 1979-05-27 07:32:00Z\nf = 07:32:00",
      "[[a]]\nb = 1\n[a.c]\nd = 1\n[[a]]\nb = 2\n[a.c]\nd = 2\n",
      "[ a . \"b.c\" ]\n1 = 2\n-x_ = 3\n",
  };
  const std::filesystem::path root = AXLEWRIGHT_ROOT;
  for (const char* folder : {"trucks", "tests/layouts", "tests/fuzz/corpus"}) {
    for (const auto& entry : std::filesystem::recursive_directory_iterator(root / folder)) {
      if (!entry.is_regular_file()) continue;
      std::ifstream file(entry.path(), std::ios::binary);
      const std::string text(std::istreambuf_iterator<char>(file), {});
      if (parse_document("a.toml", text)) texts.push_back(text);
    }
  }
  return texts;
}

}  // namespace

TEST(TomlSlip, NoneIsSeenInWhatTheParserTakes) {
  const std::vector<std::string> texts = good_texts();
  EXPECT_GT(texts.size(), 30u);
  for (const std::string& text : texts) {
    ASSERT_TRUE(parse_document("a.toml", text)) << text;
    const auto slip = slip_in_toml("a.toml", text);
    EXPECT_FALSE(slip) << text << "\n" << slip->line << ": " << slip->what;
  }
}

// One character changed or taken away, all over the sample: what still is TOML shows no slip, and a slip lies in the text.
TEST(TomlSlip, NoneIsSeenInWhatIsStillTomlAfterAChange) {
  const std::string sample = sample::kTruck;
  int slips = 0;
  for (std::size_t at = 0; at < sample.size(); at += 3) {
    for (const std::string put : {"", "\"", "]", ",", " ", "\n", "x", "."}) {
      std::string text = sample;
      text.replace(at, 1, put);
      const auto slip = slip_in_toml("a.toml", text);
      if (!slip) continue;
      ++slips;
      EXPECT_FALSE(parse_document("a.toml", text)) << slip->line << ": " << slip->what;
      const std::size_t begin = byte_offset(text, slip->line, slip->column);
      EXPECT_LT(begin, text.size());
      EXPECT_EQ(byte_offset(text, slip->line, slip->column + slip->length),
                begin + static_cast<std::size_t>(slip->length));
      EXPECT_FALSE(slip->fix.empty());
    }
  }
  EXPECT_GT(slips, 1000);
}

// A list or a line as long as a file may be must not take the day.
TEST(TomlSlip, ALongTextTakesNoTimeToSpeakOf) {
  std::string text = "a = [";
  while (text.size() < 1'900'000) text += "[1],";
  EXPECT_TRUE(slip_in_toml("a.toml", text));
  std::string names = "[" + std::string(200'000, 'a') + "]\n";
  while (names.size() < 1'900'000) names += "b" + std::to_string(names.size()) + " = 1\n";
  EXPECT_FALSE(slip_in_toml("a.toml", names + "c = \"\n"));
}

}  // namespace axlewright
