#include "analysis/power/card_plugs.hpp"

#include "analysis/power/connectors.hpp"

namespace rigproof::power {

Draws card_plugs_w(const Facts& facts, Row card, Measure& m) {
  Draws out = m.read(facts, column("gpu", "sustained_power_w"), card);
  out -= m.read(facts, column("gpu", "slot_power_w"), card);
  // The slot can carry no more than the card draws.
  return out.is_absent() || out.low() >= 0.0 ? out : Draws::larger(out, 0.0);
}

double card_input_rated_w(const Catalog& catalog, Row input) {
  return rated_w(catalog.word(card_input_connector, input)).value_or(0.0) *
         catalog.number(card_input_count, input);
}

double card_input_share(const Catalog& catalog, Row card, Row input) {
  double all_w = 0.0;
  for (const Row row : catalog.rows_of(table("gpu_inputs"), {Kind::gpu, card}))
    all_w += card_input_rated_w(catalog, row);
  return all_w > 0.0 ? card_input_rated_w(catalog, input) / all_w : 0.0;
}

}  // namespace rigproof::power
