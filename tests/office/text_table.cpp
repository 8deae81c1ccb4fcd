#include "text_table.hpp"

#include <algorithm>

namespace jarbook::office {

namespace {

// Columns a text takes up in a terminal: its code points (UTF-8 continuation bytes do not count).
std::size_t width_of(const std::string& text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
        return (static_cast<unsigned char>(c) & 0xC0) != 0x80;
    }));
}

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::size_t begin = 0;
    for (std::size_t end; (end = text.find('\n', begin)) != std::string::npos; begin = end + 1)
        lines.push_back(text.substr(begin, end - begin));
    lines.push_back(text.substr(begin));
    return lines;
}

} // namespace

std::string text_table(const Rows<Value>& values, const Rows<std::string>& texts) {
    std::vector<std::size_t> widths;
    for (const auto& row : texts) {
        widths.resize(std::max(widths.size(), row.size()));
        for (std::size_t c = 0; c < row.size(); ++c)
            for (const std::string& line : lines_of(row[c]))
                widths[c] = std::max(widths[c], width_of(line));
    }

    std::string table;
    for (std::size_t r = 0; r < texts.size(); ++r) {
        std::size_t height = 0;
        for (const std::string& text : texts[r])
            if (!text.empty())
                height = std::max(height, lines_of(text).size());
        for (std::size_t l = 0; l < height; ++l) {
            std::string line;
            for (std::size_t c = 0; c < widths.size(); ++c) {
                if (widths[c] == 0)
                    continue;
                const auto cell_lines = lines_of(c < texts[r].size() ? texts[r][c] : "");
                const std::string text = l < cell_lines.size() ? cell_lines[l] : "";
                const std::string gap(widths[c] - width_of(text), ' ');
                const bool right =
                    c < values[r].size() && (std::holds_alternative<double>(values[r][c]) ||
                                             std::holds_alternative<CellError>(values[r][c]));
                line += right ? gap + text : text + gap;
                line += "  ";
            }
            line.erase(line.find_last_not_of(' ') + 1);
            table += line + "\n";
        }
    }
    return table;
}

std::string text_table(const Range& range) {
    return text_table(range.values(), range.texts());
}

} // namespace jarbook::office
