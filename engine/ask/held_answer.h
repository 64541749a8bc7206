#pragma once

#include "engine/ask/json.h"

namespace axlewright {

/// What holds the axle and the road wheels in a truck that can be posed: which parts carry a unit load on the axle sideways and
/// fore-aft, a unit moment about the cross line and about up, and one on the left knuckle about up. At the aligned height, the
/// steering wheel held. Each `{way, by: [{part, share}], text}`; share is the part's axial or joint force over the load (per m of
/// a moment); parts that carry under a fifth of the most are left out, and of the road wheels what only locates the axle.
Json what_holds(Rig& rig);

}  // namespace axlewright
