#include "catalog/complaints.hpp"

#include <fmt/format.h>

namespace rigproof {

std::string to_string(const Complaint& complaint) {
  std::string out = complaint.file;
  if (complaint.line > 0) out += fmt::format(":{}", complaint.line);
  if (complaint.line > 0 && complaint.column > 0) out += fmt::format(":{}", complaint.column);
  if (!out.empty()) out += ": ";
  out += complaint.what;
  if (!complaint.expected.empty()) out += "; expected " + complaint.expected;
  if (!complaint.text.empty()) out += fmt::format("; got \"{}\"", complaint.text);
  return out;
}

std::string Complaints::report() const {
  std::string out;
  for (const Complaint& complaint : shown_) out += to_string(complaint) + '\n';
  if (count_ > shown_.size())
    out += fmt::format("{} complaints in all, the first {} shown\n", count_, shown_.size());
  else
    out += fmt::format("{} complaint{} in all\n", count_, count_ == 1 ? "" : "s");
  return out;
}

}  // namespace rigproof
