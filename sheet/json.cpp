#include "sheet/json.hpp"

#include "sheet/json_pieces.hpp"

namespace rigproof::sheet {
namespace {

void write_integer_program(JsonWriter& out, const IntegerProgram& program) {
  out.begin_object();
  out.member("file", program.file);
  out.member("columns", program.columns);
  out.member("rows", program.rows);
  out.key("left_out");
  out.begin_object();
  for (const PrunedLine& line : program.left_out) out.member(line.why, line.count);
  out.end_object();
  out.end_object();
}

}  // namespace

std::string plan_json(const Plan& plan) {
  JsonWriter out;
  out.begin_object();
  out.member("schema", plan_schema);
  out.member("status", plan.proof.status);
  out.member("brief", plan.brief_name);
  out.member("brief_file", plan.brief_file);
  out.member("as_of", to_string(plan.as_of));
  member(out, "builds", plan.builds);
  if (plan.compared > 0) out.member("compared", plan.compared);
  out.key("proof");
  write_proof(out, plan.proof);
  write_conflicts(out, plan.conflicts);
  member(out, "notes", plan.notes);
  if (plan.integer_program) {
    out.key("integer_program");
    write_integer_program(out, *plan.integer_program);
  }
  out.end_object();
  return out.take();
}

std::string claims_json(const std::string& build, const std::vector<Claim>& claims) {
  JsonWriter out;
  out.begin_object();
  out.member("schema", claims_schema);
  out.member("build", build);
  member(out, "claims", claims);
  out.end_object();
  return out.take();
}

}  // namespace rigproof::sheet
