#include "main/usage.hpp"

#include <CLI/CLI.hpp>
#include <charconv>
#include <optional>

#include "file/near.hpp"
#include "main/command_names.hpp"

namespace podwright {

namespace {

/// The command that the arguments name, or the program itself.
const CLI::App& asked_command(const CLI::App& app) {
    const std::vector<CLI::App*> commands = app.get_subcommands();
    return commands.empty() ? app : *commands.front();
}

std::string not_expected(const CLI::App& app, const CLI::App& command) {
    std::string list;
    const std::vector<std::string> extras = app.remaining(true);
    for (const std::string& extra : extras) list += (list.empty() ? "" : " ") + extra;
    std::vector<std::string> names;
    for (const CLI::Option* option : command.get_options())
        for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
    return "not expected: " + list + (extras.empty() ? "" : did_you_mean(extras.front(), names));
}

/// An option that was given too often, without its value, or with one where it takes none.
std::string mismatch(const CLI::App& command, const std::string& complaint) {
    for (const CLI::Option* option : command.get_options()) {
        const std::string name = option->get_name();
        const bool takes_one = option->get_items_expected_max() == 1;
        if (takes_one && option->count() > 1)
            return name + " is given " + std::to_string(option->count()) + " times; give it once";
        if (takes_one && complaint.rfind(name + ": ", 0) == 0)
            return name + " lacks its value; write " + name + " " + option->get_type_name();
        for (const std::string& flag : option->get_lnames())
            if (complaint.rfind(flag + " was given", 0) == 0)
                return name + " takes no value; write " + name + ", or leave it out";
    }
    return complaint;
}

/// A whole number of at most four digits.
std::optional<int> small_number(std::string_view digits) {
    if (digits.empty() || digits.size() > 4) return std::nullopt;
    int value = 0;
    for (const char c : digits) {
        if (c < '0' || c > '9') return std::nullopt;
        value = 10 * value + (c - '0');
    }
    return value;
}

}  // namespace

std::string usage_mistake(const CLI::App& app, const CLI::ParseError& error) {
    const CLI::App& command = asked_command(app);
    std::string what = error.what();
    if (dynamic_cast<const CLI::ExtrasError*>(&error)) what = not_expected(app, command);
    if (dynamic_cast<const CLI::ArgumentMismatch*>(&error)) what = mismatch(command, what);
    const std::string name = &command == &app ? "" : " " + command.get_name();
    return "podwright" + name + ": " + what + "; see podwright" + name + " --help";
}

double number_given(const std::string& option, const std::string& text, double low, double high,
                    const std::string& right) {
    double value = 0;
    const char* end = text.data() + text.size();
    const auto read = std::from_chars(text.data(), end, value);
    if (read.ec != std::errc{} || read.ptr != end || !(value >= low && value <= high))
        throw UsageError(option + " is \"" + text + "\"; it must be " + right);
    return value;
}

int whole_number_given(const std::string& option, const std::string& text, int low, int high) {
    const std::optional<int> value = small_number(text);
    if (!value || *value < low || *value > high)
        throw UsageError(option + " is \"" + text + "\"; it must be a whole number, " +
                         std::to_string(low) + " to " + std::to_string(high));
    return *value;
}

std::pair<int, int> size_given(const std::string& text) {
    const std::size_t cross = text.find_first_of("xX");
    const auto width = small_number(std::string_view(text).substr(0, cross));
    const auto height = cross == std::string::npos
                            ? std::nullopt
                            : small_number(std::string_view(text).substr(cross + 1));
    constexpr int least = 64;
    constexpr int most = 8192;
    if (!width || !height || *width < least || *width > most || *height < least || *height > most)
        throw UsageError("--size is \"" + text +
                         "\"; it must be WIDTHxHEIGHT, each 64 to 8192, such as 1280x720");
    return {*width, *height};
}

}  // namespace podwright
