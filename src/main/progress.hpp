#pragma once

#include <chrono>
#include <csignal>
#include <string>

#include "choose/choose.hpp"

namespace podwright {

/// While it lives, Ctrl-C asks what runs to stop instead of ending the program, and what takes
/// longer than 0.3 s says on standard error what it is doing, if a person reads it there.
class Progress {
public:
    Progress();
    ~Progress();
    Progress(const Progress&) = delete;
    Progress& operator=(const Progress&) = delete;

    /// To be given to what runs; must not outlive this.
    Watch watch();
    static bool interrupted();

private:
    bool go_on(const std::string& doing);
    void say(const std::string& line);

    using Clock = std::chrono::steady_clock;
    Clock::time_point began_ = Clock::now();
    Clock::time_point said_ = began_;
    std::size_t width_ = 0;  ///< of the line that stands there
    bool for_a_person_ = false;
    struct sigaction before_ {};
};

}  // namespace podwright
