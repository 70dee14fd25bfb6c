#pragma once

#include <span>
#include <stdexcept>
#include <string>
#include <vector>

namespace podwright {

/// The command line asks for something that cannot be done; what() says what would be right.
struct UsageError : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// All commands.
const std::vector<std::string>& command_names();

/// Of arguments that mean nothing together: throws UsageError if the first was taken for the
/// `scene` to open, but is more likely a mistyped command.
void check_command(std::span<const std::string> arguments, const std::string& scene);

}  // namespace podwright
