#include "core/iso286.hpp"

#include <array>
#include <cstddef>

namespace podwright {

namespace {

constexpr double mm_per_micrometre = 1e-3;
constexpr std::size_t range_count = 5;
constexpr std::array<double, range_count> up_to = {3, 6, 10, 18, 30};  // over the one before

using Row = std::array<double, range_count>;  // µm, by range

// ISO 286-1, table 1: IT5 to IT9 (mechguru.com, engineersvault.blogspot.com; up to 3 and 18 to 30
// from memory). Never by the formula, which gives 14 where the table says 15.
constexpr std::array<Row, 5> grades = {{{4, 5, 6, 8, 9},
                                        {6, 8, 9, 11, 13},
                                        {10, 12, 15, 18, 21},
                                        {14, 18, 22, 27, 33},
                                        {25, 30, 36, 43, 52}}};

struct Letter {
    char name;
    bool is_upper_limit;  ///< the deviation is the upper limit (below the line), else the lower one
    Row micrometres;
};
// ISO 286-1, tables 4 and 5: fundamental deviations of shafts (docs.steelcam.org/sumitomo after JIS
// B 0401; f, n, p, and up to 3 and 18 to 30 from memory). k holds for the grades 4 to 7.
constexpr std::array<Letter, 7> letters = {{{'f', true, {-6, -10, -13, -16, -20}},
                                            {'g', true, {-2, -4, -5, -6, -7}},
                                            {'h', true, {0, 0, 0, 0, 0}},
                                            {'k', false, {0, 1, 1, 1, 2}},
                                            {'m', false, {2, 4, 6, 7, 8}},
                                            {'n', false, {4, 8, 10, 12, 15}},
                                            {'p', false, {6, 12, 15, 18, 22}}}};

std::optional<std::size_t> range_of(double nominal) {
    if (!(nominal > 0)) return {};
    for (std::size_t i = 0; i < range_count; ++i)
        if (nominal <= up_to[i]) return i;
    return {};
}

}  // namespace

std::optional<Deviations> tolerance_class(std::string_view designation, double nominal) {
    const auto range = range_of(nominal);
    if (!range || designation.size() < 2) return {};
    const char grade = designation.back();
    const std::string_view name = designation.substr(0, designation.size() - 1);
    if (grade < '5' || grade > '9') return {};
    const double width = grades[static_cast<std::size_t>(grade - '5')][*range] * mm_per_micrometre;
    if (name == "JS" || name == "js") return Deviations{-width / 2, width / 2};
    if (name.size() != 1) return {};
    const bool is_hole = name[0] >= 'A' && name[0] <= 'Z';
    const char small = is_hole ? static_cast<char>(name[0] - 'A' + 'a') : name[0];
    for (const Letter& letter : letters) {
        if (letter.name != small) continue;
        const double at = letter.micrometres[*range] * mm_per_micrometre;
        // Holes F, G, H mirror the shafts; those of interference follow another rule.
        if (is_hole && !letter.is_upper_limit) return {};
        if (is_hole) return Deviations{-at, -at + width};
        if (small == 'k' && grade > '7') return Deviations{0, width};
        return letter.is_upper_limit ? Deviations{at - width, at} : Deviations{at, at + width};
    }
    return {};
}

std::optional<IsoFit> find_fit(std::string_view designation, double nominal) {
    const std::size_t slash = designation.find('/');
    if (slash == std::string_view::npos) return {};
    const std::string_view hole = designation.substr(0, slash),
                           shaft = designation.substr(slash + 1);
    if (hole.empty() || shaft.empty() || hole[0] > 'Z' || shaft[0] < 'a') return {};
    const auto h = tolerance_class(hole, nominal), s = tolerance_class(shaft, nominal);
    if (!h || !s) return {};
    return IsoFit{*h, *s};
}

std::optional<std::string> freed_fit(std::string_view designation, double nominal, FitPart anew) {
    const std::size_t slash = designation.find('/');
    if (!find_fit(designation, nominal)) return {};
    const std::string hole(designation.substr(0, slash)), shaft(designation.substr(slash + 1));
    const bool other_hole = anew == FitPart::hole;
    for (const char letter : std::string_view(other_hole ? "HGF" : "gf")) {
        const std::string made = std::string(1, letter) + (other_hole ? hole.back() : shaft.back());
        std::string freed = other_hole ? made + "/" + shaft : hole + "/" + made;
        const auto fit = find_fit(freed, nominal);
        if (fit && fit->clearance_low() >= 0) return freed;
    }
    return {};
}

}  // namespace podwright
