// Complaints: everything wrong with an input, each at its place, counted in full and shown to a
// limit.
#pragma once

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace rigproof {

struct Complaint {
  std::string file;
  std::size_t line = 0;  ///< from 1; 0: the file as a whole
  std::size_t column =
      0;             ///< from 1, in characters (code points) of the line; 0: the line as a whole
  std::string what;  ///< what is wrong
  std::string expected;  ///< what was expected; may be empty
  std::string text;      ///< the offending text, already shortened
};

/// `file:line:column: what; expected ...; got "text"`; parts that are not known are left out.
[[nodiscard]] std::string to_string(const Complaint& complaint);

class Complaints {
 public:
  static constexpr std::size_t shown_limit = 100;
  void add(Complaint complaint) {
    ++count_;
    if (shown_.size() < shown_limit) shown_.push_back(std::move(complaint));
  }
  /// The same, but `make()` is called only when its complaint will be shown: a file of a million
  /// bad rows costs a million additions, not a million messages.
  template <class Make>
  void add_made(Make&& make) {
    ++count_;
    if (shown_.size() < shown_limit) shown_.push_back(std::forward<Make>(make)());
  }
  /// Counts complaints that were found but are not to be shown.
  void count_unshown(std::size_t more) { count_ += more; }
  [[nodiscard]] bool empty() const { return count_ == 0; }
  [[nodiscard]] std::size_t count() const { return count_; }                    ///< all of them
  [[nodiscard]] const std::vector<Complaint>& shown() const { return shown_; }  ///< the first 100
  /// All shown complaints, a line each, and a last line with the full count.
  [[nodiscard]] std::string report() const;

 private:
  std::size_t count_ = 0;
  std::vector<Complaint> shown_;
};

}  // namespace rigproof
