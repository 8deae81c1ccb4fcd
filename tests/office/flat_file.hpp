// A flat OpenDocument spreadsheet, for documents too large to be entered cell by cell: entering
// many formulas one after the other takes Calc a time that grows with their square, loading does
// not.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace jarbook::office {

class FlatFile {
public:
    // Cells of a sheet row by row, from A1: "=[.A1]+1" is a formula as files have it (ours are
    // ORG.JARBOOK.SPIRIT.STRENGTH), a number is written as one, "" is blank, all else is text.
    using Rows = std::vector<std::vector<std::string>>;

    FlatFile& add_sheet(const std::string& name, const Rows& rows,
                        const std::string& attributes = "");
    // A whole table element.
    FlatFile& add_sheet_xml(const std::string& xml);
    // A name and its expression, "[$Sheet1.$A$1]*2".
    FlatFile& add_name(const std::string& name, const std::string& expression);

    // As File, Share Document does.
    FlatFile& share();

    void write(const std::filesystem::path& file) const;

private:
    bool shared_ = false;
    std::string sheets_;
    std::string names_;
};

std::string xml_text(const std::string& text);

} // namespace jarbook::office
