// Any bytes through base's parsers. What they accept must read back as itself, and what is shown of
// foreign text must be well-formed and no longer than asked for.
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "base/contract.hpp"
#include "base/date.hpp"
#include "base/money.hpp"
#include "base/text.hpp"

namespace {

using namespace rigproof;

void read_number(std::string_view text) {
  const auto value = parse_number(text);
  if (value) RP_EXPECT(parse_number(shortest(*value)) == value);
}

void read_date(std::string_view text) {
  const auto date = parse_date(text);
  if (date) RP_EXPECT(to_string(*date) == text);
}

void read_money(std::string_view text) {
  for (const char* code : {"EUR", "JPY", "CLF"}) {
    const auto money = parse_money(text, parse_currency(code).value());
    if (!money) continue;
    RP_EXPECT(money->minor >= -max_minor && money->minor <= max_minor);
    const auto again = parse_money(to_plain(*money), money->currency);
    RP_EXPECT(again && *again == *money);
  }
  const auto rate = parse_rate(text);
  if (rate) RP_EXPECT(with_tax(max_minor, *rate) >= max_minor);
}

void show(std::string_view text) {
  const std::size_t bytes = text.size() / 2;
  const auto shown = excerpt(text, bytes);
  RP_EXPECT(!first_bad_utf8(shown) && shown.size() <= bytes + 3);
  const auto bad = first_bad_utf8(text);
  RP_EXPECT(!bad || (*bad < text.size() && !first_bad_utf8(text.substr(0, *bad))));
  if (is_slug(text)) RP_EXPECT(trim(text) == text);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  read_number(text);
  read_date(text);
  read_money(text);
  show(text);
  return 0;
}
