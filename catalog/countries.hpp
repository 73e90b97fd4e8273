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
  constexpr auto known = [] {
    std::array<bool, 26 * 26> table{};
    for (std::size_t i = 0; i < country_codes.size(); i += 2)
      table[static_cast<std::size_t>((country_codes[i] - 'A') * 26 +
                                     (country_codes[i + 1] - 'A'))] = true;
    return table;
  }();
  if (code.size() != 2 || code[0] < 'A' || code[0] > 'Z' || code[1] < 'A' || code[1] > 'Z')
    return false;
  return known[static_cast<std::size_t>((code[0] - 'A') * 26 + (code[1] - 'A'))];
}

}  // namespace rigproof
