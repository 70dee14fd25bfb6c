#include <sys/stat.h>

#include <catch2/catch.hpp>
#include <random>

#include "file/scene.hpp"
#include "scene_samples.hpp"
#include "temporary_folder.hpp"

using namespace podwright;

namespace {

std::string complaint_about_file(const std::filesystem::path& path) {
    try {
        read_scene(path);
    } catch (const FileError& error) {
        return error.what();
    }
    return "no error";
}

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos && text.find('\n') == std::string::npos;
}

std::string text_complaint(const std::string& text) {
    try {
        parse_scene(text, "s");
    } catch (const FileError& error) {
        return error.what();
    }
    return "no error";
}

std::string repeated(const std::string& part, std::size_t times) {
    std::string text;
    for (std::size_t i = 0; i < times; ++i) text += part;
    return text;
}

}  // namespace

TEST_CASE("what is not a scene file is refused with a reason") {
    const TemporaryFolder folder;
    CHECK(holds(complaint_about_file(folder / "none.toml"), "there is no such file"));
    CHECK(holds(complaint_about_file(folder.path()), "this is a folder"));
    CHECK(holds(complaint_about_file(""), "no file name"));
    CHECK(holds(complaint_about_file("/dev/zero"), "a device or a pipe"));
    CHECK(holds(complaint_about_file(folder / std::string(300, 'n')), "too long"));
    write_bytes(folder / "file", "");
    CHECK(holds(complaint_about_file(folder / "file"), "the file is empty"));
    CHECK(holds(complaint_about_file(folder.path() / "file" / "x.toml"), "not a folder"));
    REQUIRE(::mkfifo((folder / "pipe").c_str(), 0600) == 0);
    CHECK(holds(complaint_about_file(folder / "pipe"), "a device or a pipe"));
    std::filesystem::create_symlink(folder / "loop", folder / "loop");
    CHECK(holds(complaint_about_file(folder / "loop"), "circle"));

    write_bytes(folder / "huge.toml", std::string((1U << 20U) + 1, '#'));
    CHECK(holds(complaint_about_file(folder / "huge.toml"), "larger than 1 MiB"));
    std::filesystem::resize_file(folder / "huge.toml", std::uintmax_t{1} << 40U);
    CHECK(holds(complaint_about_file(folder / "huge.toml"), "larger than 1 MiB"));
    write_bytes(folder / "large.toml", least_scene + std::string((1U << 20U) - 600, '#'));
    CHECK_NOTHROW(read_scene(folder / "large.toml"));
}

TEST_CASE("bytes that are not text are refused where they stand") {
    CHECK(text_complaint(std::string("a = 1\n\0", 7)).find("s:2:1: this is not a text file") == 0);
    CHECK(text_complaint("a = \"\xC3\xA9\xFF\"").find("s:1:7: this is not UTF-8") == 0);
    CHECK(text_complaint("\x7F"
                         "ELF")
              .find("s:1:1: this is not a text file") == 0);
    CHECK(holds(text_complaint(std::string("\xFF\xFEt\0i\0", 6)), "UTF-16"));
    // Ill-formed sequences of the Unicode standard, table 3-7: overlong, surrogate, beyond, cut
    // off.
    for (const char* wrong : {"\xC0\xAF", "\xE0\x80\x80", "\xED\xA0\x80", "\xF4\x90\x80\x80",
                              "\xF0\x80\x80\x80", "\xE2\x82", "\x80", "\xF8\x88\x80\x80\x80"})
        CHECK(holds(text_complaint(std::string("# ") + wrong), "s:1:3: this is not UTF-8"));
    for (const char* right : {"\xC2\x80", "\xE0\xA0\x80", "\xED\x9F\xBF", "\xF4\x8F\xBF\xBF"})
        CHECK_NOTHROW(parse_scene(std::string("# ") + right + least_scene, "s"));
}

TEST_CASE("deep nesting is refused before it can use up the stack") {
    const std::string deep = "nested too deep";
    CHECK(holds(text_complaint("a = " + std::string(500000, '[')), deep));
    CHECK(holds(text_complaint("a = " + repeated("{a=", 300000)), deep));
    CHECK(holds(text_complaint(repeated("a.", 500000) + "a = 1"), deep));
    CHECK(holds(text_complaint("[" + repeated("a . ", 250000) + "a]"), deep));
    CHECK(holds(text_complaint(repeated("\"a\".", 250000) + "a = 1"), deep));
    CHECK(holds(text_complaint("[[" + repeated("a.", 500000) + "a]]"), deep));
    // The same in texts and comments is nothing.
    const std::string dots = std::string(900, '[') + std::string(900, '.');
    CHECK_NOTHROW(parse_scene("# " + dots + "\nnote = '''" + dots + "'''" + least_scene, "s"));
    CHECK_NOTHROW(parse_scene("note = \"\\\"" + dots + "\" # '\n" + least_scene, "s"));
    CHECK_NOTHROW(
        parse_scene("note = \"\"\"a\\\"\"\"\\\" " + dots + "\"\"\"\"\n" + least_scene, "s"));
}

TEST_CASE("large texts of one kind end in one short line") {
    const std::size_t size = 1000000;
    const std::vector<std::string> texts = {
        std::string(size, '\n'),
        std::string(size, '"'),
        std::string(size, '\''),
        std::string(size, '='),
        std::string(size, 'a') + " = 1",
        "\"" + std::string(size - 10, 'a') + "\" = 1",
        "title = \"" + std::string(size, 'a') + "\"",
        "[left]\nshims = [" + repeated("1,", size / 2 - 20) + "]",
        "[left]\nseat = " + std::string(size, '9'),
        "[left]\nseat = \"" + std::string(size, '9') + " in\"",
        "[left]\nseat = \"1" + std::string(size, ' ') + "in\"",
        repeated("[a]\n", size / 4),
        [&] {
            std::string text;
            for (int i = 0; text.size() < size; ++i) text += "k" + std::to_string(i) + " = 1\n";
            return text;
        }(),
    };
    for (const std::string& text : texts) {
        const std::string message = text_complaint(text);
        INFO(text.substr(0, 20) << ": " << message.substr(0, 300));
        CHECK(message.size() < 400);
        CHECK(message.find("s:") == 0);
        CHECK(message.find('\n') == std::string::npos);
    }
}

TEST_CASE("damaged scenes are read or refused, never anything else") {
    std::mt19937 random(20250413);  // fixed seed
    const std::string start = scene_text(Setup{});
    int refused = 0;
    for (int run = 0; run < 3000; ++run) {
        std::string text = start;
        const int edits = std::uniform_int_distribution<int>(1, 6)(random);
        for (int i = 0; i < edits; ++i) {
            const auto at = std::uniform_int_distribution<std::size_t>(0, text.size() - 1)(random);
            static const std::string odd = "[]{}\"'=.,#\n\\\t\0e+-9a\xC3\xFF ";
            switch (std::uniform_int_distribution<int>(0, 2)(random)) {
                case 0: text[at] = odd[at % odd.size()]; break;
                case 1: text.erase(at, at % 40); break;
                default: text.insert(at, 1, odd[at % odd.size()]);
            }
            if (text.empty()) text = " ";
        }
        try {
            parse_scene(text, "s");
        } catch (const FileError& error) {
            ++refused;
            const std::string message = error.what();
            if (message.find('\n') != std::string::npos || message.find("s:") != 0) FAIL(message);
        }
    }
    CHECK(refused > 500);
    CHECK(refused < 3000);
}
