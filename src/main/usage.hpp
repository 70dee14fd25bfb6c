#pragma once

#include <string>
#include <utility>

namespace CLI {
class App;
class ParseError;
}  // namespace CLI

// What is wrong with the arguments of the program, in its own words.
namespace podwright {

/// One line: what is wrong, what would be right, and whose help says more. `app` has tried to parse
/// the arguments and failed with `error`.
std::string usage_mistake(const CLI::App& app, const CLI::ParseError& error);

/// The number that was given to `option`. Throws UsageError with what would be `right` where it is
/// none, or not from `low` to `high`.
double number_given(const std::string& option, const std::string& text, double low, double high,
                    const std::string& right);

/// The same for a whole number, which the message says.
int whole_number_given(const std::string& option, const std::string& text, int low, int high);

/// Width and height from "1280x720".
std::pair<int, int> size_given(const std::string& text);

}  // namespace podwright
