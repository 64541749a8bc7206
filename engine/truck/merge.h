#pragma once

#include <string>
#include <vector>

#include "engine/truck/complaints.h"
#include "engine/truck/document.h"

namespace axlewright {

/// One file of a stack, its head read.
struct Layer {
  std::string file;
  std::string name;  ///< empty if it says none
  BareUnit unit = BareUnit::mm;
  std::vector<Node> remove;  ///< texts: "parts.track_bar"
  Node sections;             ///< its sections alone, each a table
};

/// The sections of all layers, lowest first: each takes away what it removes, then adds and replaces. A replaced
/// entry keeps its place in the order.
Node merge_layers(const std::vector<Layer>& layers, Complaints& complaints);

}  // namespace axlewright
