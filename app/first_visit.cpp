#include "app/first_visit.hpp"

#include <algorithm>
#include <filesystem>

#include "app/files.hpp"
#include "catalog/toml_reader.hpp"

namespace rigproof::app {
namespace {

namespace fs = std::filesystem;

// The files themselves; of a folder its *.toml, sorted.
Result<std::vector<fs::path>> listed(const std::vector<std::string>& given) {
  std::vector<fs::path> out;
  for (const std::string& one : given) {
    std::error_code error;
    if (!fs::is_directory(one, error)) {
      out.emplace_back(one);
      continue;
    }
    std::vector<fs::path> inside;
    for (fs::directory_iterator at(one, error), end; !error && at != end; at.increment(error))
      if (at->path().extension() == ".toml") inside.push_back(at->path());
    if (error) return fail(ErrorCode::io, one + ": " + error.message());
    std::ranges::sort(inside);
    out.insert(out.end(), inside.begin(), inside.end());
  }
  return out;
}

struct Called {
  store::DocumentKind kind = store::DocumentKind::build;
  std::string name;
};

// By what the text says of itself; by the name of its file where it says nothing.
Called called(const fs::path& file, const std::string& text) {
  Called out{.kind = store::DocumentKind::build, .name = file.stem().string()};
  Complaints ignored;
  const auto root = read_toml(text, file.string(), ignored);
  if (!root) {
    if (text.find("[brief]") != std::string::npos) out.kind = store::DocumentKind::brief;
    return out;
  }
  const TomlNode* brief = root->find("brief");
  if (brief != nullptr) out.kind = store::DocumentKind::brief;
  const TomlNode* name = (brief != nullptr ? *brief : *root).find("name");
  if (name != nullptr && name->type == TomlNode::Type::text && !name->text.empty())
    out.name = name->text;
  return out;
}

}  // namespace

Result<std::size_t> add_first_documents(store::Store& store, const std::vector<std::string>& files,
                                        store::Instant now) {
  const auto paths = listed(files);
  if (!paths) return tl::unexpected(paths.error());
  std::size_t added = 0;
  for (const fs::path& path : *paths) {
    const auto text = read_file(path);
    if (!text) return tl::unexpected(text.error());
    const Called is = called(path, *text);
    const auto there = store.documents(is.kind, store::Listed::deleted_too);
    if (!there) return tl::unexpected(there.error());
    if (std::ranges::any_of(*there, [&](const auto& info) { return info.name == is.name; }))
      continue;
    const store::Instant saved_at{now.since_1970_s - static_cast<std::int64_t>(added)};
    const auto done =
        store.add_document({.kind = is.kind, .name = is.name, .text = *text, .saved_at = saved_at});
    if (!done) return fail(done.error().code, path.string() + ": " + done.error().message);
    ++added;
  }
  return added;
}

}  // namespace rigproof::app
