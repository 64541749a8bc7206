#pragma once

#include <map>
#include <string>
#include <vector>

#include "engine/ask/json.h"
#include "engine/base/result.h"

namespace axlewright {

/// A picture for where the page cannot compute: a drawing as SVG and what is to be said of it.
struct RecordedPicture {
  int truck = 0;
  double height = 0;  ///< [m]
  std::string svg, words;
};

/// What is put into the customer page.
///   files   text by path; `trucks` are two of the paths, and layers are found from them as `based_on` spells them
struct CustomerPage {
  std::map<std::string, std::string> files;
  std::vector<std::string> trucks;
  std::string shop_name, shop_words;
  bool inches = false;
  std::vector<RecordedPicture> pictures;
};

/// The page with its data in it: `page` is the built page, which waits for them. Whatever the data hold, they are data: no text of
/// theirs can end the element that they stand in. A fault where the page has no place for them.
Result<std::string> customer_page(const std::string& page, const CustomerPage& data);

}  // namespace axlewright
