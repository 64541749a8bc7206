#include "engine/base/pieces.h"

namespace axlewright {

bool one_by_one(std::size_t count, const Piece& piece, const Progress& progress) {
  for (std::size_t k = 0; k < count; ++k) {
    if (progress && !progress(static_cast<double>(k) / static_cast<double>(count))) return false;
    piece(k);
  }
  return true;
}

}  // namespace axlewright
