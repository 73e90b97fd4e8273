// Schema of titles, sellers, offers and provenance.
#pragma once

#include <array>

#include "catalog/schema/spec.hpp"

// One line a column reads like the table it is.
// clang-format off
namespace rigproof::schema {

inline constexpr std::array titles_columns = {
    ColumnSpec{.name = "id", .type = Type::slug, .meaning = "slug", .required = true},
    ColumnSpec{.name = "name", .type = Type::text, .meaning = "title with its preset of settings", .required = true},
    ColumnSpec{.name = "cpu_ms", .type = Type::number, .meaning = "processor's share of a frame on the reference processor, mean", .required = true, .min = 0.1, .max = 1000, .usual_low = 0.5, .usual_high = 50},
    ColumnSpec{.name = "memory_share_frac", .type = Type::number, .meaning = "how far that share follows memory speed", .min = 0, .max = 1, .usual_low = 0, .usual_high = 0.8},
    ColumnSpec{.name = "cpu_log_sd", .type = Type::number, .meaning = "log-deviation of the processor's share from frame to frame", .required = true, .min = 0, .max = 2, .usual_low = 0.02, .usual_high = 0.8},
    ColumnSpec{.name = "raster_ms", .type = Type::number, .meaning = "shading on the reference card, part that does not follow pixels", .required = true, .min = 0, .max = 1000},
    ColumnSpec{.name = "raster_ms_per_mpix", .type = Type::number, .meaning = "shading per rendered megapixel", .required = true, .min = 0, .max = 1000, .usual_low = 0.1, .usual_high = 50},
    ColumnSpec{.name = "ray_ms", .type = Type::number, .meaning = "rays on the reference card, part that does not follow pixels", .min = 0, .max = 1000},
    ColumnSpec{.name = "ray_ms_per_mpix", .type = Type::number, .meaning = "rays per rendered megapixel", .min = 0, .max = 1000, .usual_low = 0, .usual_high = 50},
    ColumnSpec{.name = "traffic_gb", .type = Type::number, .meaning = "memory traffic of a frame, part that does not follow pixels", .min = 0, .max = 100},
    ColumnSpec{.name = "traffic_gb_per_mpix", .type = Type::number, .meaning = "memory traffic per rendered megapixel", .min = 0, .max = 100, .usual_low = 0, .usual_high = 20},
    ColumnSpec{.name = "gpu_log_sd", .type = Type::number, .meaning = "log-deviation of the card's share from frame to frame", .required = true, .min = 0, .max = 2, .usual_low = 0.02, .usual_high = 0.8},
    ColumnSpec{.name = "stage_correlation", .type = Type::number, .meaning = "correlation of the two logs", .required = true, .min = -1, .max = 1, .usual_low = -0.5, .usual_high = 0.95},
    ColumnSpec{.name = "upscale_ms_per_mpix", .type = Type::number, .meaning = "cost of upscaling per output megapixel on the reference card", .min = 0, .max = 100},
    ColumnSpec{.name = "generate_ms", .type = Type::number, .meaning = "cost of one generated frame on the reference card", .min = 0, .max = 100},
    ColumnSpec{.name = "cap_fps", .type = Type::number, .meaning = "engine cap; empty: none known", .min = 1, .max = 2000, .usual_low = 24, .usual_high = 1000},
    ColumnSpec{.name = "video_memory_gib", .type = Type::number, .meaning = "video memory needed, part that does not follow pixels", .min = 0, .max = 512, .usual_low = 0.5, .usual_high = 48},
    ColumnSpec{.name = "video_memory_gib_per_mpix", .type = Type::number, .meaning = "video memory needed per output megapixel", .min = 0, .max = 64},
    ColumnSpec{.name = "megapixels_low", .type = Type::number, .meaning = "rendered megapixels from which the row is known", .required = true, .min = 0.01, .max = 200, .usual_low = 0.2, .usual_high = 9},
    ColumnSpec{.name = "megapixels_high", .type = Type::number, .meaning = "rendered megapixels up to which the row is known", .required = true, .min = 0.01, .max = 200, .usual_low = 2, .usual_high = 70},
};

inline constexpr std::array sellers_columns = {
    ColumnSpec{.name = "id", .type = Type::slug, .meaning = "slug", .required = true},
    ColumnSpec{.name = "name", .type = Type::text, .meaning = "as they call themselves", .required = true},
    ColumnSpec{.name = "market", .type = Type::market, .meaning = "where they deliver from", .required = true},
    ColumnSpec{.name = "shipping_upper", .type = Type::money, .meaning = "most that delivery of one order costs"},
    ColumnSpec{.name = "currency", .type = Type::currency, .meaning = "currency of that amount"},
};

inline constexpr std::array offers_columns = {
    ColumnSpec{.name = "part", .type = Type::reference, .meaning = "which part", .required = true, .refers = "part"},
    ColumnSpec{.name = "seller", .type = Type::reference, .meaning = "who offers it", .required = true, .refers = "sellers"},
    ColumnSpec{.name = "market", .type = Type::market, .meaning = "where it may be bought", .required = true},
    ColumnSpec{.name = "seen", .type = Type::date, .meaning = "day the price was seen", .required = true},
    ColumnSpec{.name = "condition", .type = Type::token, .meaning = "state of the thing", .required = true, .choices = "new|refurbished|used"},
    ColumnSpec{.name = "price", .type = Type::money, .meaning = "asked for one", .required = true},
    ColumnSpec{.name = "currency", .type = Type::currency, .meaning = "of the price", .required = true},
    ColumnSpec{.name = "tax_included", .type = Type::flag, .meaning = "does the price contain sales tax", .required = true},
    ColumnSpec{.name = "stock", .type = Type::count, .meaning = "how many can be had; empty: unknown", .max = 1e6},
    ColumnSpec{.name = "delivery_days", .type = Type::count, .meaning = "days until it arrives", .max = 365, .usual_low = 0, .usual_high = 90},
    ColumnSpec{.name = "warranty_months", .type = Type::count, .meaning = "warranty stated with the offer; 0: stated that there is none", .max = 240, .usual_low = 0, .usual_high = 144},
    ColumnSpec{.name = "link_kind", .type = Type::token, .meaning = "whether the publisher earns from the link", .choices = "plain|commission"},
};

inline constexpr std::array provenance_columns = {
    ColumnSpec{.name = "table", .type = Type::token, .meaning = "table of the cell", .required = true},
    ColumnSpec{.name = "row", .type = Type::text, .meaning = "row key, or * for every row", .required = true},
    ColumnSpec{.name = "column", .type = Type::text, .meaning = "column, or * for every column", .required = true},
    ColumnSpec{.name = "source", .type = Type::text, .meaning = "where the value comes from", .required = true},
    ColumnSpec{.name = "seen", .type = Type::date, .meaning = "when it was read"},
    ColumnSpec{.name = "method", .type = Type::token, .meaning = "how it was found", .choices = "stated|measured|estimated|invented"},
    ColumnSpec{.name = "plus_minus", .type = Type::number, .meaning = "half-width of the value in its column's unit", .min = 0, .max = 1e9},
};

}  // namespace rigproof::schema
// clang-format on
