#include "catalog/build.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/contract.hpp"
#include "base/text.hpp"
#include "catalog/key_reader.hpp"

namespace rigproof {
namespace {

using NodeType = TomlNode::Type;

// Engines ask for "the" part of these kinds; a memory row is a kit as sold.
constexpr bool only_one(Kind kind) {
  switch (kind) {
    case Kind::cpu:
    case Kind::board:
    case Kind::memory:
    case Kind::gpu:
    case Kind::cooler:
    case Kind::chassis:
    case Kind::psu:
      return true;
    case Kind::storage:
    case Kind::fan:
    case Kind::display:
    case Kind::other:
      return false;
  }
  return false;
}

struct Entry {
  const TomlNode* id;
  Row row;
  int count;
};

// One entry: "id" or { id = "id", count = 2 }.
std::optional<Entry> read_entry(const FileContext& context, const TomlNode& node, Kind kind) {
  const TomlNode* id = &node;
  int count = 1;
  if (node.type == NodeType::table) {
    const KeyReader entry(context, node, "*", "");
    entry.refuse_unknown_keys();
    count = entry.whole("count").value_or(1);
    if (!entry.has("id")) return {};
    id = node.find("id");
  }
  const auto part = check_part(context, *id, kind);
  if (!part) return {};
  return Entry{id, part->row, count};
}

void add_entry(const FileContext& context, const Entry& entry, Kind kind, Build& build) {
  const Row row = entry.row;
  const auto refuse = [&](std::string what, std::string expected) {
    context.complain(entry.id->place, std::move(what), std::move(expected), entry.id->written);
  };
  const auto there = build.of(kind);
  if (std::ranges::find(there, row, &Chosen::row) != there.end())
    return refuse("this part stands twice", "it once, as { id = \"...\", count = 2 }");
  if (only_one(kind) && (entry.count > 1 || !there.empty()))
    return refuse(fmt::format("more than one {}", name_of(kind)),
                  fmt::format("one {} in a build", name_of(kind)));
  if (!build.add(kind, row, entry.count))
    refuse(fmt::format("too many different parts of kind {}", name_of(kind)),
           fmt::format("at most {}", Build::most_of_a_kind));
}

void read_parts(const KeyReader& root, Build& build) {
  for (const TomlNode& child : root.node().children) {
    const auto kind = find_kind(child.key);
    if (!kind) continue;
    const bool list = child.type == NodeType::array;
    if (list && child.children.empty())
      root.context().complain(child.place, fmt::format("{}: the list is empty", child.key),
                              "an id, or no such key at all", child.written);
    if (!list) {
      if (const auto entry = read_entry(root.context(), child, *kind))
        add_entry(root.context(), *entry, *kind, build);
      continue;
    }
    for (const TomlNode& item : child.children)
      if (const auto entry = read_entry(root.context(), item, *kind))
        add_entry(root.context(), *entry, *kind, build);
  }
}

void read_mounts(const KeyReader& root, BuildFile& file) {
  const auto mounts = root.table("mounts", "mounts");
  if (!mounts) return;
  const FileContext& context = root.context();
  std::vector<std::string_view> drives;
  for (const Chosen& drive : file.build.of(Kind::storage))
    drives.push_back(context.catalog.id({Kind::storage, drive.row}));
  mounts->refuse_unknown_keys(drives);
  for (const TomlNode& child : mounts->node().children) {
    const bool known = child.key == "cooler" || child.key == "fan" ||
                       std::ranges::find(drives, child.key) != drives.end();
    if (!known) continue;
    if (child.type != NodeType::text || trim(child.text).empty() || child.text.size() > 64)
      context.complain(child.place, fmt::format("{}: not the name of a place", child.key),
                       "a string: a mount of the case or a socket of the board", child.written);
    else
      file.setup.mounts.emplace(child.key, child.text);
  }
}

std::string written_parts(std::span<const Chosen> parts, Kind kind, const Catalog& catalog) {
  std::string list;
  for (const Chosen& part : parts) {
    const std::string id = toml_string(catalog.id({kind, part.row}));
    if (!list.empty()) list += ", ";
    list += part.count == 1 ? id : fmt::format("{{ id = {}, count = {} }}", id, part.count);
  }
  return parts.size() == 1 && parts.front().count == 1 ? list : '[' + list + ']';
}

}  // namespace

bool Build::add(Kind kind, Row row, int count) {
  RP_EXPECT(row != no_row && count >= 1);
  const auto k = static_cast<std::size_t>(kind);
  if (counts_[k] == most_of_a_kind) return false;
  parts_[k][counts_[k]++] = {row, count};
  return true;
}

bool operator==(const Build& a, const Build& b) {
  for (int k = 0; k < kind_count; ++k)
    if (!std::ranges::equal(a.of(static_cast<Kind>(k)), b.of(static_cast<Kind>(k)))) return false;
  return true;
}

tl::expected<BuildFile, Complaints> read_build(std::string_view toml, const std::string& file,
                                               const Catalog& catalog) {
  Complaints complaints;
  const auto tree = read_toml(toml, file, complaints);
  if (!tree) return tl::unexpected(std::move(complaints));
  const FileContext context{file, keys::build_sections, keys::build_keys, catalog, complaints};
  const KeyReader root(context, *tree, "", "");
  std::array<std::string_view, kind_count> kinds;
  for (int k = 0; k < kind_count; ++k)
    kinds[static_cast<std::size_t>(k)] = name_of(static_cast<Kind>(k));
  root.refuse_unknown_keys(kinds);
  BuildFile out;
  out.name = root.text("name").value_or("");
  read_parts(root, out.build);
  read_mounts(root, out);
  out.setup.fans = read_fan_settings(root, out.build);
  if (!complaints.empty()) return tl::unexpected(std::move(complaints));
  return out;
}

std::string write_build(const BuildFile& build, const Catalog& catalog) {
  std::string out = fmt::format("name = {}\n", toml_string(build.name));
  for (int k = 0; k < kind_count; ++k) {
    const auto kind = static_cast<Kind>(k);
    const auto parts = build.build.of(kind);
    if (!parts.empty())
      out += fmt::format("{} = {}\n", name_of(kind), written_parts(parts, kind, catalog));
  }
  if (!build.setup.mounts.empty()) out += "\n[mounts]\n";
  for (const auto& [what, place] : build.setup.mounts)
    out += fmt::format("{} = {}\n", toml_key(what), toml_string(place));
  return out + write_fan_settings(build.setup.fans);
}

}  // namespace rigproof
