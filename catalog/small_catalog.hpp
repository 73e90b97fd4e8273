// For tests and fuzz targets only: a catalog of a dozen invented parts, made from CSV text.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

#include "catalog/load.hpp"

namespace rigproof {

inline constexpr std::string_view small_offers_header =
    "part,seller,market,seen,condition,price,currency,tax_included,stock\n";

/// The parts, titles and sellers below, and the offers given as rows of `small_offers_header`.
inline Catalog small_catalog(std::string_view offer_rows = {}) {
  const std::string offers = std::string(small_offers_header) + std::string(offer_rows);
  const std::vector<TableFile> files = {
      {"cpu.csv", "id,name\nquick-eight,Quick Eight\nquick-six,Quick Six\n"},
      {"board.csv", "id,name\nplain-board,Plain Board\n"},
      {"memory.csv", "id,name\npair-32,Pair 32\n"},
      {"gpu.csv", "id,name\nbroad-card,Broad Card\n"},
      {"storage.csv", "id,name\ndrive-one,Drive One\ndrive-two,Drive Two\n"},
      {"cooler.csv", "id,name\ntall-tower,Tall Tower\n"},
      {"case.csv", "id,name\nwhite-case,White Case\nblack-case,Black Case\n"},
      {"psu.csv", "id,name\nowned-psu,Owned Supply\nspare-psu,Spare Supply\n"},
      {"fan.csv",
       "id,name\ncalm-fan,Calm Fan\nfan-b,Fan B\nfan-c,Fan C\nfan-d,Fan D\nfan-e,Fan E\n"},
      {"titles.csv",
       "id,name,cpu_ms,cpu_log_sd,raster_ms,raster_ms_per_mpix,gpu_log_sd,stage_correlation,"
       "megapixels_low,megapixels_high\n"
       "harbour-lights,Harbour Lights,5,0.1,2,1,0.1,0,1,9\n"
       "slate-valley,Slate Valley,6,0.1,2,1,0.1,0,1,9\n"},
      {"sellers.csv", "id,name,market\nshop-a,Shop A,IE\nshop-b,Shop B,US\n"},
      {"offers.csv", offers},
  };
  auto loaded = load_catalog(files);
  if (!loaded) throw std::runtime_error(loaded.error().report());
  return std::move(loaded->catalog);
}

}  // namespace rigproof
