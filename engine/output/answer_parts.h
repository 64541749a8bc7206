#pragma once

#include <string>
#include <vector>

#include "engine/output/shown.h"
#include "engine/output/text.h"

// What the answers share, each part with its heading. A part that the answer does not have prints nothing.

namespace axlewright {

/// The name of the truck and its file, and what was asked of it.
void print_title(Page& page, const Json& answer, const std::string& asked);

/// The story in paragraphs: sentences that belong together until a paragraph has had enough.
void print_story(Page& page, const Json& answer);

/// One sentence as a paragraph; a long one that lists things with semicolons as a list.
void print_sentence(Page& page, const std::string& sentence);

/// Limits broken, not reached, met, not told, in this order; what is not set and not checked.
void print_limits(Page& page, const Json& answer);

void print_margins(Page& page, const Json& answer);

/// Poses that cannot be had, the first few of them with the reason.
void print_refusals(Page& page, const Json& answer);

void print_warnings(Page& page, const Json& answer);
void print_cautions(Page& page, const Json& answer);

/// A list under a heading, or nothing if it is empty.
void print_texts(Page& page, const std::string& heading, const std::vector<std::string>& texts);

/// The entry of `quantities` that has this name, or these words and this unit; null if none has.
const Json* find_quantity_of(const Json& answer, const std::string& name);
const Json* find_quantity_of(const Json& answer, const std::string& words, const std::string& unit);

/// "1 limit", "3 limits".
std::string counted(std::size_t count, const std::string& one, const std::string& many);
/// "a, b, c": for parts that have an "and" of their own.
std::string with_commas(const std::vector<std::string>& words);
/// "a; b; c": for parts that have commas of their own.
std::string with_semicolons(const std::vector<std::string>& words);
/// "a, b and c".
std::string listed(const std::vector<std::string>& words);

}  // namespace axlewright
