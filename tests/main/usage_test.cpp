#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "program_runner.hpp"

// What is said where the arguments are wrong: what, what would be right, and whose help says more.

namespace {

const std::string first = scene("first-look.toml");

/// Runs the program with its standard output going to a disk that is full.
int code_on_full_disk(const std::string& arguments) {
    const std::string command =
        quoted(PODWRIGHT_PROGRAM) + " " + arguments + " >/dev/full 2>/dev/null";
    const int status = std::system(command.c_str());
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

}  // namespace

TEST_CASE("what is not expected is listed as it was typed") {
    check_failed(run({"report", first, "more", "--size", "3"}), "not expected: more --size 3;");
    check_failed(run({"report", first, "--jsno"}), "did you mean \"--json\"?");
    check_failed(run({"picture", first, "-o", "x.png", "--label"}), "did you mean \"--labels\"?");
    check_failed(run({"keys", "more"}), "not expected: more;");
}

TEST_CASE("a mistake in a command's arguments points to that command's help") {
    for (const char* command : {"report", "choose", "plan", "picture", "record"}) {
        check_failed(run({command}), "; see podwright " + std::string(command) + " --help");
        check_failed(run({command, first, "--colour"}),
                     "; see podwright " + std::string(command) + " --help");
    }
    check_failed(run({"--colour"}), "; see podwright --help");
}

TEST_CASE("a value that is none of its option's is told what would be right") {
    const TemporaryFolder folder;
    const std::string png = (folder / "a.png").string();
    for (const std::string explode : {"abc", "1.1", "-0.1", "0.5x", "nan", ""})
        check_failed(run({"picture", first, "-o", png, "--explode", explode}),
                     "--explode is \"" + explode + "\"; it must be a number, 0 to 1");
    const std::string webp = (folder / "a.webp").string();
    for (const std::string rate : {"10.5", "0", "61", "ten", "-1", ""})
        check_failed(run({"record", first, "-o", webp, "--rate", rate}),
                     "--rate is \"" + rate + "\"; it must be a whole number, 1 to 60");
    for (const std::string seconds : {"0", "121", "nan", "inf", "6 s", ""})
        check_failed(run({"record", first, "-o", webp, "--seconds", seconds}),
                     "--seconds is \"" + seconds + "\"; it must be a number, 0.001 to 120");
    CHECK(folder.names().empty());
}

TEST_CASE("an option without its value, with one too many or given twice is told so") {
    check_failed(run({"picture", first, "-o", "a.png", "-o", "b.png"}),
                 "--output is given 2 times; give it once");
    check_failed(run({"report", first, "--against", first, "--against", first}),
                 "--against is given 2 times");
    check_failed(run({"picture", first, "-o"}),
                 "--output lacks its value; write --output FILE.png");
    check_failed(run({"report", first, "--json=false"}), "--json takes no value");
    check_failed(run({"picture", first, "-o", "a.png", "--cutaway=no"}),
                 "--cutaway takes no value");
    CHECK(run({"report", first, "--json", "--json"}).code == 1);
}

TEST_CASE("an empty name is a mistake, not the same as none") {
    check_failed(run({"report", first, "--against", ""}), "--against is empty");
    check_failed(run({"picture", first, "-o", "a.png", "--ghost", ""}), "--ghost is empty");
    check_failed(run({"picture", first, "-o", "a.png", "--load", ""}), "it must be one of rest, ");
    check_failed(run({"record", first, "-o", ""}), "-o is empty");
    check_failed(run({""}), "SCENE is empty");
    check_failed(run({"report", ""}), "no file name");
}

TEST_CASE("help and version that cannot be written are a failure") {
    for (const char* arguments : {"--help", "--version", "report --help", "keys", "materials"}) {
        INFO(arguments);
        CHECK(code_on_full_disk(arguments) == 3);
    }
}

TEST_CASE("a picture's lengths are written in inches where that is asked for") {
    const TemporaryFolder folder;
    const auto picture = [&](const std::vector<std::string>& more) {
        const std::string png = (folder / "a.png").string();
        std::vector<std::string> call{"picture", first, "-o", png, "--size", "640x360"};
        call.insert(call.end(), more.begin(), more.end());
        const Result drawn = run(call);
        INFO(drawn.errors);
        CHECK(drawn.code == 0);
        return bytes_of(png);
    };
    CHECK(picture({"--labels"}) != picture({"--labels", "--inches"}));
    CHECK(picture({}) == picture({"--inches"}));  // nothing is written on it
    const std::string webp = (folder / "a.webp").string();
    CHECK(run({"record", first, "-o", webp, "--size", "64x64", "--rate", "1", "--seconds", "2",
               "--inches"})
              .code == 0);
}
