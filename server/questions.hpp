// The questions that can be asked over HTTP: the same as on the command line, from the same
// declarations, with the same JSON as the answer.
#pragma once

#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "app/given.hpp"
#include "app/workshop.hpp"
#include "server/request.hpp"

namespace rigproof::server {

/// What a question is answered with.
struct Work {
  const app::Workshop& workshop;
  std::function<bool()> stop;            ///< may be empty
  std::function<void(std::string)> say;  ///< how it stands, in words; may be empty
};

/// A file of an answer that is published as a file: the sheet.
struct AnswerFile {
  std::string name, bytes;
};

struct Answer {
  std::string json;  ///< of the schema docs/schema/NAME.schema.json
  std::vector<AnswerFile> files = {};
};

struct Question {
  std::string_view name;
  std::string_view about;
  bool searches = false;                                      ///< may take minutes: has its turn
  Json inputs;                                                ///< JSON Schema
  std::vector<std::pair<std::string, app::GivenKind>> given;  ///< inputs that hold a brief or build
  /// Errors: bad_input where the inputs are not those asked for; nothing is opened yet.
  std::function<Result<void>(const Json& inputs)> check;
  /// A long job. Errors: bad_input of briefs and builds; stopped.
  std::function<Result<Answer>(const Json& inputs, const Work& work)> answer;
};

[[nodiscard]] std::span<const Question> questions();
/// Null for a name that is no question.
[[nodiscard]] const Question* question_named(std::string_view name);

}  // namespace rigproof::server
