#include <algorithm>
#include <catch2/catch.hpp>

#include "core/parameters.hpp"
#include "file/scene.hpp"
#include "temporary_folder.hpp"

using namespace podwright;

TEST_CASE("the key table has one row for every key") {
    const std::string table = key_table();
    for (const Parameter& parameter : parameters()) {
        INFO(parameter.key);
        CHECK(table.find("| `" + parameter.key + "` | ") != std::string::npos);
    }
    const auto rows = std::count(table.begin(), table.end(), '\n');
    CHECK(rows == static_cast<long>(parameters().size()) + 2);
}

TEST_CASE("scenes/README.md holds the materials with their sources as they are") {
    const std::string text =
        bytes_of(std::filesystem::path(PODWRIGHT_SOURCE_DIR) / "scenes" / "README.md");
    const std::string table = material_table();
    CHECK(text.find("<!-- materials begin -->\n" + table + "<!-- materials end -->") !=
          std::string::npos);
    CHECK(std::count(table.begin(), table.end(), '\n') ==
          static_cast<long>(materials().size()) + 2);
    // What is calculated with, not what it rounds to.
    for (const MaterialData& material : materials()) {
        const std::string row = table.substr(table.find("| `" + std::string(material.key) + "` |"));
        std::size_t at = 0;
        for (int column = 0; column < 3; ++column) at = row.find('|', at + 1);
        CHECK(std::stod(row.substr(row.rfind('|', at - 1) + 1)) == material.density);
        CHECK(std::stod(row.substr(at + 1)) == material.elastic_modulus);
        CHECK(std::stod(row.substr(row.find('|', at + 1) + 1)) == material.shear_modulus);
    }
    // asm.matweb.com m4130r: 7.85 g/cm3, 205 GPa, 80 GPa; expansion and yield from memory; 460/sqrt
    // 3 = 266, derived.
    CHECK(table.find("| 7.85 | 205.0 | 80.0 | 12.0 | 460 | 266 | asm.matweb.com m4130r") !=
          std::string::npos);
}

TEST_CASE("scenes/README.md holds the key table as it is") {
    const std::string text =
        bytes_of(std::filesystem::path(PODWRIGHT_SOURCE_DIR) / "scenes" / "README.md");
    const std::string begin = "<!-- keys begin -->\n";
    const std::size_t from = text.find(begin);
    const std::size_t to = text.find("<!-- keys end -->");
    REQUIRE(from != std::string::npos);
    REQUIRE(to != std::string::npos);
    CHECK(text.substr(from + begin.size(), to - from - begin.size()) == key_table());
}
