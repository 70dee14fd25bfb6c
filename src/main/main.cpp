#include <iostream>
#include <string>
#include <vector>

#include "main/command_line.hpp"
#include "main/large_pages.hpp"

int main(int count, char** values) {
    podwright::ask_for_large_pages();
    const std::vector<std::string> arguments(values + (count > 0 ? 1 : 0), values + count);
    const podwright::Graphics graphics{podwright::run_window,      podwright::write_picture,
                                       podwright::write_recording, podwright::view_names(),
                                       podwright::motion_words(),  podwright::load_names()};
    return podwright::run_command_line(arguments, graphics, std::cout, std::cerr);
}
