#include "engine/truck/document.h"

#include <gtest/gtest.h>

namespace axlewright {

TEST(Document, KeepsTheOrderOfTheFileAndEveryPlace) {
  const auto root = parse_document("a.toml", "z = 1\n[b]\ny = { d = true, c = \"t\" }\n[a]\n");
  ASSERT_TRUE(root);
  EXPECT_EQ(keys(*root), (std::vector<std::string>{"z", "b", "a"}));
  const Node& y = *find(*find(*root, "b"), "y");
  EXPECT_EQ(keys(y), (std::vector<std::string>{"d", "c"}));
  EXPECT_EQ(y.entries[1].key_place.line, 3);
  EXPECT_EQ(y.entries[1].key_place.column, 17);
  EXPECT_EQ(y.entries[1].value.place.column, 21);
  EXPECT_EQ(y.entries[1].value.place.length, 3);
}

TEST(Document, ByteOffsetsCountCodePointsAndSkipAByteOrderMark) {
  const std::string text =
      "\xef\xbb\xbf\xc3\xa4"
      "b\r\n\xe2\x86\x90"
      "d";
  EXPECT_EQ(byte_offset(text, 1, 1), 3u);
  EXPECT_EQ(byte_offset(text, 1, 2), 5u);
  EXPECT_EQ(byte_offset(text, 2, 1), 8u);
  EXPECT_EQ(byte_offset(text, 2, 2), 11u);
  EXPECT_EQ(byte_offset(text, 9, 1), text.size());
}

TEST(Document, TextInQuotesAndCommentsMayBeOfAnyLanguage) {
  EXPECT_TRUE(
      parse_document("a", "# \xc3\xa4\na = \"\xc3\xa4\"\n'\xc3\xa4' = '''\n\xc3\xa4\n'''\n"));
  EXPECT_TRUE(parse_document("a", "a = \"\\\"\xc3\xa4\"\nb = \"\"\"x\\\n \xc3\xa4\"\"\"\n"));
}

TEST(Document, EveryFaultHasAPlaceAndNothingCrashes) {
  for (const char* text :
       {"\xc3\xa4 = 1", "a = \xc3\xa4", "a = \"\xff\"", "\xc0\x80", "\xed\xa0\x80", "a = \"\\",
        "a = '''", "[a", "a = [1,", "= 3", "a = 1e999999", "a = 99999999999999999999"}) {
    const auto root = parse_document("a", text);
    ASSERT_FALSE(root) << text;
    EXPECT_GE(root.error().line, 1);
    EXPECT_GE(root.error().column, 1);
    EXPECT_FALSE(root.error().fix.empty());
  }
}

TEST(Document, DeepNestingIsAFaultAndNoStackOverflow) {
  std::string dots = "a", brackets = "a = ", tables;
  for (int i = 0; i < 100'000; ++i) {
    dots += ".a";
    brackets += "[";
    tables += "{a=";
  }
  EXPECT_FALSE(parse_document("a", dots + " = 1"));
  EXPECT_FALSE(parse_document("a", "[" + dots + "]"));
  EXPECT_FALSE(parse_document("a", brackets));
  EXPECT_FALSE(parse_document("a", "a=" + tables));
}

}  // namespace axlewright
