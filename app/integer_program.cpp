#include "app/integer_program.hpp"

#include "app/files.hpp"

namespace rigproof::app {

Result<sheet::IntegerProgram> write_integer_program(
    Planning& planning, const std::filesystem::path& file, const std::function<bool()>& stop,
    const std::function<void(std::size_t done, std::size_t all)>& values) {
  const auto model = planning.integer_program(stop, values);
  if (!model) return tl::unexpected(model.error());
  if (const auto done = write_atomically(file, plan::mps_text(*model)); !done)
    return tl::unexpected(done.error());
  sheet::IntegerProgram out{.file = file.string(),
                            .columns = static_cast<long long>(model->linear.columns.size()),
                            .rows = static_cast<long long>(model->linear.rows.size()),
                            .left_out = {}};
  for (const plan::Pruned& checks : model->left_out)
    out.left_out.push_back({checks.why, checks.count});
  return out;
}

}  // namespace rigproof::app
