#include <algorithm>
#include <catch2/catch.hpp>

#include "core/parameters.hpp"
#include "file/document.hpp"
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

TEST_CASE("scenes/README.md holds the tables of all keys as they are") {
    const std::string text =
        bytes_of(std::filesystem::path(PODWRIGHT_SOURCE_DIR) / "scenes" / "README.md");
    const std::string begin = "<!-- keys begin -->\n";
    const std::size_t from = text.find(begin);
    const std::size_t to = text.find("<!-- keys end -->");
    REQUIRE(from != std::string::npos);
    REQUIRE(to != std::string::npos);
    CHECK(text.substr(from + begin.size(), to - from - begin.size()) == key_tables());
}

TEST_CASE("the key tables hold every key of every table that a scene can have") {
    const std::string tables = key_tables();
    CHECK(tables.rfind(key_table(), 0) == 0);
    // Derived: the demo scenes, the box and the rules beside them use nothing that is not listed.
    std::size_t keys = 0;
    for (const auto& entry : std::filesystem::directory_iterator(
             std::filesystem::path(PODWRIGHT_SOURCE_DIR) / "scenes")) {
        if (entry.path().extension() != ".toml") continue;
        const Document document = read_document(bytes_of(entry.path()), "s");
        for (const Entry& top : document.top) {
            INFO(entry.path() << " " << top.name);
            CHECK(tables.find("`" + top.name + "` | ") != std::string::npos);
        }
        for (const TableNode& table : document.tables)
            for (const Entry& key : table.entries) {
                INFO(entry.path() << " " << table.name << "." << key.name);
                const std::string header =
                    table.listed ? "[[" + table.name + "]]" : "[" + table.name + "]";
                const bool listed =
                    tables.find("| `" + table.name + "." + key.name + "` | ") !=
                        std::string::npos ||
                    tables.find("| `" + header + "` | `" + key.name + "` | ") != std::string::npos;
                CHECK(listed);
                ++keys;
            }
    }
    CHECK(keys > 300);
    for (const char* row : {"| at the top | `rules` | ", "| `[box]` | `blades` | ",
                            "| `[[box_axle]]` | `material` | ", "| `[[goal]]` | `weight` | ",
                            "| `[day]` | `wear_left` | ", "| `[[rule]]` | `from` | ",
                            "| `[[measured]]` | `uncertainty` | ", "| `[[own_part]]` | `look` | "})
        CHECK(tables.find(row) != std::string::npos);
}
