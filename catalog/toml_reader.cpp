#include "catalog/toml_reader.hpp"

// Header-only and without exceptions, whatever the package's own flags say: so the parser is
// compiled with our sanitizers and fuzzed with our instrumentation, and no library has to be
// installed to run.
#undef TOML_HEADER_ONLY
#undef TOML_SHARED_LIB
#define TOML_HEADER_ONLY 1
#define TOML_EXCEPTIONS 0
#define TOML_ENABLE_FORMATTERS 0
#define TOML_MAX_NESTED_VALUES 16
#include <fmt/format.h>
#include <toml++/toml.h>

#include <algorithm>

#include "base/contract.hpp"
#include "base/text.hpp"

namespace rigproof {
namespace {

static_assert(TOML_MAX_NESTED_VALUES == max_toml_nesting);

constexpr bool continues_character(char c) {
  return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U;
}

TomlPlace place_of_byte(std::string_view bytes, std::size_t at) {
  TomlPlace place{1, 1};
  for (std::size_t i = 0; i < at; ++i) {
    if (bytes[i] == '\n')
      place = {place.line + 1, 1};
    else if (!continues_character(bytes[i]))
      ++place.column;
  }
  return place;
}

// Lines of the file, to show what is written at a place.
class Lines {
 public:
  explicit Lines(std::string_view bytes) {
    for (std::size_t at = 0; at <= bytes.size();) {
      const std::size_t end = std::min(bytes.find('\n', at), bytes.size());
      lines_.push_back(bytes.substr(at, end - at));
      at = end + 1;
    }
    if (lines_.front().starts_with("\xEF\xBB\xBF")) lines_.front().remove_prefix(3);
  }
  [[nodiscard]] std::string_view line(std::size_t number) const {
    return number >= 1 && number <= lines_.size() ? lines_[number - 1] : std::string_view{};
  }
  // From column `from` to before column `to`; to the line's end when the value goes on below.
  [[nodiscard]] std::string written(const toml::source_region& region) const {
    const std::string_view text = line(region.begin.line);
    const std::size_t from = byte_of(text, region.begin.column);
    const std::size_t to =
        region.end.line == region.begin.line ? byte_of(text, region.end.column) : text.size();
    return excerpt(trim(text.substr(from, std::max(from, to) - from)));
  }

 private:
  static std::size_t byte_of(std::string_view text, std::size_t column) {
    std::size_t at = 0;
    for (std::size_t c = 1; c < column && at < text.size(); ++c) {
      ++at;
      while (at < text.size() && continues_character(text[at])) ++at;
    }
    return at;
  }
  std::vector<std::string_view> lines_;
};

// The parser bounds the depth of values but not of dotted keys, whose tables are freed by
// recursion. Skips strings and comments and counts the dots of each run between other signs.
class DotCounter {
 public:
  explicit DotCounter(std::string_view bytes) : bytes_(bytes) {}
  /// Byte at which a key gets too long, if any does.
  std::optional<std::size_t> too_long() {
    int dots = 0;
    while (at_ < bytes_.size()) {
      const char c = bytes_[at_];
      if (c == '#')
        at_ = std::min(bytes_.find('\n', at_), bytes_.size());
      else if (c == '"' || c == '\'')
        skip_string(c);
      else {
        if (c == '.') ++dots;
        if (c == '\n' || c == '=' || c == ',' || c == '[' || c == '{') dots = 0;
        if (dots >= max_toml_key_names) return at_;
        ++at_;
      }
    }
    return {};
  }

