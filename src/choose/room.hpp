#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/setup.hpp"
#include "gap/clearance.hpp"

namespace podwright {

/// Measures the clearances of one build after the other; the pairs that were found too close are
/// looked at first the next time.
class Room {
public:
    explicit Room(Meter& meter) : meter_(meter) {}

    /// The smallest margin of all clearances over the whole envelope, mm; nothing if some pair has
    /// less than it needs.
    std::optional<double> of(const Setup& setup);

    /// No smaller than what of() will find: the least of the pairs that were the tightest of late;
    /// nothing if one of them has less than it needs. Takes a fraction of the time.
    std::optional<double> at_most(const Setup& setup);

    /// The pair that was too close the last time that there was one, and what it lacked.
    struct Close {
        std::string a, b;  ///< keys of the parts
        double missing = 0;
    };
    const Close& last() const { return last_; }
    std::size_t measured() const { return measured_; }

    /// How many builds of the usual kind the last one was as much work as: one, but many where a
    /// leaning axle runs into something, as how deep has to be searched for then.
    std::size_t effort() const { return effort_; }

private:
    bool fails(const Setup& setup, const Clearance& clearance);
    void remember_tight(const std::string& a, const std::string& b);

    Meter& meter_;
    std::vector<std::pair<std::string, std::string>> suspects_;  ///< the last that failed first
    std::vector<std::pair<std::string, std::string>> tight_;  ///< the last that was tightest first
    Close last_;
    std::size_t measured_ = 0;
    std::size_t effort_ = 1;
};

}  // namespace podwright
