// The fenced blocks of a Markdown page that a test can act on, by the words after the language:
//
//     ```csv file=parts/cpu.csv     the block is this file
//     ```sh exit=5                  one command; it ends with this code
//     ```text out                   lines of what the last command printed, whole and in this
//     order;
//                                   a line `...` stands for any lines left out
//
// A block with nothing after its language is only shown.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace rigproof::docs_test {

struct Block {
  int line = 0;          ///< of its opening fence
  std::string language;  ///< `csv`, `sh`...
  std::string does;      ///< `file=...`, `exit=...`, `out`, or empty
  std::string text;      ///< with the line ends
};

/// All fenced blocks, in order. A fence left open is a block up to the end, marked by `does` =
/// "open".
[[nodiscard]] std::vector<Block> blocks_of(std::string_view page);

/// The first quoted line that is not where it should be; empty when all are.
[[nodiscard]] std::string first_line_not_printed(std::string_view quoted, std::string_view printed);

}  // namespace rigproof::docs_test
