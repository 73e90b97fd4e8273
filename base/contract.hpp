// Contracts: a broken one is a bug of ours, never bad input.
#pragma once

#include <source_location>
#include <stdexcept>
#include <string>

namespace rigproof {

/// Thrown by RP_EXPECT. Caught only in main and around one server request.
class ContractViolation : public std::logic_error {
 public:
  ContractViolation(const char* condition, const std::source_location& where)
      : std::logic_error(std::string("internal fault: expected ") + condition + " at " +
                         where.file_name() + ":" + std::to_string(where.line())) {}
};

inline void expect(bool holds, const char* condition,
                   const std::source_location& where = std::source_location::current()) {
  if (!holds) [[unlikely]]
    throw ContractViolation(condition, where);
}

}  // namespace rigproof

/// Always armed, in every build.
#define RP_EXPECT(condition) ::rigproof::expect(static_cast<bool>(condition), #condition)
