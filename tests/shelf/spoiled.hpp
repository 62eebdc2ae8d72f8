#pragma once
// Spoils one file after the other, each time in one way, and writes down what is told of it.

#include <algorithm>
#include <functional>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "faults_of.hpp"
#include "lakebound/shelf/check_file.hpp"
#include "limits.hpp"
#include "small_shelf.hpp"

namespace lakebound::testing {

class Spoiled {
public:
    using Check = std::function<void(const std::string& file, Library&, const Jar&)>;
    Spoiled() : Spoiled([](const std::string& file, Library& library, const Jar& jar) { check_file(file, library, &jar); }) {}
    explicit Spoiled(Check check) : check_(std::move(check)) {}

    /// One line after the other is left out, one value after the other spoiled.
    void file(const std::string& path, const std::string& text) {
        text_ += "==== " + path + "\n";
        told("as it is", path, text);
        const auto lines = lines_of(text);
        for (std::size_t i = 1; i < lines.size(); ++i) {
            auto without = lines;
            without.erase(without.begin() + static_cast<std::ptrdiff_t>(i));
            told("without '" + lines[i] + "'", path, joined(without));
        }
        // Each value, wherever it stands: behind a colon to the next comma, bracket or end of line.
        for (std::size_t at = text.find(": "); at != std::string::npos; at = text.find(": ", at + 1)) {
            const auto from = at + 2, to = end_of_value(text, from);
            const auto begin = text.find_last_of("{,\n ", at - 1) + 1;
            if (begin == 0) continue; // the kind stays
            const std::string key = text.substr(begin, at - begin);
            if (text[from] == '{' || text[from] == '[') { // a map or a list that is none
                told(key + ": nonsense, for " + text.substr(from, to - from), path, text.substr(0, from) + "nonsense" + text.substr(to));
                continue;
            }
            if (to == from) continue;
            for (const char* spoilt : {"nonsense", "-1", "[a]", "{b: c}", "1e9 kg"})
                told(key + ": " + spoilt + ", for " + text.substr(from, to - from), path, text.substr(0, from) + spoilt + text.substr(to));
        }
        limits_of(path, text);
        // A list of lines that is none: a word, or the words of a list.
        for (std::size_t i = 1; i + 1 < lines.size(); ++i)
            if (lines[i].ends_with(":"))
                for (const char* spoilt : {" nonsense", " [a]"}) {
                    auto flat = lines;
                    flat[i] += spoilt;
                    while (i + 1 < flat.size() && flat[i + 1].starts_with(" "))
                        flat.erase(flat.begin() + static_cast<std::ptrdiff_t>(i) + 1);
                    told(flat[i], path, joined(flat));
                }
    }
    /// The file with `from` written as `to`.
    void changed_to(const std::string& path, const std::string& text, const std::string& from, const std::string& to) {
        std::string shown = to.empty() ? "nothing" : to;
        std::replace(shown.begin(), shown.end(), '\n', '/');
        told(shown + ", for " + from.substr(0, from.find('\n')), path, changed(text, from, to));
    }
    const std::string& text() const { return text_; }

private:
    /// Behind the value that begins there: a quoted text, a map or a list in brackets, or a plain text.
    static std::size_t end_of_value(const std::string& text, std::size_t from) {
        if (text[from] == '"') return text.find('"', from + 1) + 1;
        if (text[from] != '{' && text[from] != '[') return text.find_first_of(",}\n", from);
        std::size_t open = 0;
        for (std::size_t i = from;; ++i) {
            if (text[i] == '{' || text[i] == '[') ++open;
            if (text[i] == '}' || text[i] == ']') --open;
            if (open == 0) return i + 1;
        }
    }
    static std::vector<std::string> lines_of(const std::string& text) {
        std::vector<std::string> lines;
        for (std::size_t from = 0; from < text.size();) {
            const auto end = std::min(text.find('\n', from), text.size());
            lines.push_back(text.substr(from, end - from));
            from = end + 1;
        }
        return lines;
    }
    static std::string joined(const std::vector<std::string>& lines) {
        std::string text;
        for (const auto& line : lines)
            text += line + "\n";
        return text;
    }
    /// Figures whose limits are told of another file already are left out.
    void limits_of(const std::string& path, const std::string& text) {
        const std::size_t before = limits_.text().size();
        Place& place = place_for(path);
        limits_.file(path.substr(0, path.find_first_of("/.")), text, [&](const std::string& changed) {
            const std::string file = place.shelf.dir().write(path, changed);
            return faults_of([&] { check_(file, place.library, place.jar); });
        });
        text_ += limits_.text().substr(before);
    }
    void told(const std::string& what, const std::string& path, const std::string& content) {
        Place& place = place_for(path);
        const std::string folder = place.shelf.dir().path().string(), file = place.shelf.dir().write(path, content);
        text_ += what + "\n";
        for (const auto& fault : faults_of([&] { check_(file, place.library, place.jar); })) {
            const bool here = fault.at.place.path == file;
            text_ += "  " + (here ? std::to_string(fault.at.place.line) + ":" + std::to_string(fault.at.place.column) + "+" + std::to_string(fault.at.span_length) : std::string("elsewhere")) + " " + fault.id + ": " +
                     (fault.message.find(folder) == std::string::npos ? fault.message : "of the file") +
                     (fault.second ? " <" + std::to_string(fault.second->at.place.line) + ":" + std::to_string(fault.second->at.place.column) + " " + fault.second->message + ">" : "") + "\n";
        }
    }
    /// A shelf of its own for each file: no other is spoiled beside it.
    struct Place {
        std::string path;
        SmallShelf shelf{};
        // What the small shelf has not, such as the habits of a bath, is the shelf's that comes with the program.
        Library library{{{shelf.dir().path().string(), "test", true}, {LAKEBOUND_FORMULATIONS_DIR, "test", true}}};
        Jar jar{};
        explicit Place(const std::string& of) : path(of) {
            shelf.dir().write("jars/jar.yaml", plain_jar);
            jar = library.jar("jar");
        }
    };
    Place& place_for(const std::string& path) {
        if (!place_ || place_->path != path) place_ = std::make_unique<Place>(path);
        return *place_;
    }
    std::unique_ptr<Place> place_;
    Check check_;
    Limits limits_;
    std::string text_;
};

} // namespace lakebound::testing
