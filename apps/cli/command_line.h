#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/base/result.h"

// A command line, taken apart.

namespace axlewright {

/// An input of a pose as it was typed: "--height" "4in". A flag that takes no value has an empty one.
struct PoseInput {
  std::string flag;
  std::string value;
};

struct Command {
  std::string verb;
  std::vector<std::string> files;     ///< of serve: the folder, or none
  std::vector<std::string> settings;  ///< of --set, in order
  std::vector<std::string> kits;      ///< of --with, in order
  std::vector<PoseInput> inputs;      ///< in the order of the question's keys, not of the line
  std::string units;                  ///< "inch", "mm", or empty: the truck's own
  std::string heights;                ///< as typed; empty: not given
  bool rear_with_front = false;
  std::string quantity;
  std::string layout;
  std::string port;         ///< as typed; empty: not given
  std::string threads;      ///< as typed; empty: not given
  std::string paper;        ///< of draw
  std::string shop, words;  ///< of show: the shop's name and own words
  std::string fitted;       ///< of check: where the fitted truck is written
  std::string output;       ///< of -o; empty: standard output
  bool json = false;
  bool csv = false;
  bool svg = false;
  bool all = false;
  bool expand = false;
  bool write = false;
  bool force = false;
  bool example_numbers = false;
};

/// What a command line asks for: a command, or a text to print (help, version) with the exit status that goes with it.
struct Asked {
  std::optional<Command> command;
  std::string text;
  int status = 0;
};

/// Reads the words behind the program's name. Faults have no place in a file.
Result<Asked> read_command_line(const std::vector<std::string>& words);

}  // namespace axlewright
