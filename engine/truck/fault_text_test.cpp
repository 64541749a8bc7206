#include "engine/truck/fault_text.h"

#include <gtest/gtest.h>

namespace axlewright {

namespace {

Fault sample_fault() {
  Fault fault;
  fault.file = "a.toml";
  fault.line = 3;
  fault.column = 5;
  fault.length = 2;
  fault.what = "it is wrong";
  fault.fix = "mend it";
  fault.source_line = "abcdefgh";
  return fault;
}

}  // namespace

TEST(FaultText, ShowsPlaceLineCaretAndFix) {
  EXPECT_EQ(text_of(sample_fault()),
            "a.toml:3:5: error: it is wrong\n  abcdefgh\n      ^^\n  fix: mend it\n");
}

TEST(FaultText, CountsCodePointsNotBytes) {
  Fault fault = sample_fault();
  fault.source_line =
      "\xc3\xa4\xe2\x86\x90"
      "cdefgh";
  EXPECT_EQ(text_of(fault),
            "a.toml:3:5: error: it is wrong\n  \xc3\xa4\xe2\x86\x90"
            "cdefgh\n      ^^\n  fix: mend it\n");
}

TEST(FaultText, PutsATabUnderATab) {
  Fault fault = sample_fault();
  fault.source_line = "\ta\tbcd";
  EXPECT_EQ(text_of(fault),
            "a.toml:3:5: error: it is wrong\n  \ta\tbcd\n  \t \t ^^\n  fix: mend it\n");
}

TEST(FaultText, ControlCharactersBecomeBlanks) {
  Fault fault = sample_fault();
  fault.source_line = "ab\x1b[cdef";
  EXPECT_NE(text_of(fault).find("  ab [cdef\n"), std::string::npos);
}

TEST(FaultText, CutsALongLineAroundTheCaret) {
  Fault fault = sample_fault();
  fault.source_line = std::string(1000, 'x') + "here" + std::string(1000, 'y');
  fault.column = 1001;
  fault.length = 4;
  const std::string text = text_of(fault);
  EXPECT_LT(text.size(), 400u);
  const std::size_t line = text.find('\n') + 1, caret = text.find('\n', line) + 1;
  EXPECT_EQ(text.find("here") - line, text.find("^^^^\n") - caret);
}

TEST(FaultText, WithoutAPlaceThereIsNoCaret) {
  Fault fault = sample_fault();
  fault.severity = Severity::warning;
  fault.line = 0;
  EXPECT_EQ(text_of(fault), "a.toml: warning: it is wrong\n  fix: mend it\n");
  fault.file.clear();
  EXPECT_EQ(text_of(fault), "warning: it is wrong\n  fix: mend it\n");
}

TEST(FaultText, ACaretMayStandBehindTheLine) {
  Fault fault = sample_fault();
  fault.column = 9;
  EXPECT_NE(text_of(fault).find("\n          ^\n"), std::string::npos);
  fault.column = 999;
  fault.length = 1'000'000;
  EXPECT_LT(text_of(fault).size(), 200u);
}

}  // namespace axlewright
