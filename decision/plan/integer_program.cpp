#include "decision/plan/integer_program.hpp"

#include <fmt/format.h>

#include "decision/plan/compiler.hpp"

namespace rigproof::plan {
namespace {

// What the program is about; what is no column at all is said here too.
std::string comment_on(const Brief& brief, const Compiler& compiler) {
  std::string out = fmt::format(
      "The best build of the brief {}, as of {}. Money in minor units of the first market's\n"
      "currency; what sums up against a capacity in thousandths of its rule's unit.\n",
      brief.name, to_string(brief.as_of));
  for (const Pruned& reason : compiler.left_out())
    out += fmt::format("no column: {} options, {}\n", reason.count, reason.why);
  return out;
}

}  // namespace

Result<MpsModel> integer_program(
    const PlanInput& input, const PlanOptions& options,
    const std::function<void(std::size_t done, std::size_t all)>& values) {
  const Compiler compiler(input, options);
  const HeadClasses classes = compiler.head_classes();
  return mps_model(
      compiler.problem(),
      {.name = input.brief.name,
       .comment = comment_on(input.brief, compiler),
       .option_name = [&](int slot, int option) { return compiler.option_name(slot, option); },
       .cap_names = compiler.cap_names(),
       .head_classes = &classes,
       .stop = options.stop,
       .progress = values});
}

}  // namespace rigproof::plan
