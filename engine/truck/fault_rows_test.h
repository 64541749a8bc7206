#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "engine/truck/fault_text.h"
#include "engine/truck/sample_truck_test.h"

// A complaint of the reader as a row of a test: a change to a truck that has none, the words at fault, and what is said.

namespace axlewright::sample {

struct Row {
  std::string from, to;  ///< the change
  std::string marked;    ///< what the caret line underlines
  std::string what;      ///< begins so
  std::string fix;       ///< contains this
  int errors = 1;        ///< errors and warnings in all
};

inline std::string all_of(const std::vector<Fault>& faults) {
  std::string text;
  for (const Fault& fault : faults) text += text_of(fault);
  return text;
}

inline std::vector<Fault> faults_of(const std::string& text, const Row& row) {
  const Result<Truck> truck = read(changed_in(text, row.from, row.to));
  return truck ? truck->warnings : truck.error();
}

inline std::string marked(const Fault& fault) {
  if (fault.column < 1) return {};
  return fault.source_line.substr(static_cast<std::size_t>(fault.column) - 1,
                                  static_cast<std::size_t>(fault.length));
}

inline void expect_row(const std::string& text, const Row& row) {
  SCOPED_TRACE(row.from + " -> " + row.to);
  const std::vector<Fault> faults = faults_of(text, row);
  const auto is_it = [&](const Fault& fault) { return fault.what.rfind(row.what, 0) == 0; };
  const auto found = std::find_if(faults.begin(), faults.end(), is_it);
  ASSERT_NE(found, faults.end()) << "wanted: " << row.what << "\n" << all_of(faults);
  EXPECT_EQ(marked(*found), row.marked) << all_of(faults);
  EXPECT_NE(found->fix.find(row.fix), std::string::npos) << found->fix;
  EXPECT_EQ(static_cast<int>(faults.size()), row.errors) << all_of(faults);
  EXPECT_EQ(found->file, "truck.toml");
}

}  // namespace axlewright::sample
