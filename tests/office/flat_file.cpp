#include "flat_file.hpp"

#include <cstdlib>
#include <fstream>
#include <stdexcept>

namespace jarbook::office {

std::string xml_text(const std::string& text) {
    std::string result;
    for (const char letter : text) {
        if (letter == '&')
            result += "&amp;";
        else if (letter == '<')
            result += "&lt;";
        else if (letter == '>')
            result += "&gt;";
        else if (letter == '"')
            result += "&quot;";
        else
            result += letter;
    }
    return result;
}

namespace {

bool is_number(const std::string& text) {
    char* end = nullptr;
    std::strtod(text.c_str(), &end);
    return !text.empty() && end == text.c_str() + text.size();
}

std::string cell_xml(const std::string& content) {
    if (content.empty())
        return "<table:table-cell/>";
    if (content.front() == '=')
        return "<table:table-cell table:formula=\"of:" + xml_text(content) + "\"/>";
    if (is_number(content))
        return "<table:table-cell office:value-type=\"float\" office:value=\"" + content + "\"/>";
    return "<table:table-cell office:value-type=\"string\"><text:p>" + xml_text(content) +
           "</text:p></table:table-cell>";
}

} // namespace

FlatFile& FlatFile::add_sheet(const std::string& name, const Rows& rows,
                              const std::string& attributes) {
    sheets_ += "<table:table table:name=\"" + xml_text(name) + "\" " + attributes + ">";
    for (const auto& row : rows) {
        sheets_ += "<table:table-row>";
        if (row.empty())
            sheets_ += "<table:table-cell/>";
        for (const std::string& cell : row)
            sheets_ += cell_xml(cell);
        sheets_ += "</table:table-row>\n";
    }
    sheets_ += "</table:table>\n";
    return *this;
}

FlatFile& FlatFile::add_name(const std::string& name, const std::string& expression) {
    names_ += "<table:named-expression table:name=\"" + xml_text(name) +
              "\" table:base-cell-address=\"$Sheet1.$A$1\" table:expression=\"of:" +
              xml_text(expression) + "\"/>\n";
    return *this;
}

FlatFile& FlatFile::add_sheet_xml(const std::string& xml) {
    sheets_ += xml;
    return *this;
}

FlatFile& FlatFile::share() {
    shared_ = true;
    return *this;
}

void FlatFile::write(const std::filesystem::path& file) const {
    std::ofstream out(file);
    out << R"(<?xml version="1.0" encoding="UTF-8"?>
<office:document xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"
 xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0"
 xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0"
 xmlns:of="urn:oasis:names:tc:opendocument:xmlns:of:1.2"
 xmlns:style="urn:oasis:names:tc:opendocument:xmlns:style:1.0"
 xmlns:dc="http://purl.org/dc/elements/1.1/"
 xmlns:xlink="http://www.w3.org/1999/xlink"
 xmlns:config="urn:oasis:names:tc:opendocument:xmlns:config:1.0"
 xmlns:ooo="http://openoffice.org/2004/office"
 office:version="1.2" office:mimetype="application/vnd.oasis.opendocument.spreadsheet">
)";
    if (shared_)
        out << R"(<office:settings>
<config:config-item-set config:name="ooo:configuration-settings">
<config:config-item config:name="IsDocumentShared" config:type="boolean">true</config:config-item>
</config:config-item-set></office:settings>
)";
    out << "<office:body><office:spreadsheet>\n" << sheets_;
    if (!names_.empty())
        out << "<table:named-expressions>" << names_ << "</table:named-expressions>\n";
    out << "</office:spreadsheet></office:body></office:document>\n";
    if (!out.flush())
        throw std::runtime_error(file.string() + " could not be written");
}

} // namespace jarbook::office
