#include "choose/shim_table.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <map>
#include <numeric>

namespace podwright {

namespace {

constexpr std::size_t most_sums = 1200;  // their square is held for each kind
constexpr int digits = most_shims + 1;   // of a pick: left * digits + right

int micrometres(double mm) { return static_cast<int>(std::lround(mm * 1000)); }

int count_of(const std::vector<double>& shims, int thickness) {
    return static_cast<int>(std::count_if(
        shims.begin(), shims.end(), [&](double shim) { return micrometres(shim) == thickness; }));
}

int sum_of(const std::vector<double>& shims) {
    return std::accumulate(shims.begin(), shims.end(), 0,
                           [](int sum, double shim) { return sum + micrometres(shim); });
}

/// `today` without what is not in `counts` any more, then what is new, the thickest first.
std::vector<double> arranged(const std::vector<double>& today, std::map<int, int> counts,
                             const std::map<int, double>& thickness) {
    std::vector<double> shims;
    for (const double shim : today) {
        const auto found = counts.find(micrometres(shim));
        if (found == counts.end() || found->second == 0) continue;
        --found->second;
        shims.push_back(shim);
    }
    for (auto kind = counts.rbegin(); kind != counts.rend(); ++kind)
        shims.insert(shims.end(), static_cast<std::size_t>(kind->second),
                     thickness.at(kind->first));
    return shims;
}

}  // namespace

ShimTable::ShimTable(const PartsBox& box, const Setup& today)
    : today_left_(today.left.shims), today_right_(today.right.shims) {
    if (box.shims.empty()) {
        pairs_.push_back({sum_of(today_left_), sum_of(today_right_),
                          static_cast<int>(today_left_.size() + today_right_.size()), 0, 0});
        return;
    }
    for (const ShimKind& shim : box.shims) {
        const int thickness = micrometres(shim.thickness);
        kinds_.push_back({shim.thickness, thickness, std::min(shim.count, most_shims),
                          count_of(today_left_, thickness), count_of(today_right_, thickness)});
    }
    std::sort(kinds_.begin(), kinds_.end(),
              [](const Kind& a, const Kind& b) { return a.micrometres < b.micrometres; });
    lost_ = static_cast<int>(today_left_.size() + today_right_.size());
    for (const Kind& kind : kinds_) lost_ -= kind.today_left + kind.today_right;
    for (find_sums(); sums_.size() > most_sums; find_sums()) --most_;
    fill();
}

void ShimTable::find_sums() {
    std::map<int, int> fewest = {{0, 0}};  // sum -> pieces
    for (const Kind& kind : kinds_) {
        const std::map<int, int> before = fewest;
        for (const auto& [sum, pieces] : before)
            for (int n = 1; n <= kind.count && pieces + n <= most_; ++n) {
                const auto [at, fresh] = fewest.try_emplace(sum + n * kind.micrometres, pieces + n);
                if (!fresh) at->second = std::min(at->second, pieces + n);
            }
    }
    sums_.clear();
    for (const auto& [sum, pieces] : fewest) sums_.push_back(sum);
}

std::int32_t ShimTable::sum_at(int sum) const {
    const auto found = std::lower_bound(sums_.begin(), sums_.end(), sum);
    return found != sums_.end() && *found == sum ? static_cast<std::int32_t>(found - sums_.begin())
                                                 : -1;
}

/// Adds so many of one kind to every pair of sums reached so far.
void ShimTable::layer(std::size_t k) {
    const Kind& kind = kinds_[k];
    const std::size_t n = sums_.size();
    std::vector<std::vector<std::int32_t>> up(static_cast<std::size_t>(kind.count) + 1);
    for (std::size_t more = 0; more < up.size(); ++more)
        for (const int sum : sums_)
            up[more].push_back(sum_at(sum + static_cast<int>(more) * kind.micrometres));

    const std::vector<Value> before = values_;
    std::vector<std::uint8_t>& pick = picks_[k];
    for (Value& value : values_)
        value.changes =
            static_cast<std::uint16_t>(value.changes + kind.today_left + kind.today_right);
    const auto reach = [&](const Value& from, std::int32_t l, std::size_t a, std::int32_t r,
                           std::size_t b) {
        const auto to = static_cast<std::size_t>(l) * n + static_cast<std::size_t>(r);
        const auto shims = static_cast<std::uint16_t>(from.shims + a + b);
        Value& value = values_[to];
        if (shims > value.shims) return;
        const auto changes = static_cast<std::uint16_t>(
            from.changes + std::abs(static_cast<int>(a) - kind.today_left) +
            std::abs(static_cast<int>(b) - kind.today_right));
        const auto picked = static_cast<std::uint8_t>(a * digits + b);
        if (shims == value.shims && changes > value.changes) return;
        if (shims == value.shims && changes == value.changes && picked >= pick[to]) return;
        value = {shims, changes};
        pick[to] = picked;
    };
    for (std::size_t i = 0; i < n; ++i)
        for (std::size_t j = 0; j < n; ++j) {
            const Value& from = before[i * n + j];
            const int left = most_ - static_cast<int>(from.shims);
            if (left <= 0) continue;  // nothing there, or nothing may be added
            const auto most = static_cast<std::size_t>(std::min(left, kind.count));
            for (std::size_t a = 0; a <= most && up[a][i] >= 0; ++a)
                for (std::size_t b = a == 0 ? 1 : 0; a + b <= most && up[b][j] >= 0; ++b)
                    reach(from, up[a][i], a, up[b][j], b);
        }
}

void ShimTable::fill() {
    const std::size_t n = sums_.size();
    values_.assign(n * n, {});
    values_[0] = {0, static_cast<std::uint16_t>(lost_)};
    picks_.assign(kinds_.size(), std::vector<std::uint8_t>(n * n, 0));
    for (std::size_t k = 0; k < kinds_.size(); ++k) layer(k);
    for (std::size_t i = 0; i < n; ++i)
        for (std::size_t j = 0; j < n; ++j)
            if (const Value& value = values_[i * n + j]; value.shims <= most_)
                pairs_.push_back({sums_[i], sums_[j], value.shims, value.changes,
                                  static_cast<std::uint32_t>(i * n + j)});
    places_ = static_cast<std::uint32_t>(n * n);
    std::stable_sort(pairs_.begin(), pairs_.end(), [](const ShimPair& a, const ShimPair& b) {
        return a.left - a.right < b.left - b.right;
    });
}

ShimTable::Shims ShimTable::shims(const ShimPair& pair) const {
    if (kinds_.empty()) return {today_left_, today_right_};
    std::map<int, int> left, right;
    std::map<int, double> thickness;
    int sum_left = pair.left;
    int sum_right = pair.right;
    for (std::size_t k = kinds_.size(); k-- > 0;) {
        const auto at = static_cast<std::size_t>(sum_at(sum_left)) * sums_.size() +
                        static_cast<std::size_t>(sum_at(sum_right));
        const int pick = picks_[k][at];
        const Kind& kind = kinds_[k];
        left[kind.micrometres] = pick / digits;
        right[kind.micrometres] = pick % digits;
        thickness[kind.micrometres] = kind.thickness;
        sum_left -= pick / digits * kind.micrometres;
        sum_right -= pick % digits * kind.micrometres;
    }
    return {arranged(today_left_, left, thickness), arranged(today_right_, right, thickness)};
}

}  // namespace podwright