 private:
  void skip_string(char quote) {
    const std::string three(3, quote);
    const bool many = bytes_.substr(at_).starts_with(three);
    at_ += many ? 3 : 1;
    while (at_ < bytes_.size()) {
      if (quote == '"' && bytes_[at_] == '\\') {
        at_ = std::min(at_ + 2, bytes_.size());
      } else if (!many && bytes_[at_] == '\n') {
        return;  // broken string: the parser will say so
      } else if (!many && bytes_[at_] == quote) {
        ++at_;
        return;
      } else if (many && bytes_.substr(at_).starts_with(three)) {
        at_ += 3;
        for (int i = 0; i < 2 && at_ < bytes_.size() && bytes_[at_] == quote; ++i) ++at_;
        return;
      } else {
        ++at_;
      }
    }
  }
  std::string_view bytes_;
  std::size_t at_ = 0;
};

TomlPlace place_of(const toml::source_region& region) {
  return {region.begin.line, region.begin.column};
}

TomlNode convert(const toml::node& node, const Lines& lines);

void convert_children(const toml::node& node, const Lines& lines, TomlNode& out) {
  if (const auto* array = node.as_array()) {
    for (const toml::node& item : *array) out.children.push_back(convert(item, lines));
  } else if (const auto* table = node.as_table()) {
    for (const auto& [key, value] : *table) {
      TomlNode& child = out.children.emplace_back(convert(value, lines));
      child.key = key.str();
      child.key_place = place_of(key.source());
    }
    // The library sorts by name; a person reads from top to bottom.
    std::ranges::stable_sort(out.children, [](const TomlNode& a, const TomlNode& b) {
      return std::pair(a.key_place.line, a.key_place.column) <
             std::pair(b.key_place.line, b.key_place.column);
    });
  }
}

TomlNode convert(const toml::node& node, const Lines& lines) {
  TomlNode out;
  out.place = place_of(node.source());
  using Type = TomlNode::Type;
  switch (node.type()) {
    case toml::node_type::none:
      break;
    case toml::node_type::table:
      out.type = Type::table;
      break;
    case toml::node_type::array:
      out.type = Type::array;
      break;
    case toml::node_type::string:
      out.type = Type::text;
      out.text = node.as_string()->get();
      break;
    case toml::node_type::integer:
      out.type = Type::whole;
      out.whole = node.as_integer()->get();
      break;
    case toml::node_type::floating_point:
      out.type = Type::real;
      out.real = node.as_floating_point()->get();
      break;
    case toml::node_type::boolean:
      out.type = Type::flag;
      out.flag = node.as_boolean()->get();
      break;
    case toml::node_type::date: {
      const toml::date date = node.as_date()->get();
      out.type = Type::date;
      out.date = make_date(date.year, date.month, date.day);
      break;
    }
    case toml::node_type::time:
    case toml::node_type::date_time:
      out.type = Type::moment;
      break;
  }
  if (out.type == Type::text)
    out.written = excerpt(out.text);
  else if (out.type != Type::table)
    out.written = lines.written(node.source());
  convert_children(node, lines, out);
  return out;
}

}  // namespace

const TomlNode* TomlNode::find(std::string_view name) const {
  const auto at = std::ranges::find(children, name, &TomlNode::key);
  return at == children.end() ? nullptr : &*at;
}

std::string_view name_of(TomlNode::Type type) {
  switch (type) {
    case TomlNode::Type::table:
      return "a table";
    case TomlNode::Type::array:
      return "a list";
    case TomlNode::Type::text:
      return "a string";
    case TomlNode::Type::whole:
      return "a whole number";
    case TomlNode::Type::real:
      return "a number";
    case TomlNode::Type::flag:
      return "true or false";
    case TomlNode::Type::date:
      return "a date";
    case TomlNode::Type::moment:
      return "a time of day";
  }
  RP_EXPECT(false);
  return {};
}

std::optional<TomlNode> read_toml(std::string_view bytes, const std::string& file,
                                  Complaints& complaints) {
  const auto complain = [&](TomlPlace place, std::string what, std::string expected,
                            std::string text) {
    complaints.add(
        {file, place.line, place.column, std::move(what), std::move(expected), std::move(text)});
    return std::nullopt;
  };
  if (bytes.size() > max_toml_bytes)
    return complain({}, fmt::format("the file has {} bytes", bytes.size()),
                    fmt::format("at most {}", max_toml_bytes), "");
  if (const auto bad = first_bad_utf8(bytes))
    return complain(place_of_byte(bytes, *bad), "not UTF-8", "the file saved as UTF-8",
                    fmt::format("byte 0x{:02X}", static_cast<unsigned char>(bytes[*bad])));
  if (const auto at = DotCounter(bytes).too_long())
    return complain(place_of_byte(bytes, *at), "a dotted key is too long",
                    fmt::format("at most {} names", max_toml_key_names), "");

  const Lines lines(bytes);
  const toml::parse_result parsed = toml::parse(bytes, std::string_view{});
  if (!parsed) {
    const TomlPlace place = place_of(parsed.error().source());
    return complain(place, fmt::format("not TOML: {}", excerpt(parsed.error().description(), 200)),
                    "", excerpt(trim(lines.line(place.line))));
  }
  return convert(parsed.table(), lines);
}

std::string toml_string(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\')
      (out += '\\') += c;
    else if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F)
      out += fmt::format("\\u{:04X}", static_cast<unsigned>(c));
    else
      out += c;
  }
  return out + '"';
}

std::string toml_key(std::string_view name) {
  const bool bare = !name.empty() && std::ranges::all_of(name, [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
           c == '_';
  });
  return bare ? std::string(name) : toml_string(name);
}

}  // namespace rigproof
