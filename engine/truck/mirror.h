#pragma once

#include "engine/truck/complaints.h"
#include "engine/truck/document.h"

namespace axlewright {

/// Writes mirrors out: each entry with `mirror = true` is followed by the same entry for the other side, and neither
/// keeps the key `mirror`. Complains of a name without a side and of an entry that is there already.
void write_mirrors_out(Node& root, Complaints& complaints);

}  // namespace axlewright
