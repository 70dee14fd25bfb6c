#include "main/command_names.hpp"

#include <algorithm>

#include "file/disk.hpp"
#include "file/near.hpp"

namespace podwright {

const std::vector<std::string>& command_names() {
    static const std::vector<std::string> names = {"report", "choose", "plan",     "picture",
                                                   "record", "keys",   "materials"};
    return names;
}

void check_command(std::span<const std::string> arguments, const std::string& scene) {
    const std::vector<std::string>& names = command_names();
    const bool is_first = !arguments.empty() && arguments.front() == scene &&
                          std::find(names.begin(), names.end(), scene) == names.end();
    const bool is_path = scene.find_first_of("./\\") != std::string::npos;
    if (!is_first || is_path || is_there(scene)) return;
    const std::string meant = did_you_mean(scene, names);
    throw UsageError("there is no command \"" + scene + "\"" +
                     (meant.empty() ? "; see podwright --help" : meant));
}

}  // namespace podwright
