#include "uno/run_log/run_sheet.hpp"

#include "texts/run_log.hpp"
#include "uno/run_log/undo_step.hpp"

namespace jarbook::menu {

RunSheet run_sheet_kind(const Document& document, sal_Int32 sheet) {
    if (named_area(document, sheet, "jars_top") && named_area(document, sheet, "jar_amount"))
        return RunSheet::present;
    return named_area(document, sheet, "run_title") ? RunSheet::earlier : RunSheet::none;
}

std::vector<sal_Int32> run_sheets(const Document& document) {
    std::vector<sal_Int32> result;
    for (sal_Int32 s = 0; s < sheet_count(document); ++s)
        if (run_sheet_kind(document, s) != RunSheet::none)
            result.push_back(s);
    return result;
}

JarRows jar_rows(const Document& document, sal_Int32 sheet) {
    const auto jars = named_area(document, sheet, "jar_amount");
    if (!jars)
        throw Obstacle(std::string(texts::run_log::changed_by_hand));
    return {jars->first.row, jars->last.row};
}

} // namespace jarbook::menu
