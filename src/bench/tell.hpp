#pragma once

#include <string>
#include <utility>
#include <vector>

#include "bench/canvas.hpp"
#include "bench/model.hpp"

namespace podwright {

/// Says on standard output what the window shows whenever that has changed and everything is at
/// rest: one line of JSON with title, path, file, saved, findings (codes), readings (name ->
/// value), the setup's numbers by key, clearances (pair -> now, worst), camera, picked part,
/// message, and the place of each control (x, y, width, height in window pixels). For screen
/// readers, scripts and tests.
class Teller {
public:
    void tell(const Model& model, const std::vector<std::pair<std::string, PixelBox>>& places,
              std::size_t frames);

private:
    std::string last_;
};

}  // namespace podwright
