// Reads one table of a brief or build file key by key, each checked against its declared KeySpec.
//
// A value that is missing, of the wrong type or out of bounds is complained of once, with its
// place, and comes back as nullopt; reading goes on, so that all complaints of a file come in one
// go.
#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.hpp"
#include "base/money.hpp"
#include "catalog/brief_keys.hpp"
#include "catalog/catalog.hpp"
#include "catalog/complaints.hpp"
#include "catalog/toml_reader.hpp"

namespace rigproof {

/// What is shared by all tables of one file.
struct FileContext {
  const std::string& file;
  std::span<const SectionSpec> sections;
  std::span<const KeySpec> keys;
  const Catalog& catalog;
  Complaints& complaints;
  std::map<std::string, int>* lines =
      nullptr;  ///< dotted path -> line of every key set; may be absent

  void complain(TomlPlace place, std::string what, std::string expected, std::string text) const;
  void remember(const std::string& path, TomlPlace place) const;
};

struct Pixels {
  int width_px = 0;
  int height_px = 0;
};

class KeyReader {
 public:
  /// `table` must be a table; `path` is the dotted path of its keys in Brief::lines ("" for none).
  KeyReader(const FileContext& context, const TomlNode& table, std::string_view section,
            std::string path);

  /// Complains of every key the section does not know. `also`: names that stand for KIND, RULE,
  /// DRIVE.
  void refuse_unknown_keys(std::span<const std::string_view> also = {}) const;

  /// The key is there, whatever its type; complains when it is required and is not.
  [[nodiscard]] bool has(std::string_view name) const;
  // One getter per type. The name must be declared for the section; else it is a bug (contract).
  [[nodiscard]] std::optional<std::string> text(
      std::string_view name) const;  ///< text, choice, mount
  [[nodiscard]] std::vector<std::string> choices(std::string_view name) const;
  [[nodiscard]] std::optional<double> number(std::string_view name) const;
  [[nodiscard]] std::optional<int> whole(std::string_view name) const;
  [[nodiscard]] std::optional<bool> flag(std::string_view name) const;
  [[nodiscard]] std::optional<Date> date(std::string_view name) const;
  /// Without a currency only the type is checked.
  [[nodiscard]] std::optional<Money> money(std::string_view name,
                                           const std::optional<Currency>& currency) const;
  [[nodiscard]] std::optional<DecimalRate> rate(std::string_view name) const;
  [[nodiscard]] std::optional<std::string> market(std::string_view name) const;
  [[nodiscard]] std::optional<Currency> currency(std::string_view name) const;
  [[nodiscard]] std::optional<Pixels> resolution(std::string_view name) const;
  [[nodiscard]] std::optional<std::string> title(std::string_view name) const;
  [[nodiscard]] std::optional<std::string> part(std::string_view name, Kind kind) const;

  /// A table under this one, as its own reader; nullopt when absent, a complaint when no table.
  [[nodiscard]] std::optional<KeyReader> table(std::string_view name,
                                               std::string_view section) const;
  /// The tables of a [[list]]; complaints for anything else.
  [[nodiscard]] std::vector<const TomlNode*> tables(std::string_view name,
                                                    std::string_view section) const;

  [[nodiscard]] const TomlNode& node() const { return *table_; }
  [[nodiscard]] const std::string& path() const { return path_; }
  [[nodiscard]] const FileContext& context() const { return *context_; }
  [[nodiscard]] std::string_view written() const { return written_; }  ///< the section as written

 private:
  struct Found {
    const KeySpec* spec;
    const TomlNode* node;  ///< nullptr: absent (complained of when required)
  };
  [[nodiscard]] Found find(std::string_view name) const;
  [[nodiscard]] Found find_text(std::string_view name) const;
  void complain(const TomlNode& node, const KeySpec& spec, std::string what,
                std::string expected) const;

  const FileContext* context_;
  const TomlNode* table_;
  std::string_view section_;
  std::string_view written_;
  std::string path_;
};

/// Checks that a string names a part of this kind; complains with the nearest id otherwise.
[[nodiscard]] std::optional<PartRef> check_part(const FileContext& context, const TomlNode& node,
                                                Kind kind);

/// `"budget", the nearest of its keys` or `one of a, b and c`: the hint for an unknown name.
[[nodiscard]] std::string expected_name(std::string_view word,
                                        std::span<const std::string_view> candidates,
                                        std::string_view of_what);

}  // namespace rigproof
