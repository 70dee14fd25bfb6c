#pragma once

#include <sys/types.h>

#include <array>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "draw/image.hpp"

/// Part of a picture: x and y from `low` up to but not including `high`.
struct PixelRegion {
    int x_low, x_high, y_low, y_high;
};

/// Share of the region's pixels that differ by more than `level` of 255 in some colour.
double changed_share(const podwright::Image& a, const podwright::Image& b, int level,
                     const PixelRegion& region);
/// The same of the whole picture.
double changed_share(const podwright::Image& a, const podwright::Image& b, int level);

/// The real program on an X display of its own (Xvfb), driven with xdotool and read through what it
/// says with --tell. Everything is ended with the object.
class WindowDriver {
public:
    /// Starts both and waits until the first picture stands; a key that is held may repeat, or
    /// not. Throws std::runtime_error.
    explicit WindowDriver(const std::filesystem::path& scene, int width = 1360, int height = 820,
                          bool keys_repeat = false);
    ~WindowDriver();
    WindowDriver(const WindowDriver&) = delete;
    WindowDriver& operator=(const WindowDriver&) = delete;

    const nlohmann::json& now() const { return state_; }
    /// Waits for the next state that `good` accepts; throws after `seconds`.
    template <class Good>
    const nlohmann::json& wait_for(const std::string& what, Good good, double seconds = 60) {
        while (!good(state_)) read_line(what, seconds);
        return state_;
    }
    /// Waits until nothing has been told for a while: what moved stands, and now() is what it says.
    const nlohmann::json& settle(double seconds = 60);
    bool has_finding(const std::string& code) const;

    void move(double x, double y);
    void press(double x, double y);
    void release();
    void click(const std::string& place);
    void drag_track(const std::string& place, double from, double to, int steps = 12);
    void key(const std::string& keys, int held_ms = 120);
    void type(const std::string& text);
    /// Where the program itself opened its window: x, y, width, height.
    const std::array<int, 4>& opened() const { return opened_; }
    /// What stands in the window's title bar.
    std::string title() const;
    /// Exit status of the program; waits for its end, throws after `seconds`.
    int wait_for_end(double seconds = 10);
    /// Processor seconds that the program has used.
    double processor_seconds() const;
    podwright::Image screenshot() const;

private:
    void xdotool(const std::vector<std::string>& words) const;
    void read_line(const std::string& what, double seconds);
    bool is_telling(int ms) const;

    std::string display_, window_;
    std::array<int, 4> opened_{};
    pid_t server_ = -1, program_ = -1;
    int output_ = -1;
    std::string pending_;
    nlohmann::json state_;
};
