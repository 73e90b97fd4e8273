// The demo's catalog, its briefs and builds, opened for a test: what cannot be opened ends it.
#pragma once

#include <stdexcept>
#include <string>
#include <utility>

#include "app/workshop.hpp"

namespace rigproof::test_support {

template <class Value>
[[nodiscard]] Value opened(Result<Value> result) {
  if (!result) throw std::runtime_error(result.error().message);
  return std::move(*result);
}

[[nodiscard]] inline const app::Workshop& demo() {
  static const app::Workshop workshop = opened(app::open_workshop("demo/catalog"));
  return workshop;
}

/// In: the file's name without folder and ending.
[[nodiscard]] inline Brief demo_brief(const std::string& name) {
  return opened(
      app::open_brief(app::Given{.name = "demo/briefs/" + name + ".toml"}, demo().catalog));
}

[[nodiscard]] inline BuildFile demo_build(const std::string& name) {
  return opened(
      app::open_build(app::Given{.name = "demo/builds/" + name + ".toml"}, demo().catalog));
}

}  // namespace rigproof::test_support
