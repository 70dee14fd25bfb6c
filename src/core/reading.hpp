#pragma once

#include <optional>
#include <string_view>

namespace podwright {

/// Stands for a life, a safety or a margin where nothing loads the part: a number without meaning.
inline constexpr double endless = 1e9;

/// Whether `value` is that, or the difference of it and a limit.
inline bool is_endless(double value) { return value >= endless / 2 || value <= -endless / 2; }

enum class Status { none, ok, caution, stop };  ///< none: there is no limit

/// "none", "ok", "caution", "stop".
std::string_view word(Status);

/// One number about the setup, under the name that reports and rules know it by.
struct Reading {
    std::string_view name;   ///< "float.nominal"
    std::string_view label;  ///< "float", as shown
    double value = 0;        ///< in `unit`
    std::string_view unit;   ///< "mm", "deg", "N/mm2", "g cm2", ..., or "" for a pure number
    Status status = Status::none;
    std::optional<double> low;  ///< limits, where there are any
    std::optional<double> high;
};

}  // namespace podwright
