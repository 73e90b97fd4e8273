#include "server/questions.hpp"

#include <fmt/format.h>

#include <optional>

#include "app/air_of_build.hpp"
#include "app/asks.hpp"
#include "app/check_catalog.hpp"
#include "app/claims_of_build.hpp"
#include "app/fit_of_build.hpp"
#include "app/frontier.hpp"
#include "app/insist.hpp"
#include "app/make_sheet.hpp"
#include "app/measured_claims.hpp"
#include "app/outlook.hpp"
#include "app/plan_brief.hpp"
#include "app/power_of_build.hpp"
#include "app/progress_words.hpp"
#include "app/repair.hpp"
#include "app/time_limit.hpp"
#include "server/json_inputs.hpp"
#include "sheet/answers_json.hpp"
#include "sheet/json.hpp"

namespace rigproof::server {
namespace {

bool stopped(const Work& work) { return work.stop && work.stop(); }

tl::unexpected<Error> stop_error() { return fail(ErrorCode::stopped, "stopped"); }

// A brief opened for planning, with the job that searches under it.
struct Session {
  Brief brief;
  std::unique_ptr<app::Planning> planning;  // looks at brief
  app::LongJob job;
};

Result<std::unique_ptr<Session>> session_of(const app::Given& given, const Work& work) {
  auto brief = app::open_brief(given, work.workshop.catalog);
  if (!brief) return tl::unexpected(brief.error());
  auto out = std::make_unique<Session>(Session{
      .brief = std::move(*brief), .planning = {}, .job = {.stop = work.stop, .progress = {}}});
  auto planning = app::Planning::start(work.workshop, out->brief);
  if (!planning) return tl::unexpected(planning.error());
  out->planning = std::move(*planning);
  if (work.say)
    out->job.progress = [say = work.say, currency = out->brief.markets.front().budget.currency](
                            const plan::Progress& progress) {
      say(app::progress_words(progress, currency));
    };
  return out;
}

// A build with what was measured, and the brief beside it where there is one.
struct Judged {
  std::optional<app::MeasuredWorkshop> now;
  const app::Workshop* workshop = nullptr;
  BuildFile build;
  std::optional<Brief> brief;
  [[nodiscard]] const Brief* brief_or_null() const { return brief ? &*brief : nullptr; }
};

Result<std::unique_ptr<Judged>> judged(const app::Given& build, const app::Given& brief,
                                       const app::MeasuredInput& measured, const Work& work) {
  auto out = std::make_unique<Judged>();
  out->workshop = &work.workshop;
  if (!measured.empty()) {
    auto now = app::with_measured(work.workshop, measured);
    if (!now) return tl::unexpected(now.error());
    out->workshop = &out->now.emplace(std::move(*now)).workshop;
  }
  auto opened = app::open_build(build, out->workshop->catalog);
  if (!opened) return tl::unexpected(opened.error());
  out->build = std::move(*opened);
  if (!brief.empty()) {
    auto asked = app::open_brief(brief, out->workshop->catalog);
    if (!asked) return tl::unexpected(asked.error());
    out->brief = std::move(*asked);
  }
  return out;
}

void settle(std::vector<Claim>& claims, const Judged& given, const Work& work) {
  if (given.now)
    app::settle_measured(claims, work.workshop.catalog, given.brief_or_null(), given.build,
                         given.now->cells);
}

Result<Answer> answer(const app::PlanAsk& ask, const Work& work) {
  const auto session = session_of(ask.brief, work);
  if (!session) return tl::unexpected(session.error());
  const app::TimeLimit limit(ask.time_limit_s);
  app::Planned planned = app::plan_brief(work.workshop, *(*session)->planning,
                                         {.best = ask.best, .job = limit.within((*session)->job)});
  if (planned.status == plan::Outcome::Status::not_proven && limit.over() && !stopped(work))
    planned.view.proof.stopped_after_s = limit.limit_s();
  return Answer{.json = sheet::plan_json(planned.view)};
}

Result<Answer> answer(const app::InsistAsk& ask, const Work& work) {
  if (ask.parts.empty() && ask.without.empty())
    return bad_input("parts: expected a part to insist on, or one to do without");
  const auto session = session_of(ask.brief, work);
  if (!session) return tl::unexpected(session.error());
  const auto wish = app::wish_of(work.workshop.catalog, ask.parts, ask.without);
  if (!wish) return tl::unexpected(wish.error());
  const app::TimeLimit limit(ask.time_limit_s);
  const app::Insisted insisted =
      app::insist_on(work.workshop, *(*session)->planning, *wish, limit.within((*session)->job));
  return Answer{.json = sheet::insist_json(insisted.view)};
}

Result<Answer> answer(const app::FrontierAsk& ask, const Work& work) {
  const auto session = session_of(ask.brief, work);
  if (!session) return tl::unexpected(session.error());
  auto request = app::frontier_request(ask, (*session)->brief);
  if (!request) return tl::unexpected(request.error());
  const app::TimeLimit limit(ask.time_limit_s);
  request->job = limit.within((*session)->job);
  const app::Frontier frontier = app::frontier_of(work.workshop, *(*session)->planning, *request);
  return Answer{.json = sheet::frontier_json(frontier.view)};
}

Result<Answer> answer(const app::RepairAsk& ask, const Work& work) {
  const auto session = session_of(ask.brief, work);
  if (!session) return tl::unexpected(session.error());
  const auto build = app::open_build(ask.build, work.workshop.catalog);
  if (!build) return tl::unexpected(build.error());
  const app::TimeLimit limit(ask.time_limit_s);
  const app::Repaired repaired = app::repair(work.workshop, *(*session)->planning,
                                             {.build = *build,
                                              .file = ask.build.name,
                                              .most_swaps = ask.most_swaps,
                                              .job = limit.within((*session)->job)});
  return Answer{.json = sheet::repair_json(repaired.view)};
}

Result<Answer> answer(const app::ClaimsAsk& ask, const Work& work) {
  const auto given = judged(ask.build, ask.brief, ask.measured, work);
  if (!given) return tl::unexpected(given.error());
  auto claims = app::claims_of_build((*given)->workshop->catalog, (*given)->brief_or_null(),
                                     (*given)->build, work.stop);
  if (!claims) return tl::unexpected(claims.error());
  if (stopped(work)) return stop_error();
  settle(*claims, **given, work);
  return Answer{.json = sheet::claims_json((*given)->build.name, *claims)};
}

Result<Answer> answer(const app::FitAsk& ask, const Work& work) {
  const auto given = judged(ask.build, ask.brief, ask.measured, work);
  if (!given) return tl::unexpected(given.error());
  const Brief* const brief = (*given)->brief_or_null();
  auto fit = app::fit_of_build(*(*given)->workshop, brief, (*given)->build, work.stop);
  if (!fit) return tl::unexpected(fit.error());
  if (stopped(work)) return stop_error();
  if (const auto& now = (*given)->now)
    app::add_measured(*fit, work.workshop.catalog, brief, (*given)->build,
                      (*given)->workshop->catalog, now->cells);
  return Answer{.json = sheet::fit_json(*fit)};
}

Result<Answer> answer(const app::PowerAsk& ask, const Work& work) {
  const auto given = judged(ask.build, ask.brief, ask.measured, work);
  if (!given) return tl::unexpected(given.error());
  std::optional<BuildFile> beside;
  if (!ask.beside.empty()) {
    auto opened = app::open_build(ask.beside, (*given)->workshop->catalog);
    if (!opened) return tl::unexpected(opened.error());
    beside = std::move(*opened);
  }
  sheet::Power power = app::power_of_build(*(*given)->workshop, (*given)->build,
                                           {.brief = (*given)->brief_or_null(),
                                            .other = beside ? &*beside : nullptr,
                                            .show_work = ask.show_work,
                                            .stop = work.stop});
  if (stopped(work)) return stop_error();
  settle(power.claims, **given, work);
  return Answer{.json = sheet::power_json(power)};
}

Result<Answer> answer(const app::AirAsk& ask, const Work& work) {
  const auto given = judged(ask.build, ask.brief, ask.measured, work);
  if (!given) return tl::unexpected(given.error());
  const sheet::Air air = app::air_of_build(*(*given)->workshop, (*given)->build,
                                           {.brief = (*given)->brief_or_null(),
                                            .speed_frac = ask.speed_percent / 100.0,
                                            .cooler_speed_frac = ask.cooler_speed_percent / 100.0,
                                            .distance_m = ask.distance_m,
                                            .show_work = ask.show_work,
                                            .stop = work.stop});
  if (stopped(work)) return stop_error();
  return Answer{.json = sheet::air_json(air)};
}

Result<Answer> answer(const app::SheetAsk& ask, const Work& work) {
  const auto build = app::open_build(ask.build, work.workshop.catalog);
  if (!build) return tl::unexpected(build.error());
  sheet::Sheet sheet = app::sheet_of_build_alone(work.workshop, *build);
  if (!ask.brief.empty()) {
    const auto session = session_of(ask.brief, work);
    if (!session) return tl::unexpected(session.error());
    // Stopped it is a sheet still: it says that the search for a better build was.
    sheet = app::sheet_of_build(work.workshop, *(*session)->planning, *build, (*session)->job);
  }
  Answer out;
  Json files = Json::array();
  for (app::SheetFile& file : app::sheet_files(sheet)) {
    files.push_back(file.name);
    out.files.push_back({.name = std::move(file.name), .bytes = std::move(file.bytes)});
  }
  out.json = Json{{"schema", "rigproof.sheet/1"}, {"files", files}}.dump();
  return out;
}

Result<Answer> answer(const app::OutlookAsk& ask, const Work& work) {
  const auto session = session_of(ask.brief, work);
  if (!session) return tl::unexpected(session.error());
  const auto outlook =
      app::outlook_of(*(*session)->planning,
                      {.seed = app::seed_of(ask.brief.text.value_or("")), .job = (*session)->job});
  if (!outlook) return tl::unexpected(outlook.error());
  return Answer{.json = app::outlook_json(*outlook)};
}

Result<Answer> answer(const app::CheckAsk& ask, const Work& work) {
  std::optional<Brief> brief;
  if (!ask.brief.empty()) {
    auto opened = app::open_brief(ask.brief, work.workshop.catalog);
    if (!opened) return tl::unexpected(opened.error());
    brief = std::move(*opened);
  }
  const auto state = app::check_catalog(
      work.workshop, {.brief = brief ? &*brief : nullptr,
                      .job = {.stop = work.stop, .report = [&](std::size_t done, std::size_t all) {
                                if (work.say) work.say(app::counting_words(done, all));
                              }}});
  if (!state) return tl::unexpected(state.error());
  return Answer{.json = app::check_json(*state, {.catalog = work.workshop.catalog,
                                                 .top = static_cast<std::size_t>(ask.top)})};
}

template <class Ask>
Result<Ask> read(const Json& json) {
  Ask ask;
  JsonInputs inputs(json);
  declare(inputs, ask);
  if (const auto done = inputs.finish(); !done) return tl::unexpected(done.error());
  return ask;
}

template <class Ask>
Question question() {
  Ask ask;
  SchemaInputs inputs;
  declare(inputs, ask);
  return {.name = Ask::name,
          .about = Ask::about,
          .searches = Ask::searches,
          .inputs = inputs.schema(),
          .given = inputs.given(),
          .check = [](const Json& json) -> Result<void> {
            const auto read_ask = read<Ask>(json);
            if (!read_ask) return tl::unexpected(read_ask.error());
            return {};
          },
          .answer = [](const Json& json, const Work& work) -> Result<Answer> {
            const auto read_ask = read<Ask>(json);
            if (!read_ask) return tl::unexpected(read_ask.error());
            return answer(*read_ask, work);
          }};
}

}  // namespace

std::span<const Question> questions() {
  static const std::vector<Question> all = {
      question<app::PlanAsk>(),   question<app::InsistAsk>(), question<app::FrontierAsk>(),
      question<app::RepairAsk>(), question<app::ClaimsAsk>(), question<app::FitAsk>(),
      question<app::PowerAsk>(),  question<app::AirAsk>(),    question<app::SheetAsk>(),
      question<app::CheckAsk>(),  question<app::OutlookAsk>()};
  return all;
}

const Question* question_named(std::string_view name) {
  for (const Question& question : questions())
    if (question.name == name) return &question;
  return nullptr;
}

}  // namespace rigproof::server
