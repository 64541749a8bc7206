#pragma once

#include "engine/ask/start_entries.h"

// Points and parts of layouts whose bodies turn on a pin, and of drag links that carry the tie rod; as start_entries.h has the others.

namespace axlewright {

/// A lateral four-bar, its crank on the axle.
Lines four_bar_points();
Lines four_bar_part();

/// A relay with two arms on the frame, between a fore-aft pitman arm and a drag link across the truck.
Lines relay_points();
/// The link from the pitman arm, the relay, and the drag link from it.
Lines relay_parts();

/// The tie rod's two balls where the drag link carries one of them.
Lines inverted_y_points();
Lines inverted_y_parts();

}  // namespace axlewright
