#pragma once

#include <imgui.h>

#include "bench/theme.hpp"

/// The real fonts, with nothing to draw on.
class Fonts {
public:
    explicit Fonts(float scale) {
        ImGui::CreateContext();
        ImGui::GetIO().IniFilename = nullptr;
        type = podwright::set_type_and_style(scale);
        ImGui::GetIO().Fonts->Build();
    }
    ~Fonts() { ImGui::DestroyContext(); }
    Fonts(const Fonts&) = delete;
    Fonts& operator=(const Fonts&) = delete;
    podwright::Type type;
};
