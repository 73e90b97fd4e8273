#include "catalog/key_reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "base/contract.hpp"
#include "base/text.hpp"
#include "catalog/countries.hpp"

namespace rigproof {
namespace {

using NodeType = TomlNode::Type;

std::vector<std::string_view> split(std::string_view text, char separator) {
  std::vector<std::string_view> out;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(separator), text.size());
    out.push_back(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return out;
}

std::vector<std::string_view> ids_of(const Catalog& catalog, int table) {
  std::vector<std::string_view> ids(catalog.rows(table));
  for (Row row = 0; row < catalog.rows(table); ++row)
    ids[row] = catalog.word({static_cast<std::uint8_t>(table), 0}, row);
  return ids;
}

bool has_control_character(std::string_view text) {
  return std::ranges::any_of(
      text, [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; });
}

// Digits only, at most five: enough for pixels.
std::optional<int> parse_pixels(std::string_view text) {
  int value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (text.empty() || text.size() > 5 || error != std::errc{} || end != text.data() + text.size() ||
      value < 0)
    return {};
  return value;
}

bool within(const KeySpec& spec, double value) {  // NaN is never within
  if (spec.min == 0.0 && spec.max == 0.0) return std::isfinite(value);
  return (spec.more_than_min ? value > spec.min : value >= spec.min) && value <= spec.max;
}

// `what: expected that`, as errors of the base layer say it, in its two halves.
std::pair<std::string, std::string> halves(const std::string& message) {
  constexpr std::string_view between = ": expected ";
  const std::size_t at = message.find(between);
  if (at == std::string::npos) return {message, ""};
  return {message.substr(0, at), message.substr(at + between.size())};
}

std::string bounds_and_unit(const KeySpec& spec) {
  return fmt::format("{}{}{}", bounds_text(spec), spec.unit.empty() ? "" : " ", spec.unit);
}

}  // namespace

void FileContext::complain(TomlPlace place, std::string what, std::string expected,
                           std::string text) const {
  complaints.add(
      {file, place.line, place.column, std::move(what), std::move(expected), std::move(text)});
}

void FileContext::remember(const std::string& path, TomlPlace place) const {
  if (lines != nullptr) lines->emplace(path, static_cast<int>(place.line));
}

std::string expected_name(std::string_view word, std::span<const std::string_view> candidates,
                          std::string_view of_what) {
  if (const auto near = nearest(word, candidates))
    return fmt::format("\"{}\", the nearest {}", *near, of_what);
  if (candidates.empty()) return fmt::format("a {}, of which there is none", of_what);
  constexpr std::size_t most = 12;
  std::string list;
  for (std::size_t i = 0; i < std::min(most, candidates.size()); ++i)
    list += fmt::format("{}{}", i == 0 ? "" : ", ", candidates[i]);
  return fmt::format("one {} such as {}", of_what, list) +
         (candidates.size() > most ? ", ..." : "");
}

KeyReader::KeyReader(const FileContext& context, const TomlNode& table, std::string_view section,
                     std::string path)
    : context_(&context), table_(&table), section_(section), path_(std::move(path)) {
  RP_EXPECT(table.type == NodeType::table);
  const auto at = std::ranges::find(context.sections, section, &SectionSpec::name);
  if (at != context.sections.end()) written_ = at->written;
  if (section.empty()) written_ = "the file";
}

void KeyReader::refuse_unknown_keys(std::span<const std::string_view> also) const {
  std::vector<std::string_view> known(also.begin(), also.end());
  for (const KeySpec& spec : context_->keys)
    if (spec.section == section_) known.push_back(spec.name);
  const std::string inside = section_.empty() ? "" : std::string(section_) + '.';
  for (const SectionSpec& spec : context_->sections) {
    if (!spec.name.starts_with(inside) || spec.name == section_) continue;
    const std::string_view name = spec.name.substr(inside.size());
    if (name.find('.') == std::string_view::npos) known.push_back(name);
  }
  std::erase_if(known, [](std::string_view name) {  // what stands for other names is none itself
    return name == "*" || name == "KIND" || name == "DRIVE" || name.empty();
  });
  for (const TomlNode& child : table_->children) {
    if (std::ranges::find(known, child.key) != known.end()) continue;
    context_->complain(child.key_place, fmt::format("unknown key in {}", written_),
                       expected_name(child.key, known, "key"), excerpt(child.key));
  }
}

void KeyReader::complain(const TomlNode& node, const KeySpec& spec, std::string what,
                         std::string expected) const {
  context_->complain(node.place, fmt::format("{}: {}", spec.name, what), std::move(expected),
                     node.written);
}

KeyReader::Found KeyReader::find(std::string_view name) const {
  const auto spec = std::ranges::find_if(context_->keys, [&](const KeySpec& key) {
    return key.section == section_ && key.name == name;
  });
  RP_EXPECT(spec != context_->keys.end());
  const TomlNode* node = table_->find(name);
  if (node != nullptr)
    context_->remember(path_.empty() ? std::string(name) : fmt::format("{}.{}", path_, name),
                       node->key_place);
  else if (spec->required)
    context_->complain(table_->place, fmt::format("{} has no {}", written_, name),
                       std::string(spec->meaning), "");
  return {&*spec, node};
}

bool KeyReader::has(std::string_view name) const { return find(name).node != nullptr; }

// A string, with the kindest words for what was written instead.
KeyReader::Found KeyReader::find_text(std::string_view name) const {
  Found found = find(name);
  if (found.node == nullptr || found.node->type == NodeType::text) return found;
  const bool number = found.node->type == NodeType::whole || found.node->type == NodeType::real;
  const bool exact = found.spec->type == KeyType::money || found.spec->type == KeyType::rate;
  complain(*found.node, *found.spec, fmt::format("is {}", name_of(found.node->type)),
           number && exact
               ? fmt::format("it exact: write it as a string, \"{}\"", found.node->written)
               : "a string");
  found.node = nullptr;
  return found;
}

std::optional<std::string> KeyReader::text(std::string_view name) const {
  const auto [spec, node] = find_text(name);
  if (node == nullptr) return {};
  if (!spec->choices.empty()) {
    const auto words = split(spec->choices, '|');
    if (std::ranges::find(words, node->text) != words.end()) return node->text;
    complain(*node, *spec, "not a word it knows", choices_text(spec->choices));
    return {};
  }
  constexpr std::size_t longest = 500;
  if (trim(node->text).empty() || node->text.size() > longest ||
      has_control_character(node->text)) {
    complain(*node, *spec, "is empty, too long or more than a line",
             fmt::format("one line of 1 to {} bytes", longest));
    return {};
  }
  return node->text;
}

std::vector<std::string> KeyReader::choices(std::string_view name) const {
  const auto [spec, node] = find(name);
  std::vector<std::string> out;
  if (node == nullptr) return out;
  const std::string expected =
      fmt::format("a list of at least one of {}", choices_text(spec->choices));
  if (node->type != NodeType::array || node->children.empty()) {
    complain(*node, *spec,
             node->type == NodeType::array ? "is empty" : fmt::format("is {}", name_of(node->type)),
             expected);
    return out;
  }
  const auto words = split(spec->choices, '|');
  for (const TomlNode& item : node->children) {
    if (item.type != NodeType::text || std::ranges::find(words, item.text) == words.end())
      complain(item, *spec, "not a word it knows", choices_text(spec->choices));
    else if (std::ranges::find(out, item.text) != out.end())
      complain(item, *spec, "a word stands twice", "each at most once");
    else
      out.push_back(item.text);
  }
  return out;
}

std::optional<double> KeyReader::number(std::string_view name) const {
  const auto [spec, node] = find(name);
  if (node == nullptr) return {};
  if (node->type != NodeType::whole && node->type != NodeType::real) {
    complain(*node, *spec, fmt::format("is {}", name_of(node->type)),
             fmt::format("a number, {}, without quotes", bounds_and_unit(*spec)));
    return {};
  }
  const double value = node->type == NodeType::real ? node->real : static_cast<double>(node->whole);
  if (within(*spec, value)) return value;
  complain(*node, *spec, "is out of bounds", bounds_and_unit(*spec));
  return {};
}

std::optional<int> KeyReader::whole(std::string_view name) const {
  const auto [spec, node] = find(name);
  if (node == nullptr) return {};
  if (node->type != NodeType::whole) {
    complain(*node, *spec, fmt::format("is {}", name_of(node->type)),
             fmt::format("a whole number, {}", bounds_and_unit(*spec)));
    return {};
  }
  if (within(*spec, static_cast<double>(node->whole))) return static_cast<int>(node->whole);
  complain(*node, *spec, "is out of bounds", bounds_and_unit(*spec));
  return {};
}

std::optional<bool> KeyReader::flag(std::string_view name) const {
  const auto [spec, node] = find(name);
  if (node == nullptr) return {};
  if (node->type == NodeType::flag) return node->flag;
  complain(*node, *spec, fmt::format("is {}", name_of(node->type)),
           "true or false, without quotes");
  return {};
}

std::optional<Date> KeyReader::date(std::string_view name) const {
  const auto [spec, node] = find(name);
  if (node == nullptr) return {};
  std::optional<Date> date;
  if (node->type == NodeType::date) date = node->date;
  if (node->type == NodeType::text) date = parse_date(node->text);
  if (!date)
    complain(*node, *spec, "is not a day", "a day from 1900 to 2199 as YYYY-MM-DD, without a time");
  return date;
}

std::optional<Money> KeyReader::money(std::string_view name,
                                      const std::optional<Currency>& currency) const {
  const auto [spec, node] = find_text(name);
  if (node == nullptr || !currency) return {};
  const auto money = parse_money(node->text, *currency);
  if (!money) {
    const auto [what, expected] = halves(money.error().message);
    complain(*node, *spec, what, expected);
    return {};
  }
  if (money->minor > 0 || (money->minor == 0 && !spec->more_than_min)) return *money;
  complain(*node, *spec, "is out of bounds", spec->more_than_min ? "more than 0" : "at least 0");
  return {};
}

std::optional<DecimalRate> KeyReader::rate(std::string_view name) const {
  const auto [spec, node] = find_text(name);
  if (node == nullptr) return {};
  const auto rate = parse_rate(node->text);
  if (rate) return *rate;
  const auto [what, expected] = halves(rate.error().message);
  complain(*node, *spec, what, expected);
  return {};
}

std::optional<std::string> KeyReader::market(std::string_view name) const {
  const auto [spec, node] = find_text(name);
  if (node == nullptr) return {};
  if (is_country(node->text)) return node->text;
  // Codes that people use for the country though ISO 3166-1 does not assign them (from memory).
  const std::string_view meant = node->text == "UK" ? "GB" : node->text == "EL" ? "GR" : "";
  complain(*node, *spec, "is not a country's code",
           meant.empty() ? "two capital letters of ISO 3166-1" : fmt::format("\"{}\"", meant));
  return {};
}

std::optional<Currency> KeyReader::currency(std::string_view name) const {
  const auto [spec, node] = find_text(name);
  if (node == nullptr) return {};
  const auto currency = parse_currency(node->text);
  if (!currency)
    complain(*node, *spec, "is not a currency in use", "three capital letters of ISO 4217");
  return currency;
}

std::optional<Pixels> KeyReader::resolution(std::string_view name) const {
  const auto [spec, node] = find_text(name);
  if (node == nullptr) return {};
  // The bounds are those of the display table, so that every display can be asked for.
  constexpr const ColumnSpec& across = rigproof::spec(column("display", "width_px"));
  constexpr const ColumnSpec& down = rigproof::spec(column("display", "height_px"));
  const std::size_t x = std::min(node->text.find('x'), node->text.size());
  const auto width = parse_pixels(std::string_view(node->text).substr(0, x));
  const auto height =
      parse_pixels(std::string_view(node->text).substr(std::min(x + 1, node->text.size())));
  if (width && height && *width >= across.min && *width <= across.max && *height >= down.min &&
      *height <= down.max)
    return Pixels{*width, *height};
  complain(*node, *spec, "is not a resolution",
           fmt::format("such as \"3840x2160\", {} to {} across and {} to {} down", across.min,
                       across.max, down.min, down.max));
  return {};
}

std::optional<std::string> KeyReader::title(std::string_view name) const {
  const auto [spec, node] = find_text(name);
  if (node == nullptr) return {};
  if (context_->catalog.find_row(rigproof::table("titles"), node->text)) return node->text;
  complain(
      *node, *spec, "no such title in the catalog",
      expected_name(node->text, ids_of(context_->catalog, rigproof::table("titles")), "title"));
  return {};
}

std::optional<std::string> KeyReader::part(std::string_view name, Kind kind) const {
  const auto [spec, node] = find(name);
  if (node == nullptr || !check_part(*context_, *node, kind)) return {};
  return node->text;
}

std::optional<KeyReader> KeyReader::table(std::string_view name, std::string_view section) const {
  const TomlNode* node = table_->find(name);
  if (node == nullptr) return {};
  const std::string path = path_.empty() ? std::string(name) : fmt::format("{}.{}", path_, name);
  if (node->type == NodeType::table) {
    context_->remember(path, node->key_place);
    return KeyReader(*context_, *node, section, path);
  }
  const auto at = std::ranges::find(context_->sections, section, &SectionSpec::name);
  RP_EXPECT(at != context_->sections.end());
  context_->complain(node->place, fmt::format("{}: is {}", excerpt(name), name_of(node->type)),
                     fmt::format("a table: {}", at->written), node->written);
  return {};
}

std::vector<const TomlNode*> KeyReader::tables(std::string_view name,
                                               std::string_view section) const {
  std::vector<const TomlNode*> out;
  const TomlNode* node = table_->find(name);
  if (node == nullptr) return out;
  const auto at = std::ranges::find(context_->sections, section, &SectionSpec::name);
  RP_EXPECT(at != context_->sections.end());
  const auto refuse = [&](const TomlNode& wrong) {
    context_->complain(wrong.place, fmt::format("{}: is {}", name, name_of(wrong.type)),
                       fmt::format("a list of tables: {}, with double brackets", at->written),
                       wrong.written);
  };
  if (node->type != NodeType::array) {
    refuse(*node);
    return out;
  }
  for (const TomlNode& item : node->children) {
    if (item.type == NodeType::table)
      out.push_back(&item);
    else
      refuse(item);
  }
  return out;
}

std::optional<PartRef> check_part(const FileContext& context, const TomlNode& node, Kind kind) {
  if (node.type != NodeType::text) {
    context.complain(node.place, fmt::format("{}: is {}", name_of(kind), name_of(node.type)),
                     "a string: the id of a part", node.written);
    return {};
  }
  const auto found = context.catalog.find_part(node.text);
  if (found && found->kind == kind) return found;
  if (found) {
    context.complain(node.place, fmt::format("is a part of kind {}", name_of(found->kind)),
                     fmt::format("one of kind {}", name_of(kind)), node.written);
    return {};
  }
  context.complain(node.place, fmt::format("no such {} in the catalog", name_of(kind)),
                   expected_name(node.text, ids_of(context.catalog, table_of(kind)),
                                 fmt::format("{} id", name_of(kind))),
                   node.written);
  return {};
}

}  // namespace rigproof
