#include "engine/sheet/part_words.h"

#include <algorithm>

namespace axlewright {

std::string words_for_part(const Truck& truck, const std::string& part) {
  const std::size_t dot = part.find('.');
  const std::string name = part.substr(0, dot);
  std::string words = name;
  for (const Part& one : truck.parts) {
    if (one.name == name) words = one.words;
  }
  for (const ExtraBody& body : truck.bodies) {
    if (body.name == name) words = body.words;
  }
  if (dot != std::string::npos) words += " " + part.substr(dot + 1);
  const std::size_t half_link = words.find("half_link");
  if (half_link != std::string::npos) words[half_link + 4] = '-';
  std::replace(words.begin(), words.end(), '_', ' ');
  return words;
}

}  // namespace axlewright
