#pragma once
// The life of a setup drawn along time: one lane a kind of event, and a line wherever a correction came into force.

#include <optional>
#include <string_view>

#include "bench/history_view.hpp"
#include "bench/scene.hpp"

namespace fitwright {

/// Days since 1970-01-01 of a time as the record writes it ("2026-11-25", "2026-11-25T19:04:05.123Z"); nothing when it
/// is not one.
std::optional<double> days_of(std::string_view at);

/// Every row of the history as a mark at its date (its `rows` hold the row's place in the view); events of one lane
/// that lie too near to be told apart share a mark.
PlotScene timeline_plot(const HistoryView& view);

}  // namespace fitwright
