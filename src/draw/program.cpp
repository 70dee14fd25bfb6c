#include "draw/program.hpp"

#include <sstream>

#include <glm/gtc/type_ptr.hpp>

#include "draw/renderer.hpp"
#include "draw/shader_sources.hpp"

namespace podwright {

namespace {

std::string compose(std::initializer_list<std::string_view> parts, std::string_view defines) {
    std::string text = epoxy_is_desktop_gl()
                           ? "#version 330 core\n"
                           : "#version 300 es\nprecision highp float;\nprecision highp int;\n"
                             "precision highp sampler2D;\nprecision highp sampler2DShadow;\n"
                             "precision highp sampler3D;\n";
    std::istringstream words{std::string(defines)};
    for (std::string word; words >> word;) text += "#define " + word + "\n";
    for (const auto part : parts) text += shader_source(part);
    return text;
}

GLuint compile(GLenum kind, const std::string& text) {
    const GLuint shader = glCreateShader(kind);
    const char* start = text.c_str();
    glShaderSource(shader, 1, &start, nullptr);
    glCompileShader(shader);
    GLint done = 0;
    glGetShaderiv(shader, GL_COMPILE_STATUS, &done);
    if (done != 0) return shader;
    std::string log(1024, '\0');
    GLsizei size = 0;
    glGetShaderInfoLog(shader, static_cast<GLsizei>(log.size()), &size, log.data());
    glDeleteShader(shader);
    log.resize(static_cast<std::size_t>(size));
    throw DrawError("This computer's OpenGL refused a shader: " + log.substr(0, log.find('\n')));
}

}  // namespace

Program::Program(std::initializer_list<std::string_view> vertex_parts,
                 std::initializer_list<std::string_view> fragment_parts, std::string_view defines)
    : program_(GlProgram::make()) {
    const GLuint id = program_.id();
    const GLuint vertex = compile(GL_VERTEX_SHADER, compose(vertex_parts, defines));
    glAttachShader(id, vertex);
    glDeleteShader(vertex);
    const GLuint fragment = compile(GL_FRAGMENT_SHADER, compose(fragment_parts, defines));
    glAttachShader(id, fragment);
    glDeleteShader(fragment);
    glLinkProgram(id);
    GLint done = 0;
    glGetProgramiv(id, GL_LINK_STATUS, &done);
    if (done == 0) throw DrawError("This computer's OpenGL refused to link a shader.");

    GLint count = 0;
    glGetProgramiv(id, GL_ACTIVE_UNIFORMS, &count);
    for (GLint i = 0; i < count; ++i) {
        char name[64] = {};
        GLint size = 0;
        GLenum type = 0;
        glGetActiveUniform(id, static_cast<GLuint>(i), sizeof name, nullptr, &size, &type, name);
        locations_[name] = glGetUniformLocation(id, name);
    }
}

int Program::location(const char* name) const {
    const auto found = locations_.find(std::string_view(name));
    return found == locations_.end() ? -1 : found->second;
}

void Program::use() const { glUseProgram(program_.id()); }

void Program::set(const char* name, float value) const { glUniform1f(location(name), value); }
void Program::set(const char* name, int value) const { glUniform1i(location(name), value); }
void Program::set(const char* name, const glm::vec2& value) const {
    glUniform2fv(location(name), 1, glm::value_ptr(value));
}
void Program::set(const char* name, const glm::vec3& value) const {
    glUniform3fv(location(name), 1, glm::value_ptr(value));
}
void Program::set(const char* name, const glm::vec4& value) const {
    glUniform4fv(location(name), 1, glm::value_ptr(value));
}
void Program::set(const char* name, const glm::mat4& value) const {
    glUniformMatrix4fv(location(name), 1, GL_FALSE, glm::value_ptr(value));
}

}  // namespace podwright
