#include "file/gltf_load.hpp"

#include <algorithm>
#include <cstdint>
#include <exception>
#include <nlohmann/json.hpp>
#include <vector>

#include "file/disk.hpp"
#include "file/document.hpp"
#include "file/scene.hpp"

namespace podwright {

namespace {

constexpr int deepest_json = 64;

std::uint32_t word_at(std::string_view bytes, std::size_t at) {
    std::uint32_t word = 0;
    for (std::size_t k = 0; k < 4; ++k)
        word |= std::uint32_t{static_cast<unsigned char>(bytes[at + k])} << (8 * k);
    return word;
}

int json_depth(std::string_view json) {
    int depth = 0;
    int most = 0;
    bool in_text = false;
    for (std::size_t i = 0; i < json.size(); ++i) {
        const char c = json[i];
        if (in_text) {
            if (c == '\\') ++i;
            in_text = c != '"';
        } else if (c == '"') {
            in_text = true;
        } else if (c == '[' || c == '{') {
            most = std::max(most, ++depth);
        } else if (c == ']' || c == '}') {
            --depth;
        }
    }
    return most;
}

/// The library trusts the nesting of the JSON.
void check_depth(std::string_view json, const std::string& name) {
    if (json_depth(json) > deepest_json) fail_mesh(name, "its description is nested too deep");
}

/// A buffer without an address is the data of the file itself, and only the first may be (glTF 2.0,
/// section 4.4.3.3). The library copies it for each.
void check_buffers(std::string_view json, const std::string& name) {
    const nlohmann::json description =
        nlohmann::json::parse(json.begin(), json.end(), nullptr, false);
    if (!description.is_object() || !description.contains("buffers")) return;
    const nlohmann::json& buffers = description["buffers"];
    const auto here = std::count_if(buffers.begin(), buffers.end(), [](const auto& buffer) {
        return buffer.is_object() && !buffer.contains("uri");
    });
    if (here > 1) fail_mesh(name, "more than one of its buffers is the data of the file itself");
}

/// GLB container, glTF 2.0 specification section 4.4.
void check_container(std::string_view bytes, const std::string& name) {
    constexpr std::uint32_t json_chunk = 0x4E4F534A;
    if (bytes.size() < 20 || !is_binary_gltf(bytes)) fail_mesh(name, "it is not a .glb file");
    if (word_at(bytes, 4) != 2) fail_mesh(name, "it is glTF of another version than 2");
    if (word_at(bytes, 8) != bytes.size()) fail_mesh(name, "it is cut off or has bytes to spare");
    const std::size_t json = word_at(bytes, 12);
    if (word_at(bytes, 16) != json_chunk || json > bytes.size() - 20)
        fail_mesh(name, "its description is missing or cut off");
    check_depth(bytes.substr(20, json), name);
    check_buffers(bytes.substr(20, json), name);
}

/// The files that a description may name: those in its own folder.
struct Beside {
    std::filesystem::path folder;
    std::size_t left = 0;   ///< bytes that may still be read; 0: no file may be named at all
    std::string complaint;  ///< why one could not be read

    bool read(const std::string& uri, std::vector<unsigned char>& into) {
        const std::filesystem::path file(uri);
        const bool inside =
            !uri.empty() && file.is_relative() && uri.find(':') == std::string::npos &&
            std::none_of(uri.begin(), uri.end(), [](char c) { return c == '\0'; }) &&
            std::find(file.begin(), file.end(), "..") == file.end();
        if (left == 0)
            complaint = "it refers to another file";
        else if (!inside)
            complaint = "it refers to \"" + shown(uri) + "\", which is not in its own folder";
        if (!complaint.empty()) return false;
        try {
            const std::string bytes = read_file(folder / file, left);
            left = std::max<std::size_t>(left - bytes.size(), 1);
            into.assign(bytes.begin(), bytes.end());
            return true;
        } catch (const FileError& error) {
            complaint = "it refers to another file, " + std::string(error.what());
            return false;
        }
    }
};

bool no_picture(tinygltf::Image*, int, std::string* error, std::string*, int, int,
                const unsigned char*, int, void*) {
    if (error) *error = "it holds pictures";
    return false;
}

void set_callbacks(tinygltf::TinyGLTF& loader, Beside& beside) {
    loader.SetImageLoader(no_picture, nullptr);
    tinygltf::FsCallbacks files{};
    files.user_data = &beside;
    files.FileExists = [](const std::string&, void*) { return true; };
    files.ExpandFilePath = [](const std::string& path, void*) { return path; };
    files.ReadWholeFile = [](std::vector<unsigned char>* bytes, std::string*,
                             const std::string& path,
                             void* user) { return static_cast<Beside*>(user)->read(path, *bytes); };
    files.WriteWholeFile = [](std::string*, const std::string&, const std::vector<unsigned char>&,
                              void*) { return false; };
    loader.SetFsCallbacks(files);
}

/// Extensions that only say how a surface looks can be left out; what others do to the shape is not
/// known here.
void check_extensions(const tinygltf::Model& model, const std::string& name) {
    for (const std::string& extension : model.extensionsRequired)
        if (extension.rfind("KHR_materials_", 0) != 0)
            fail_mesh(name, "it needs the extension \"" + shown(extension) + "\"");
}

/// Runs `load` on a loader and turns everything that goes wrong into one line.
template <class Load>
tinygltf::Model loaded(const std::string& name, Beside beside, const Load& load) {
    tinygltf::TinyGLTF loader;
    set_callbacks(loader, beside);
    tinygltf::Model model;
    std::string error;
    std::string warning;
    bool done = false;
    try {
        done = load(loader, model, error, warning);
    } catch (const std::exception& exception) {
        error = exception.what();
    }
    if (!model.images.empty()) fail_mesh(name, "it holds pictures");
    if (!beside.complaint.empty()) fail_mesh(name, beside.complaint);
    if (!done) fail_mesh(name, error.empty() ? "its description is wrong" : shown(error));
    check_extensions(model, name);
    return model;
}

}  // namespace

void fail_mesh(const std::string& name, const std::string& what) {
    throw FileError(name + ": not a mesh that can be used: " + what +
                    "; export it again as binary glTF 2.0 with triangles only");
}

bool is_binary_gltf(std::string_view bytes) {
    constexpr std::uint32_t magic = 0x46546C67;
    return bytes.size() >= 4 && word_at(bytes, 0) == magic;
}

tinygltf::Model load_binary_gltf(std::string_view bytes, const std::string& name) {
    check_container(bytes, name);
    return loaded(name, {}, [&](auto& loader, auto& model, auto& error, auto& warning) {
        return loader.LoadBinaryFromMemory(&model, &error, &warning,
                                           reinterpret_cast<const unsigned char*>(bytes.data()),
                                           static_cast<unsigned>(bytes.size()));
    });
}

tinygltf::Model load_text_gltf(std::string_view bytes, const std::filesystem::path& path,
                               std::size_t most) {
    const std::string name = path.string();
    const std::size_t first = bytes.find_first_not_of(" \t\r\n");
    if (first == std::string_view::npos || bytes[first] != '{')
        fail_mesh(name, "it is neither a .glb nor a .gltf file");
    check_depth(bytes, name);
    const Beside beside{path.parent_path(), most, {}};
    return loaded(name, beside, [&](auto& loader, auto& model, auto& error, auto& warning) {
        return loader.LoadASCIIFromString(&model, &error, &warning, bytes.data(),
                                          static_cast<unsigned>(bytes.size()), "");
    });
}

}  // namespace podwright
