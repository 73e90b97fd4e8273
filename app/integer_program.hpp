// Use case: the integer program of a plan as a file that solvers from outside can prove again.
#pragma once

#include <filesystem>

#include "app/planning.hpp"
#include "sheet/model.hpp"

namespace rigproof::app {

/// Writes it whole or not at all, for a brief that nothing satisfies too. `values` is told how many
/// of the score's values are known. Errors: out_of_range (too large to write), stopped, io.
[[nodiscard]] Result<sheet::IntegerProgram> write_integer_program(
    Planning& planning, const std::filesystem::path& file, const std::function<bool()>& stop,
    const std::function<void(std::size_t done, std::size_t all)>& values = {});

}  // namespace rigproof::app
