#include "lakebound/shelf/typed_series.hpp"

#include <algorithm>

#include "lakebound/shelf/typed_quantity.hpp"

namespace lakebound {

void refuse_decimal_comma(std::string_view text) {
    const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
    std::string pointed(text);
    for (std::size_t i = 1; i + 1 < text.size(); ++i)
        if (text[i] == ',' && is_digit(text[i - 1]) && is_digit(text[i + 1])) pointed[i] = '.';
    if (pointed != text)
        throw InputError(command_line_fault("number-comma", "\"" + std::string(text) + "\": a decimal is written with a point",
                                            "write \"" + pointed + "\""));
}

Series series_option(const std::string& option, const std::string& text, const std::string& example) {
    const auto fault = [&](const std::string& message) {
        return InputError(command_line_fault("series-form", option + " \"" + text + "\": " + message,
                                             "write it like " + option + " \"" + example + "\""));
    };
    refuse_decimal_comma(text);
    static const std::string every = " every ";
    const auto at = text.find(every);
    if (at == std::string::npos) throw fault("how far apart the readings are is not said");
    Series series;
    series.interval = quantity_option<Time>(option, text.substr(at + every.size()));
    if (!(in_seconds(series.interval) > 0.0))
        throw InputError(command_line_fault("out-of-range", option + " \"" + text + "\": the time between readings must be above 0",
                                            "write it like " + option + " \"" + example + "\""));
    const std::string list = text.substr(0, at);
    for (std::size_t from = 0; from <= list.size();) {
        const auto comma = std::min(list.find(',', from), list.size());
        const auto first = list.find_first_not_of(' ', from);
        if (first == std::string::npos || first >= comma) throw fault("a reading is missing between commas");
        const auto last = list.find_last_not_of(' ', comma - 1);
        series.readings.push_back(list.substr(first, last - first + 1));
        from = comma + 1;
    }
    if (series.readings.size() < 3) throw fault("three readings at least are wanted");
    return series;
}

InterfaceHeights blanket_option(const std::string& option, const std::string& text) {
    const std::string example = "100 mm, 62 mm, 48 mm every 2 h";
    const auto series = series_option(option, text, example);
    if (series.readings.size() != 3)
        throw InputError(command_line_fault("series-form", option + " \"" + text + "\": three heights are wanted",
                                            "write it like " + option + " \"" + example + "\""));
    const auto height = [&](std::size_t i) { return ranged_option<Length>(option, series.readings[i], range::water_depth); };
    return {height(0), height(1), height(2), series.interval};
}

} // namespace lakebound
