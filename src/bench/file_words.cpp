#include "bench/file_words.hpp"

namespace podwright {

namespace {

std::string file_name(const Model& model) {
    return model.path.empty() ? "no file yet" : plain(model.path.filename());
}

}  // namespace

std::string plain(const std::filesystem::path& path) {
    const std::u8string text = path.u8string();
    return {text.begin(), text.end()};
}

std::string file_words(const Model& model) {
    const char* state = !model.history.is_saved() ? "changed" : model.is_demo ? "demo" : "saved";
    return file_name(model) + ", " + state;
}

std::string window_title(const Model& model) {
    return file_name(model) + (model.history.is_saved() ? "" : ", changed") + " - Podwright";
}

}  // namespace podwright
