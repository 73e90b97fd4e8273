// What `outlook --json` prints: docs/schema/outlook.schema.json.
#include "app/outlook.hpp"
#include "sheet/json_writer.hpp"

namespace rigproof::app {
namespace {

using sheet::JsonWriter;

std::string_view how_text(plan::BuildCount::How how) {
  switch (how) {
    case plan::BuildCount::How::counted:
      return "counted";
    case plan::BuildCount::How::estimated:
      return "estimated";
    case plan::BuildCount::How::few_found:
      return "few found";
    case plan::BuildCount::How::at_least:
      return "at least";
    case plan::BuildCount::How::none_found:
      return "none found";
    case plan::BuildCount::How::not_known:
      break;
  }
  return "not known";
}

void write_count(JsonWriter& out, const plan::BuildCount& count) {
  using enum plan::BuildCount::How;
  out.begin_object();
  out.member("how", how_text(count.how));
  if (count.how == counted || count.how == estimated) out.member("builds", count.builds);
  if (count.how == estimated) {
    out.member("low", count.low);
    out.member("high", count.high);
  }
  if (count.probes > 0) {
    out.member("probes", count.probes);
    out.member("found", count.found);
  }
  if (count.leaves > 0) out.member("judged_by_physics", count.leaves);
  out.end_object();
}

void write_line(JsonWriter& out, const OutlookLine& line) {
  out.begin_object();
  out.member("path", line.requirement.path);
  if (line.requirement.line > 0) out.member("line", line.requirement.line);
  out.member("says", line.requirement.says);
  out.member("noun", line.noun);
  out.key("count");
  write_count(out, line.count);
  out.member("count_says", line.says);
  out.end_object();
}

void write_texts(JsonWriter& out, std::string_view name, const std::vector<std::string>& texts) {
  out.key(name);
  out.begin_array();
  for (const std::string& text : texts) out.text(text);
  out.end_array();
}

}  // namespace

std::string outlook_json(const OutlookAnswer& answer) {
  JsonWriter out;
  out.begin_object();
  out.member("schema", "rigproof.outlook/1");
  out.member("brief", answer.asked.brief_name);
  if (!answer.asked.brief_file.empty()) out.member("brief_file", answer.asked.brief_file);
  out.member("as_of", to_string(answer.asked.as_of));
  out.member("stopped", answer.stopped);
  write_texts(out, "sentences", answer.sentences);
  out.key("all");
  out.begin_object();
  out.member("builds", answer.all_builds);
  out.member("digits", answer.all);
  out.end_object();
  out.key("possible");
  write_count(out, answer.possible);
  out.key("without");
  out.begin_array();
  for (const OutlookLine& line : answer.without) write_line(out, line);
  out.end_array();
  write_texts(out, "notes", answer.notes);
  out.end_object();
  return out.take();
}

}  // namespace rigproof::app
