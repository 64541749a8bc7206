#pragma once

#include <string>

#include "engine/ask/json.h"

namespace axlewright {

/// The numbers of an answer as one table for spreadsheets (RFC 4180: comma, quotes doubled, CR LF), with a line of names
/// first. Always mm and deg, each name with its unit; a number that is not there is an empty field. Digits are those of the
/// answer, enough to give the same number again.
///   check    a line for each margin
///   pose     a line for each quantity: name, value, unit, words
///   sweep    a line for each height
///   compare  a line for each truck and height, the truck first
///   setup    a line for each height, with the lengths that do it
///   start    a line for each thing to measure
std::string answer_csv(const Json& answer);

}  // namespace axlewright
