#include "tests/support/raised_example.h"

#include <algorithm>
#include <cmath>
#include <map>

#include <gtest/gtest.h>

#include "engine/base/units.h"
#include "tests/support/truck_files.h"

namespace axlewright::testing {

namespace {

const LimitResult* limit_on(const Sweep& sweep, const std::string& name) {
  for (const LimitResult& result : sweep.limits) {
    if (result.limit.name == name) return &result;
  }
  return nullptr;
}

}  // namespace

Rig rig_of(const std::string& example) {
  return Rig(truck_of("trucks/" + example + ".toml"));
}

const Sweep& raised(const std::string& example) {
  static std::map<std::string, Sweep> sweeps;
  const auto found = sweeps.find(example);
  if (found != sweeps.end()) return found->second;
  Rig rig = rig_of(example);
  return sweeps.emplace(example, run_sweep(rig, sweep_plan(rig.truck(), 11))).first->second;
}

std::vector<double> over_heights(const std::string& example, int quantity) {
  std::vector<double> values;
  for (const HeightRow& row : raised(example).rows) {
    EXPECT_TRUE(row.rolling.report.usable()) << example << ": " << row.rolling.report.message;
    const bool told = row.rolling.report.usable() && quantity >= 0;
    values.push_back(told ? row.rolling.values[static_cast<std::size_t>(quantity)] : NAN);
  }
  return values;
}

std::vector<double> over_heights(const std::string& example, const std::string& key) {
  const std::vector<QuantityInfo>& infos = raised(example).infos;
  const auto found = std::find_if(infos.begin(), infos.end(),
                                  [&](const QuantityInfo& info) { return info.key == key; });
  EXPECT_NE(found, infos.end()) << example << " has no " << key;
  return over_heights(example, found == infos.end() ? -1 : static_cast<int>(found - infos.begin()));
}

double largest(const std::vector<double>& values) {
  double most = 0;
  for (const double value : values) {
    if (std::isnan(value)) return NAN;
    most = std::max(most, std::abs(value));
  }
  return most;
}

double at_top(const std::string& example, int quantity) {
  return over_heights(example, quantity).back();
}

double change_over_heights(const std::string& example, int quantity) {
  const std::vector<double> values = over_heights(example, quantity);
  return values.back() - values.front();
}

bool grows_all_the_way(const std::vector<double>& values) {
  return std::adjacent_find(values.begin(), values.end(), [](double lower, double higher) {
           return !(std::abs(higher) > std::abs(lower));
         }) == values.end();
}

Verdict verdict_on(const std::string& example, const std::string& limit) {
  const LimitResult* result = limit_on(raised(example), limit);
  EXPECT_NE(result, nullptr) << example << " has no limit " << limit;
  return result == nullptr ? Verdict::not_told : result->verdict;
}

}  // namespace axlewright::testing
