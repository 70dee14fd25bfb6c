#pragma once

#include <sys/wait.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <string>
#include <vector>

#include "file/temporary_folder.hpp"

// The real program, run as a person would.

struct Result {
    int code;
    std::string out, errors;
};

inline std::string quoted(const std::string& argument) {
    std::string text = "'";
    for (const char c : argument) text += c == '\'' ? "'\\''" : std::string(1, c);
    return text + "'";
}

/// Runs the real program, once.
inline Result run_once(const std::vector<std::string>& arguments) {
    const TemporaryFolder folder;
    std::string command = quoted(PODWRIGHT_PROGRAM);
    for (const std::string& argument : arguments) command += " " + quoted(argument);
    command +=
        " >" + quoted((folder / "out").string()) + " 2>" + quoted((folder / "errors").string());
    const int status = std::system(command.c_str());
    return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, bytes_of(folder / "out"),
            bytes_of(folder / "errors")};
}

/// Runs the real program. The leak sanitizer may itself break down while the threads of a graphics
/// library end, which says nothing of the program: then once more, and again.
inline Result run(const std::vector<std::string>& arguments) {
    Result result = run_once(arguments);
    for (int again = 0; again < 2; ++again) {
        if (result.errors.find("LeakSanitizer has encountered a fatal error") == std::string::npos)
            break;
        result = run_once(arguments);
    }
    return result;
}

inline std::string scene(const std::string& name) {
    return std::string(PODWRIGHT_SOURCE_DIR) + "/scenes/" + name;
}

/// Failed as it must: exit 3, one line on standard error, nothing on standard output.
inline void check_failed(const Result& result, const std::string& part) {
    INFO(result.errors);
    CHECK(result.code == 3);
    CHECK(result.out.empty());
    CHECK(std::count(result.errors.begin(), result.errors.end(), '\n') == 1);
    CHECK(result.errors.find(part) != std::string::npos);
}
