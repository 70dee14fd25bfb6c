#pragma once

#include <initializer_list>
#include <map>
#include <string>
#include <string_view>

#include <glm/glm.hpp>

#include "draw/gl_handle.hpp"

namespace podwright {

/// A linked pair of shaders. Setting a uniform that the program does not use does nothing.
class Program {
public:
    /// Each shader is its parts (names of shaders/*.glsl) one after the other, after a `#version`
    /// line that suits the context and a `#define` for each word of `defines`. Throws DrawError.
    Program(std::initializer_list<std::string_view> vertex_parts,
            std::initializer_list<std::string_view> fragment_parts, std::string_view defines = {});

    void use() const;
    void set(const char* name, float value) const;
    void set(const char* name, int value) const;
    void set(const char* name, const glm::vec2& value) const;
    void set(const char* name, const glm::vec3& value) const;
    void set(const char* name, const glm::vec4& value) const;
    void set(const char* name, const glm::mat4& value) const;

private:
    int location(const char* name) const;

    GlProgram program_;
    std::map<std::string, int, std::less<>> locations_;
};

}  // namespace podwright
