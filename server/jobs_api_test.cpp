// Questions over HTTP. The oracle of an answer is the use case itself, called with the same texts
// under the same names: what `rigproof QUESTION --json` prints.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>

#include "app/claims_of_build.hpp"
#include "app/fit_of_build.hpp"
#include "app/plan_brief.hpp"
#include "app/power_of_build.hpp"
#include "sheet/answers_json.hpp"
#include "sheet/json.hpp"
#include "tests/server/test_bench.hpp"

namespace rigproof::server_test {
namespace {

using testing::HasSubstr;

Json given(const std::filesystem::path& file) {
  return {{"name", file.string()}, {"text", bytes_of(file)}};
}

// Asks and waits; a job that lasts longer than one wait is asked for again.
Json answered(Bench& bench, const std::string& question, const Json& inputs) {
  Response said =
      bench.post("/api/jobs", {{"question", question}, {"inputs", inputs}, {"wait_ms", 10000}});
  while (said.status == 202) {
    const Json job = json_of(said);
    const std::string id = job["id"];
    EXPECT_TRUE(bench.jobs->follow(id, ~0ULL, 60.0));
    said = bench.get("/api/jobs/" + id);
  }
  EXPECT_EQ(said.status, 200) << said.body;
  return json_of(said);
}

// The bytes of the answer as they stand in the job.
std::string answer_bytes(Bench& bench, const Json& job) {
  const std::string body = bench.get("/api/jobs/" + job["id"].get<std::string>()).body;
  const std::string mark = ",\"answer\":";
  const std::size_t at = body.find(mark);
  EXPECT_NE(at, std::string::npos) << body.substr(0, 300);
  return body.substr(at + mark.size(), body.size() - at - mark.size() - 1);
}

TEST(JobsApi, AnswersAreWhatTheCommandsPrint) {
  Bench bench;
  const auto edition = bench.library->edition();
  const app::Workshop& workshop = edition->workshop;
  const BuildFile build = app::open_build(demo_build, workshop.catalog).value();
  const Brief brief = app::open_brief(demo_brief, workshop.catalog).value();

  const auto claims = app::claims_of_build(workshop.catalog, &brief, build, {});
  ASSERT_TRUE(claims);
  Json job =
      answered(bench, "claims", {{"build", given(demo_build)}, {"brief", given(demo_brief)}});
  EXPECT_EQ(job["state"], "done");
  EXPECT_EQ(answer_bytes(bench, job), sheet::claims_json(build.name, *claims));

  const auto alone = app::fit_of_build(workshop, nullptr, build, {});
  ASSERT_TRUE(alone);
  job = answered(bench, "fit", {{"build", given(demo_build)}});
  EXPECT_EQ(answer_bytes(bench, job), sheet::fit_json(*alone));
  const auto fit = app::fit_of_build(workshop, &brief, build, {});
  ASSERT_TRUE(fit);
  job = answered(bench, "fit", {{"build", given(demo_build)}, {"brief", given(demo_brief)}});
  EXPECT_EQ(answer_bytes(bench, job), sheet::fit_json(*fit));
  EXPECT_NE(sheet::fit_json(*fit), sheet::fit_json(*alone));

  job = answered(bench, "power", {{"build", given(demo_build)}, {"show_work", true}});
  EXPECT_EQ(
      answer_bytes(bench, job),
      sheet::power_json(app::power_of_build(
          workshop, build, {.brief = nullptr, .other = nullptr, .show_work = true, .stop = {}})));
}

TEST(JobsApi, APlanIsWhatTheCommandPrints) {
  Bench bench;
  const auto edition = bench.library->edition();
  const std::filesystem::path file = "demo/briefs/careless-bargains.toml";
  const Brief brief = app::open_brief(file, edition->workshop.catalog).value();
  const auto planning = app::Planning::start(edition->workshop, brief).value();
  const app::Planned planned =
      app::plan_brief(edition->workshop, *planning, {.best = 2, .job = {}});
  const Json job = answered(bench, "plan", {{"brief", given(file)}, {"best", 2}});
  EXPECT_EQ(answer_bytes(bench, job), sheet::plan_json(planned.view));
}

TEST(JobsApi, KeptDocumentsStandForTheirTexts) {
  Bench bench;
  const std::string build = bench.keep("build", "my build", bytes_of(demo_build));
  const std::string brief = bench.keep("brief", "my brief", bytes_of(demo_brief));
  const Json by_id = answered(bench, "claims", {{"build", build}, {"brief", brief}});
  const Json by_text =
      answered(bench, "claims",
               {{"build", {{"name", "my build"}, {"text", bytes_of(demo_build)}}},
                {"brief", {{"name", "my brief"}, {"text", bytes_of(demo_brief)}}}});
  EXPECT_EQ(by_id["id"], by_text["id"]) << "the same question, so the same job";

  const auto ask = [&](const Json& inputs) {
    return bench.post("/api/jobs", {{"question", "claims"}, {"inputs", inputs}});
  };
  EXPECT_EQ(ask({{"build", "nobody"}}).status, 404);
  const Response wrong_kind = ask({{"build", brief}});
  EXPECT_EQ(wrong_kind.status, 400);
  EXPECT_THAT(wrong_kind.body, HasSubstr("is a brief"));
  EXPECT_EQ(bench.ask("DELETE", "/api/documents/" + build + "?after=1").status, 200);
  EXPECT_THAT(ask({{"build", build}}).body, HasSubstr("was removed"));
  // A name of a file is no id: nothing on this machine is opened for a request.
  EXPECT_EQ(ask({{"build", demo_build.string()}}).status, 404);
  EXPECT_EQ(ask({{"build", "/etc/passwd"}}).status, 404);
}

TEST(JobsApi, MistakesInTextsAreToldWithTheirLines) {
  Bench bench;
  const Json job = answered(bench, "fit", {{"build", {{"name", "mine"}, {"text", "\n\nx = = 1"}}}});
  EXPECT_EQ(job["state"], "failed");
  EXPECT_EQ(job["error"]["code"], "bad_input");
  EXPECT_THAT(job["error"]["message"].get<std::string>(), HasSubstr("mine:3:"));
  EXPECT_FALSE(job.contains("answer"));
}

TEST(JobsApi, ALongOneIsStopped) {
  Bench bench;
  const Response begun =
      bench.post("/api/jobs", {{"question", "plan"}, {"inputs", endless_inputs()}, {"wait_ms", 0}});
  EXPECT_EQ(begun.status, 202);
  const std::string at = "/api/jobs/" + json_of(begun)["id"].get<std::string>();
  const auto asked = std::chrono::steady_clock::now();
  const Response stopped = bench.ask("DELETE", at);
  EXPECT_THAT(stopped.status, testing::AnyOf(200, 202));
  EXPECT_TRUE(bench.jobs->follow(json_of(begun)["id"], ~0ULL, 60.0));
  EXPECT_EQ(json_of(bench.get(at))["state"], "stopped");
  EXPECT_LT(std::chrono::steady_clock::now() - asked, std::chrono::seconds(30));
  EXPECT_EQ(bench.ask("DELETE", "/api/jobs/nobody").status, 404);
  EXPECT_EQ(bench.get("/api/jobs/nobody").status, 404);
  EXPECT_EQ(bench.get("/api/jobs/nobody/events").status, 404);
}

TEST(JobsApi, ASheetHasItsFiles) {
  Bench bench;
  const Json job = answered(bench, "sheet", {{"build", given(demo_build)}});
  const std::string at = "/api/jobs/" + job["id"].get<std::string>() + "/files/";
  const Json names = job["answer"]["files"];
  EXPECT_THAT(names, testing::Contains(Json("sheet.html")));
  for (const Json& name : names) {
    const Response file = bench.get(at + name.get<std::string>());
    EXPECT_EQ(file.status, 200) << name;
    EXPECT_FALSE(file.body.empty()) << name;
    const std::string policy = header_of(file, "Content-Security-Policy");
    EXPECT_THAT(policy, HasSubstr("sandbox")) << name;
    EXPECT_THAT(policy, testing::Not(HasSubstr("script-src")));
    EXPECT_EQ(header_of(file, "Content-Disposition"), "");
    EXPECT_EQ(header_of(bench.get(at + name.get<std::string>() + "?save"), "Content-Disposition"),
              "attachment; filename=\"" + name.get<std::string>() + "\"");
  }
  EXPECT_EQ(bench.get(at + "sheet.html").type, "text/html; charset=utf-8");

  // The paper chosen in the pages: one attribute more, under the same policy; never in what is
  // saved.
  const Response plain = bench.get(at + "sheet.html");
  for (const std::string paper : {"light", "dark"}) {
    const Response chosen = bench.get(at + "sheet.html?paper=" + paper);
    const std::string attribute = " data-paper=\"" + paper + "\"";
    const std::size_t place = chosen.body.find(attribute);
    ASSERT_NE(place, std::string::npos);
    EXPECT_LT(place, chosen.body.find("<head>"));
    std::string without = chosen.body;
    EXPECT_EQ(without.erase(place, attribute.size()), plain.body);
    EXPECT_EQ(header_of(chosen, "Content-Security-Policy"),
              header_of(plain, "Content-Security-Policy"));
    EXPECT_EQ(bench.get(at + "sheet.html?save&paper=" + paper).body, plain.body);
    EXPECT_EQ(bench.get(at + "parts.csv?paper=" + paper).body, bench.get(at + "parts.csv").body);
  }
  EXPECT_EQ(bench.get(at + "sheet.html?paper=%22%3E").status, 400);
  for (const char* name : {"nobody", "..", "../../store.db", "sheet.html\r\nX: y", "\""})
    EXPECT_EQ(bench.get(at + name).status, 404) << name;
  EXPECT_EQ(bench.get("/api/jobs/nobody/files/sheet.html").status, 404);
}

TEST(JobsApi, RefusesWhatIsNoQuestion) {
  Bench bench;
  for (const char* body :
       {"", "{}", "[]", R"({"question": 1})", R"({"question": "serve"})", R"({"question": "plan"})",
        R"({"question": "plan", "inputs": []})", R"({"question": "plan", "inputs": null})",
        R"({"question": "plan", "inputs": {}})", R"({"question": "check", "wait_ms": -1})",
        R"({"question": "check", "wait_ms": 1.5})", R"({"question": "check", "wait_ms": 10001})",
        R"({"question": "check", "wait_ms": "1"})",
        R"({"question": "check", "wait_ms": 18446744073709551615})",
        R"({"question": "check", "more": 1})"}) {
    const Response refused = bench.ask("POST", "/api/jobs", body);
    EXPECT_EQ(refused.status, 400) << body;
    EXPECT_EQ(code_of(refused), "bad_input") << body;
  }
}

}  // namespace
}  // namespace rigproof::server_test
