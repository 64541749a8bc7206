#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/output/shown.h"
#include "engine/output/text.h"

// Quantities over height: a row for each height, rising, and beside each column a strip that runs down the rows, in which a
// mark wanders with the number, so that the shape of each quantity is seen.

namespace axlewright {

/// What a strip spans, from its left end to its right end, in the answer's unit. What is told as left and right stands so in
/// the strip; of all else the larger stands to the right.
struct StripSpan {
  double left = 0;
  double right = 0;
};

/// One row of a strip: the mark where the value stands, a line where zero is if the span holds it.
std::string strip_row(const StripSpan& span, std::optional<double> value);

/// A column over the heights.
struct HeightColumn {
  std::string heading;
  ShownQuantity quantity;
  std::vector<std::optional<double>> values;  ///< by row, in the answer's unit
};

/// Whether every row has a value and all of them read the same.
bool is_steady(const HeightColumn& column);

/// The one value of a steady column, in words: "5.0 deg top back".
std::string steady_text(const HeightColumn& column);

/// The side of all values that are not zero; empty if there are two, or none, or the quantity has no words for them. What has
/// one side has it in its heading, not in every cell.
std::string one_side(const ShownQuantity& quantity,
                     const std::vector<std::optional<double>>& values, int decimals);

enum class Scale { each_its_own, one_for_all };

/// As many tables under each other as the width asks for, each with the heights. `one_for_all`: the columns are of one
/// quantity, and their strips can be held against each other. Whether there was anything to print.
bool print_over_heights(Page& page, const Json& heights_mm, bool inches,
                        const std::vector<HeightColumn>& columns, Scale scale);

/// Whether all columns stand beside each other in one table.
bool fit_in_one_table(const Page& page, const Json& heights_mm, bool inches,
                      const std::vector<HeightColumn>& columns, Scale scale);

/// What the strips mean, once for a page.
std::string strip_legend();

}  // namespace axlewright
