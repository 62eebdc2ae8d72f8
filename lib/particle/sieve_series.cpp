#include "lakebound/particle/sieve_series.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

namespace lakebound {
namespace {

constexpr Origin read_row = Origin::published;
constexpr Origin by_memory = Origin::memory;

// micrometres, ASTM number, R 20/3, R 40/3, R 20, origin of the ASTM row
constexpr std::array table{
    StandardSieve{125000, "5 in", true, true, true, read_row},
    StandardSieve{106000, "4.24 in", false, true, false, by_memory},
    StandardSieve{90000, "3 1/2 in", true, true, true, by_memory},
    StandardSieve{75000, "3 in", false, true, false, read_row},
    StandardSieve{63000, "2 1/2 in", true, true, true, by_memory},
    StandardSieve{53000, "2.12 in", false, true, false, by_memory},
    StandardSieve{45000, "1 3/4 in", true, true, true, by_memory},
    StandardSieve{37500, "1 1/2 in", false, true, false, by_memory},
    StandardSieve{31500, "1 1/4 in", true, true, true, by_memory},
    StandardSieve{26500, "1.06 in", false, true, false, by_memory},
    StandardSieve{25000, "1 in", false, false, true, read_row},
    StandardSieve{22400, "7/8 in", true, true, true, by_memory},
    StandardSieve{19000, "3/4 in", false, true, false, read_row},
    StandardSieve{16000, "5/8 in", true, true, true, by_memory},
    StandardSieve{13200, "0.530 in", false, true, false, by_memory},
    StandardSieve{12500, "1/2 in", false, false, true, by_memory},
    StandardSieve{11200, "7/16 in", true, true, true, by_memory},
    StandardSieve{9500, "3/8 in", false, true, false, read_row},
    StandardSieve{8000, "5/16 in", true, true, true, by_memory},
    StandardSieve{6700, "0.265 in", false, true, false, by_memory},
    StandardSieve{6300, "1/4 in", false, false, true, read_row},
    StandardSieve{5600, "3 1/2", true, true, true, read_row},
    StandardSieve{4750, "4", false, true, false, read_row},
    StandardSieve{4000, "5", true, true, true, read_row},
    StandardSieve{3350, "6", false, true, false, read_row},
    StandardSieve{2800, "7", true, true, true, read_row},
    StandardSieve{2360, "8", false, true, false, by_memory},
    StandardSieve{2000, "10", true, true, true, read_row},
    StandardSieve{1700, "12", false, true, false, by_memory},
    StandardSieve{1400, "14", true, true, true, by_memory},
    StandardSieve{1180, "16", false, true, false, by_memory},
    StandardSieve{1000, "18", true, true, true, by_memory},
    StandardSieve{850, "20", false, true, false, read_row},
    StandardSieve{710, "25", true, true, true, by_memory},
    StandardSieve{600, "30", false, true, false, by_memory},
    StandardSieve{500, "35", true, true, true, by_memory},
    StandardSieve{425, "40", false, true, false, read_row},
    StandardSieve{355, "45", true, true, true, by_memory},
    StandardSieve{300, "50", false, true, false, by_memory},
    StandardSieve{250, "60", true, true, true, read_row},
    StandardSieve{212, "70", false, true, false, by_memory},
    StandardSieve{180, "80", true, true, true, read_row},
    StandardSieve{150, "100", false, true, false, read_row},
    StandardSieve{125, "120", true, true, true, by_memory},
    StandardSieve{112, "", false, false, true, by_memory},
    StandardSieve{106, "140", false, true, false, by_memory},
    StandardSieve{100, "", false, false, true, by_memory},
    StandardSieve{90, "170", true, true, true, by_memory},
    StandardSieve{80, "", false, false, true, by_memory},
    StandardSieve{75, "200", false, true, false, read_row},
    StandardSieve{71, "", false, false, true, by_memory},
    StandardSieve{63, "230", true, true, true, by_memory},
    StandardSieve{56, "", false, false, true, by_memory},
    StandardSieve{53, "270", false, true, false, by_memory},
    StandardSieve{50, "", false, false, true, by_memory},
    StandardSieve{45, "325", true, true, true, by_memory},
    StandardSieve{40, "", false, false, true, by_memory},
    StandardSieve{38, "400", false, true, false, by_memory},
    StandardSieve{36, "", false, false, true, by_memory},
    StandardSieve{32, "450", true, true, true, by_memory},
    StandardSieve{25, "500", false, false, true, by_memory},
    StandardSieve{20, "635", false, false, true, by_memory},
};

// ASTM E11-01 Table 1 as read: nominal, average tolerance, largest single opening (all um).
struct E11Row {
    double nominal, average, largest;
};
constexpr std::array e11_rows{
    E11Row{125000, 3700, 130900}, E11Row{75000, 2200, 78700}, E11Row{25000, 800, 26400},
    E11Row{19000, 600, 20100},    E11Row{9500, 300, 10160},   E11Row{6300, 200, 6780},
    E11Row{5600, 180, 6040},      E11Row{4750, 150, 5140},    E11Row{4000, 130, 4350},
    E11Row{3350, 110, 3660},
};

struct OldAperture {
    double micrometres;
    const char* number;
    double now;
};
constexpr std::array old_series{
    OldAperture{841, "20", 850}, OldAperture{707, "25", 710},  OldAperture{595, "30", 600},
    OldAperture{354, "45", 355}, OldAperture{297, "50", 300},  OldAperture{210, "70", 212},
    OldAperture{177, "80", 180}, OldAperture{149, "100", 150}, OldAperture{105, "140", 106},
    OldAperture{88, "170", 90},  OldAperture{74, "200", 75},   OldAperture{44, "325", 45},
    OldAperture{37, "400", 38},
};

bool same(double a, double b) { return std::abs(a - b) <= 1e-6 * b; }

std::string collapse(std::string_view text) {
    std::string out;
    for (const char c : text) {
        const bool blank = c == ' ' || c == '\t' || c == ',';
        if (!blank)
            out.push_back(c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c);
        else if (!out.empty() && out.back() != ' ')
            out.push_back(' ');
    }
    while (!out.empty() && out.back() == ' ')
        out.pop_back();
    return out;
}

[[noreturn]] void refuse(std::string_view text, const char* id, const std::string& what, std::string hint) {
    throw QuantityTextError(id, 0, text.size(), what, std::move(hint));
}

void check_standard_range(Length aperture) {
    const double um = in_micrometres(aperture);
    if (!(um >= 20.0 - 1e-9 && um <= 125000.0 + 1e-6))
        throw_out_of_range("aperture of a wire test sieve", um, "um", "20 um to 125 mm");
}

Sieve woven(std::string_view text, const std::string& plain, std::size_t mesh_at) {
    const std::string hint =
        "give the aperture ('75 um'), the ASTM number ('No. 200'), or the thread too ('nylon "
        "200 mesh thread 50 um')";
    const std::string what =
        "a mesh count is not an aperture: 200 mesh is 74 um in one wire cloth and 77 um in one nylon";
    const auto thread_at = plain.find("thread ");
    const bool nylon = plain.rfind("nylon ", 0) == 0;
    const bool wire = plain.rfind("wire ", 0) == 0;
    if (thread_at == std::string::npos || thread_at < mesh_at || !(nylon || wire))
        refuse(text, "sieve-mesh", what, hint);
    const std::size_t from = nylon ? 6 : 5;
    if (mesh_at <= from || plain.substr(mesh_at, thread_at - mesh_at) != "mesh ")
        refuse(text, "sieve-mesh", what, hint);
    std::string count = plain.substr(from, mesh_at - from);
    while (!count.empty() && count.back() == ' ')
        count.pop_back();
    Sieve sieve;
    try {
        sieve.aperture = aperture_of_mesh(read_number(count), read<Length>(plain.substr(thread_at + 7)));
    } catch (const QuantityTextError& e) {
        refuse(text, "sieve-mesh", e.what(), hint);
    } catch (const DomainError& e) {
        refuse(text, "sieve-mesh", e.what(), hint);
    }
    sieve.cloth = nylon ? SieveCloth::nylon : SieveCloth::wire;
    sieve.designation = std::string(text);
    sieve.note = "aperture computed from thread count and thread diameter; wear and uneven weave are not in it";
    return sieve;
}

} // namespace

std::span<const StandardSieve> standard_sieves() { return table; }

std::optional<StandardSieve> standard_sieve(Length aperture) {
    const double um = in_micrometres(aperture);
    for (const auto& row : table)
        if (same(um, row.aperture_um)) return row;
    return std::nullopt;
}

StandardSieve sieve_of_number(std::string_view number) {
    const std::string wanted = collapse(number);
    for (const auto& row : table)
        if (*row.astm_number != '\0' && wanted == row.astm_number) return row;
    throw DomainError("ASTM E11 sieve number", "No. " + wanted,
                      "3 1/2 to 635 as in the table of ASTM E11 (60, 80, 100, 140, 200, 325, 400, 500 ...)",
                      "give the aperture instead, as in '75 um'");
}

std::optional<StandardSieve> next_standard_sieve_below(Length size) {
    const double um = in_micrometres(size) * (1.0 + 1e-9);
    for (const auto& row : table)
        if (row.aperture_um <= um) return row;
    return std::nullopt;
}

Length aperture_of_mesh(double threads_per_inch, Length thread) {
    if (!(threads_per_inch > 0.0 && std::isfinite(threads_per_inch)))
        throw_out_of_range("thread count", threads_per_inch, "per inch", "above 0");
    const double pitch = 25.4e-3 / threads_per_inch;
    const double d = in_metres(thread);
    if (!(d > 0.0 && d < pitch))
        throw_out_of_range("thread diameter", d * 1e6, "um",
                           "above 0 and thinner than the thread pitch, 25.4 mm / count");
    return metres(pitch - d);
}

std::string old_series_note(Length aperture) {
    const double um = in_micrometres(aperture);
    for (const auto& row : old_series)
        if (same(um, row.micrometres))
            return std::string("aperture of the older series; No. ") + row.number + " is now " +
                   number_text(row.now) + " um";
    return {};
}

Sieve parse_sieve(std::string_view text) {
    const std::string plain = collapse(text);
    if (const auto mesh_at = plain.find("mesh"); mesh_at != std::string::npos)
        return woven(text, plain, mesh_at);
    if (plain.rfind("no", 0) == 0 && plain.find_first_of(". 0123456789", 2) == 2) { // and not "nothing"
        std::string number = plain.substr(2);
        if (number.front() == '.') number.erase(0, 1);
        if (!number.empty() && number.front() == ' ') number.erase(0, 1);
        try {
            return {sieve_of_number(number).aperture(), SieveCloth::wire, std::string(text), {}};
        } catch (const DomainError&) {
            refuse(text, "sieve-number", "ASTM E11 has no screen No. " + number,
                   "it has No. 60, 80, 100, 140, 200, 325, 400, 500; or give the aperture, as in '75 um'");
        }
    }
    if (plain.find_first_of("abcdefghijklmnopqrstuvwxyz") == std::string::npos)
        refuse(text, "sieve-mesh",
               "a bare number does not say whether it is an aperture, an ASTM number or a mesh count",
               "write '75 um' or 'No. 200'");
    const Length aperture = read<Length>(text);
    const double um = in_micrometres(aperture);
    if (!(um >= 1.0 - 1e-9 && um <= 125000.0 + 1e-6))
        refuse(text, "sieve-aperture", "a sieve aperture lies between 1 um and 125 mm",
               "check the unit: um or mm");
    Sieve sieve{aperture, SieveCloth::wire, std::string(text), old_series_note(aperture)};
    if (sieve.note.empty() && !standard_sieve(aperture)) sieve.note = "not an aperture of ISO 565 or ASTM E11";
    return sieve;
}

ApertureTolerance aperture_tolerance_formula(Length aperture) {
    check_standard_range(aperture);
    const double w = in_micrometres(aperture);
    return {micrometres(std::pow(w, 0.98) / 27.0 + 1.6),
            micrometres(2.0 / 3.0 * std::pow(w, 0.75) + 4.0 * std::pow(w, 0.25)), Origin::memory, "iso-3310-1"};
}

ApertureTolerance aperture_tolerance(Length aperture) {
    const double w = in_micrometres(aperture);
    for (const auto& row : e11_rows)
        if (same(w, row.nominal))
            return {micrometres(row.average), micrometres(row.largest - row.nominal), Origin::published,
                    "astm-e11"};
    return aperture_tolerance_formula(aperture);
}

} // namespace lakebound
