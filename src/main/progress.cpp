#include "main/progress.hpp"

#include <unistd.h>

#include <algorithm>
#include <cstdio>

#include "core/text.hpp"
#include "file/page.hpp"

namespace podwright {

namespace {

// A signal's handler can reach nothing else.
volatile std::sig_atomic_t was_interrupted = 0;  // NOLINT

}  // namespace

Progress::Progress() : for_a_person_(isatty(STDERR_FILENO) == 1) {
    was_interrupted = 0;
    struct sigaction action {};
    action.sa_handler = [](int) { was_interrupted = 1; };
    sigemptyset(&action.sa_mask);
    sigaction(SIGINT, &action, &before_);
}

Progress::~Progress() {
    say("");
    sigaction(SIGINT, &before_, nullptr);
}

bool Progress::interrupted() { return was_interrupted != 0; }

Watch Progress::watch() {
    return {[this](const std::string& doing) { return go_on(doing); }};
}

bool Progress::go_on(const std::string& doing) {
    constexpr std::chrono::milliseconds patience(300);
    const auto now = Clock::now();
    if (for_a_person_ && now - began_ > patience && now - said_ > patience) {
        said_ = now;
        const double seconds = std::chrono::duration<double>(now - began_).count();
        say(harmless(doing) + ", " + fixed(seconds, 1) + " s; Ctrl-C stops");
    }
    return !interrupted();
}

/// Over what stood there before.
void Progress::say(const std::string& line) {
    if (width_ == 0 && line.empty()) return;
    std::string text = "\r" + padded(line, width_);
    if (line.empty()) text += "\r";
    width_ = columns(line);
    std::fputs(text.c_str(), stderr);
    std::fflush(stderr);
}

}  // namespace podwright
