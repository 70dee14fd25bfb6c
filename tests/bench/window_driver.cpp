#include "window_driver.hpp"

#include <poll.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <chrono>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <sstream>
#include <stdexcept>
#include <thread>

namespace {

using Clock = std::chrono::steady_clock;

// A hand is slower than a frame. Under the sanitizers frames take several times as long.
#if defined(__SANITIZE_ADDRESS__)
constexpr int slowness = 8;
#else
constexpr int slowness = 1;
#endif

void sleep_ms(int ms) { std::this_thread::sleep_for(std::chrono::milliseconds(ms * slowness)); }

/// Starts a program; its standard output goes to `output` if it is a descriptor.
pid_t start(const std::vector<std::string>& words, int output, const std::string& display) {
    const pid_t child = fork();
    if (child < 0) throw std::runtime_error("fork failed");
    if (child > 0) return child;
    if (output >= 0) dup2(output, STDOUT_FILENO);
    if (!display.empty()) setenv("DISPLAY", display.c_str(), 1);
    unsetenv("WAYLAND_DISPLAY");
    std::vector<char*> arguments;
    for (const std::string& word : words) arguments.push_back(const_cast<char*>(word.c_str()));
    arguments.push_back(nullptr);
    execvp(arguments[0], arguments.data());
    _exit(127);
}

int status_of(pid_t child) {
    int status = 0;
    waitpid(child, &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
}

void end(pid_t& child) {
    if (child <= 0) return;
    kill(child, SIGTERM);
    for (int i = 0; i < 100 && waitpid(child, nullptr, WNOHANG) == 0; ++i) sleep_ms(20);
    kill(child, SIGKILL);
    waitpid(child, nullptr, WNOHANG);
    child = -1;
}

/// Standard output of a short command.
std::string output_of(const std::vector<std::string>& words, const std::string& display) {
    std::array<int, 2> pipe_ends{};
    if (pipe(pipe_ends.data()) != 0) throw std::runtime_error("pipe failed");
    const pid_t child = start(words, pipe_ends[1], display);
    ::close(pipe_ends[1]);
    std::string text;
    std::array<char, 65536> buffer{};
    for (ssize_t n = 0; (n = read(pipe_ends[0], buffer.data(), buffer.size())) > 0;)
        text.append(buffer.data(), static_cast<std::size_t>(n));
    ::close(pipe_ends[0]);
    if (status_of(child) != 0) throw std::runtime_error(words.front() + " failed");
    return text;
}

}  // namespace

double changed_share(const podwright::Image& a, const podwright::Image& b, int level,
                     const PixelRegion& region) {
    if (a.width != b.width || a.height != b.height)
        throw std::runtime_error("pictures of unlike size");
    int changed = 0;
    for (int y = region.y_low; y < region.y_high; ++y)
        for (int x = region.x_low; x < region.x_high; ++x) {
            const auto *p = a.at(x, y), *q = b.at(x, y);
            const auto differs = [&](int c) { return std::abs(int(p[c]) - int(q[c])) > level; };
            if (differs(0) || differs(1) || differs(2)) ++changed;
        }
    return static_cast<double>(changed) /
           (static_cast<double>(region.x_high - region.x_low) * (region.y_high - region.y_low));
}

double changed_share(const podwright::Image& a, const podwright::Image& b, int level) {
    return changed_share(a, b, level, {0, a.width, 0, a.height});
}

WindowDriver::WindowDriver(const std::filesystem::path& scene, int width, int height,
                           bool keys_repeat) {
    // Xvfb picks a free display and writes its number.
    std::array<int, 2> number{};
    if (pipe(number.data()) != 0) throw std::runtime_error("pipe failed");
    const std::string screen = std::to_string(width) + "x" + std::to_string(height) + "x24";
    std::vector<std::string> server = {"Xvfb", "-displayfd", "1",         "-screen",
                                       "0",    screen,       "-nolisten", "tcp"};
    if (!keys_repeat) server.emplace_back("-r");
    server_ = start(server, number[1], "");
    ::close(number[1]);
    char digit = 0;
    while (read(number[0], &digit, 1) == 1 && digit != '\n') display_ += digit;
    ::close(number[0]);
    if (display_.empty()) throw std::runtime_error("Xvfb did not start");
    display_ = ":" + display_;

    std::array<int, 2> told{};
    if (pipe(told.data()) != 0) throw std::runtime_error("pipe failed");
    program_ = start({PODWRIGHT_PROGRAM, scene.string(), "--tell"}, told[1], display_);
    ::close(told[1]);
    output_ = told[0];
    read_line("the first picture", 60);
    window_ = output_of({"xdotool", "search", "--name", "Podwright"}, display_);
    window_ = window_.substr(0, window_.find('\n'));
    const std::string geometry =
        output_of({"xdotool", "getwindowgeometry", "--shell", window_}, display_);
    const auto value = [&](const std::string& name) {
        return std::stoi(geometry.substr(geometry.find(name + "=") + name.size() + 1));
    };
    opened_ = {value("X"), value("Y"), value("WIDTH"), value("HEIGHT")};
    xdotool({"windowmove", window_, "0", "0"});
    xdotool({"windowsize", window_, std::to_string(width), std::to_string(height)});
    xdotool({"windowfocus", window_});
    sleep_ms(500);
}

WindowDriver::~WindowDriver() {
    end(program_);
    end(server_);
    if (output_ >= 0) ::close(output_);
}

void WindowDriver::read_line(const std::string& what, double seconds) {
    const auto until = Clock::now() + std::chrono::duration<double>(seconds);
    for (;;) {
        const std::size_t line_end = pending_.find('\n');
        if (line_end != std::string::npos) {
            state_ = nlohmann::json::parse(pending_.substr(0, line_end));
            pending_.erase(0, line_end + 1);
            return;
        }
        pollfd poll_for{output_, POLLIN, 0};
        poll(&poll_for, 1, 100);
        if (poll_for.revents & (POLLIN | POLLHUP)) {
            std::array<char, 65536> buffer{};
            const ssize_t n = read(output_, buffer.data(), buffer.size());
            if (n <= 0) throw std::runtime_error("the program ended while waiting for " + what);
            pending_.append(buffer.data(), static_cast<std::size_t>(n));
        }
        if (Clock::now() > until) throw std::runtime_error("no sign of " + what);
    }
}

bool WindowDriver::is_telling(int ms) const {
    pollfd poll_for{output_, POLLIN, 0};
    return pending_.find('\n') != std::string::npos || poll(&poll_for, 1, ms * slowness) > 0;
}

const nlohmann::json& WindowDriver::settle(double seconds) {
    const auto until = Clock::now() + std::chrono::duration<double>(seconds);
    while (is_telling(600)) {
        read_line("rest", seconds);
        if (Clock::now() > until) throw std::runtime_error("it does not come to rest");
    }
    return state_;
}

bool WindowDriver::has_finding(const std::string& code) const {
    for (const auto& finding : state_.at("findings"))
        if (finding == code) return true;
    return false;
}

void WindowDriver::xdotool(const std::vector<std::string>& words) const {
    std::vector<std::string> all = {"xdotool"};
    all.insert(all.end(), words.begin(), words.end());
    output_of(all, display_);
}

void WindowDriver::move(double x, double y) {
    xdotool(
        {"mousemove", std::to_string(static_cast<int>(x)), std::to_string(static_cast<int>(y))});
    sleep_ms(30);
}

void WindowDriver::press(double x, double y) {
    move(x, y);
    sleep_ms(120);
    xdotool({"mousedown", "1"});
    sleep_ms(120);
}

void WindowDriver::release() {
    xdotool({"mouseup", "1"});
    sleep_ms(120);
}

void WindowDriver::click(const std::string& place) {
    const auto box = state_.at("places").at(place).get<std::array<double, 4>>();
    press(box[0] + box[2] / 2, box[1] + box[3] / 2);
    release();
}

void WindowDriver::drag_track(const std::string& place, double from, double to, int steps) {
    const auto box = state_.at("places").at(place).get<std::array<double, 4>>();
    const auto x = [&](double part) { return box[0] + 8 + part * (box[2] - 16); };
    const double y = box[1] + box[3] / 2;
    press(x(from), y);
    for (int i = 1; i <= steps; ++i) move(x(from + (to - from) * i / steps), y);
    sleep_ms(150);
}

void WindowDriver::key(const std::string& keys, int held_ms) {
    // Held for some frames: what is let go within one is not seen by every control.
    xdotool({"keydown", keys});
    sleep_ms(held_ms);
    // The letter first: a server that repeats it would write it once Control is let go.
    std::vector<std::string> let_go;
    std::istringstream names(keys);
    for (std::string name; std::getline(names, name, '+');)
        let_go.insert(let_go.begin(), {"keyup", name});
    xdotool(let_go);
    sleep_ms(150);
}

void WindowDriver::type(const std::string& text) {
    xdotool({"type", "--delay", "30", "--", text});
    sleep_ms(150);
}

std::string WindowDriver::title() const {
    std::string title = output_of({"xdotool", "getwindowname", window_}, display_);
    return title.substr(0, title.find('\n'));
}

int WindowDriver::wait_for_end(double seconds) {
    const auto until = Clock::now() + std::chrono::duration<double>(seconds);
    int status = 0;
    while (waitpid(program_, &status, WNOHANG) == 0) {
        if (Clock::now() > until) throw std::runtime_error("the program did not end");
        sleep_ms(50);
    }
    program_ = -1;
    return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
}

double WindowDriver::processor_seconds() const {
    std::ifstream file("/proc/" + std::to_string(program_) + "/stat");
    const std::string text{std::istreambuf_iterator<char>(file), {}};
    // After the name in brackets: state is field 3, utime 14, stime 15 (proc(5)).
    std::size_t at = text.rfind(')') + 2;
    for (int field = 3; field < 14; ++field) at = text.find(' ', at) + 1;
    char* rest = nullptr;
    const double user = std::strtod(text.c_str() + at, &rest);
    const double system = std::strtod(rest, nullptr);
    return (user + system) / static_cast<double>(sysconf(_SC_CLK_TCK));
}

podwright::Image WindowDriver::screenshot() const {
    const std::string png = output_of({"import", "-window", "root", "png:-"}, display_);
    return podwright::image_from_png(
        {reinterpret_cast<const std::uint8_t*>(png.data()), png.size()});
}
