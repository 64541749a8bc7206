#pragma once

#include "engine/truck/document.h"
#include "engine/truck/setting.h"

namespace axlewright {

/// What a key holds: so that an edit can write a number in the unit that the reader will take it for.
enum class KeyKind { words, length, angle, plain };

/// What the value that a setting means holds. A limit's min and max are of the kind of its quantity, looked up in
/// `document`.
KeyKind kind_of(const ParsedSetting& setting, const Node& document);

}  // namespace axlewright
