// What every backend of the store has to do, as tests over a maker of empty places. A backend links
// the files conformance_*_test.cpp (RP_STORE_CONFORMANCE in CMakeLists.txt) and gives itself to
// them:
//
//   INSTANTIATE_TEST_SUITE_P(Sqlite, StoreConformance, testing::Values(Backend{...}),
//                            testing::PrintToStringParamName());
#pragma once

#include <gtest/gtest.h>

#include <functional>
#include <memory>
#include <ostream>
#include <string>
#include <utility>

#include "store/store.hpp"

namespace rigproof::store {

/// Opens one and the same place anew with each call.
using Opener = std::function<Result<std::unique_ptr<Store>>()>;

struct Backend {
  std::string name;
  std::function<Opener()> empty_place;  ///< a new one with each call, gone with its opener
};
inline std::ostream& operator<<(std::ostream& out, const Backend& backend) {
  return out << backend.name;
}

class StoreConformance : public testing::TestWithParam<Backend> {
 protected:
  StoreConformance() : open_(GetParam().empty_place()), store_(opened()) {}

  /// The store of the test; `opened()` gives further objects on the same place.
  [[nodiscard]] Store& store() { return *store_; }
  [[nodiscard]] std::unique_ptr<Store> opened() {
    auto store = open_();
    if (!store) throw std::runtime_error(store.error().message);
    return std::move(*store);
  }
  /// As after a restart of the program.
  void reopen() {
    store_.reset();
    store_ = opened();
  }

 private:
  Opener open_;
  std::unique_ptr<Store> store_;
};

inline Instant at(std::string_view text) { return parse_instant(text).value(); }
inline Date day(std::string_view text) { return parse_date(text).value(); }
inline Money money(std::string_view currency, std::int64_t minor) {
  return {.currency = parse_currency(currency).value(), .minor = minor};
}

inline NewDocument a_brief(std::string name = "Quiet corner", std::string text = "[brief]\n") {
  return {.kind = DocumentKind::brief,
          .name = std::move(name),
          .text = std::move(text),
          .saved_at = at("2026-11-01T08:00:00Z")};
}

inline SeenOffer an_offer() {
  return {.part = {.kind = Kind::gpu, .id = "card-a"},
          .seller = "north-shop",
          .market = "IE",
          .seen = day("2026-10-01"),
          .price = money("EUR", 41900),
          .tax_included = true};
}

inline PriceBatch a_batch(std::vector<SeenOffer> offers, std::string origin = "october.csv") {
  return {.origin = std::move(origin),
          .appended_at = at("2026-10-02T07:30:00Z"),
          .offers = std::move(offers)};
}

/// The code of an error, or nullopt where there is none.
template <class T>
[[nodiscard]] std::optional<ErrorCode> refusal(const Result<T>& result) {
  if (result) return {};
  return result.error().code;
}

}  // namespace rigproof::store
