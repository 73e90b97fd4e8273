// The two-letter country codes of ISO 3166-1, as one text of sorted pairs.
#pragma once

#include <array>
#include <string_view>

namespace rigproof {

/// Officially assigned alpha-2 codes, 249 of them. Source: [iso-3166-1]; the list itself is from
/// memory.
inline constexpr std::string_view country_codes =
    "ADAEAFAGAIALAMAOAQARASATAUAWAXAZBABBBDBEBFBGBHBIBJBLBMBNBOBQBRBSBTBVBWBYBZCACCCDCFCGCHCI"
    "CKCLCMCNCOCRCUCVCWCXCYCZDEDJDKDMDODZECEEEGEHERESETFIFJFKFMFOFRGAGBGDGEGFGGGHGIGLGMGNGPGQ"
    "GRGSGTGUGWGYHKHMHNHRHTHUIDIEILIMINIOIQIRISITJEJMJOJPKEKGKHKIKMKNKPKRKWKYKZLALBLCLILKLRLS"
    "LTLULVLYMAMCMDMEMFMGMHMKMLMMMNMOMPMQMRMSMTMUMVMWMXMYMZNANCNENFNGNINLNONPNRNUNZOMPAPEPFPG"
    "PHPKPLPMPNPRPSPTPWPYQARERORSRURWSASBSCSDSESGSHSISJSKSLSMSNSOSRSSSTSVSXSYSZTCTDTFTGTHTJTK"
    "TLTMTNTOTRTTTVTWTZUAUGUMUSUYUZVAVCVEVGVIVNVUWFWSYEYTZAZMZW";
static_assert(country_codes.size() == 2 * 249);

[[nodiscard]] constexpr bool is_country(std::string_view code) {
  constexpr auto place = [](char first, char second) {
    return static_cast<std::size_t>(first - 'A') * 26U + static_cast<std::size_t>(second - 'A');
  };
  constexpr auto known = [place] {
    std::array<bool, 26 * 26> table{};
    for (std::size_t i = 0; i < country_codes.size(); i += 2)
      table[place(country_codes[i], country_codes[i + 1])] = true;
    return table;
  }();
  const auto capital = [](char c) { return c >= 'A' && c <= 'Z'; };
  return code.size() == 2 && capital(code[0]) && capital(code[1]) && known[place(code[0], code[1])];
}

}  // namespace rigproof
