#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/truck/complaints.h"
#include "engine/truck/document.h"
#include "engine/truck/read.h"

namespace axlewright {

/// A truck file merged with the layers it is based on.
struct Layered {
  Node root;  ///< sections alone; the head of each file is used up
  std::string name;
  std::vector<std::string> kits;  ///< names of the kits on top
  BareUnit unit = BareUnit::mm;   ///< of the file itself
  bool unknown_sections = false;  ///< some were left out: what they hold is not known
  TextPlace head;  ///< where a missing section is missed: the start of the file itself
};

/// Reads the file and every layer below it, then the kits with theirs, and merges them as docs/truck-file.md says. Nothing if a
/// file cannot be had or parsed, or if layers go in a circle: then nothing more could be said of the truck.
std::optional<Layered> read_layers(const std::string& path, const TextOf& text_of, Sources& sources,
                                   Complaints& complaints,
                                   const std::vector<std::string>& kits = {});

}  // namespace axlewright
