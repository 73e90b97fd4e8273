// The planner's frame model, made from the forecast engine for one catalog and brief.
#pragma once

#include "catalog/brief.hpp"
#include "catalog/catalog.hpp"
#include "claims/facts.hpp"
#include "decision/plan/frame_model.hpp"

namespace rigproof::app {

/// Remembers stages and utilities it was asked for. `catalog`, `brief` and `draws` must outlive it.
/// Not for several threads.
[[nodiscard]] plan::FrameModel make_frame_model(const Catalog& catalog, const Brief& brief,
                                                CellDraws& draws);

}  // namespace rigproof::app
