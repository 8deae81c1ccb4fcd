#include "uno/check/run_sheets.hpp"

#include "texts/run_check.hpp"
#include "uno/run_log/mend_boxes.hpp"
#include "uno/run_log/run_register.hpp"

#include <algorithm>

namespace jarbook::menu {

namespace {

Finding odd(const Place& place, std::string sentence) {
    Finding finding;
    finding.place = place;
    finding.kind = Finding::Kind::odd;
    finding.sentence = std::move(sentence);
    return finding;
}

bool has_row(const std::vector<RegisterRow>& rows, sal_Int32 sheet) {
    return std::any_of(rows.begin(), rows.end(),
                       [&](const RegisterRow& row) { return row.run == sheet; });
}

Findings on_register(const Document& document, const Register& book) {
    Findings findings;
    const auto rows = register_rows(document, book);
    for (const RegisterRow& row : rows)
        if (!row.run)
            findings.push_back(odd({book.sheet, book.rows.first.column, row.row},
                                   std::string(texts::run_check::gone)));
    for (const sal_Int32 sheet : run_sheets(document))
        if (!has_row(rows, sheet))
            findings.push_back(
                odd({book.sheet, book.rows.first.column, book.end_row},
                    texts::run_check::not_entered{.sheet = sheet_name(document, sheet)}.text()));
    return findings;
}

Findings on_present_sheet(const PristineSheet& pristine, const Document& document,
                          const RowsOf& rows) {
    Findings findings;
    const auto boxes = harmed_boxes(pristine, document, rows);
    if (boxes.size() == 1)
        findings.push_back(odd(boxes.front(), std::string(texts::run_check::harmed_one)));
    else if (!boxes.empty())
        findings.push_back(
            odd(boxes.front(), texts::run_check::harmed{.count = std::to_string(boxes.size()),
                                                        .cells = listed_boxes(boxes)}
                                   .text()));
    if (!lost_names(pristine, document, rows).empty())
        findings.push_back(odd({rows.sheet(), 0, 0}, std::string(texts::run_check::no_names)));
    return findings;
}

// Another sheet of the log has names of its own. Looking closer means loading a run sheet.
bool may_have_lost_its_names(const Document& document, sal_Int32 sheet) {
    const auto names = sheet_names(document, sheet);
    return names.empty() || std::any_of(names.begin(), names.end(), [](const SheetName& name) {
               return name.name.starts_with("jar_");
           });
}

} // namespace

Findings check_run_sheet(const Context& context, const Document& document, sal_Int32 sheet) {
    const auto book = register_of(document);
    if (book && book->sheet == sheet)
        return on_register(document, *book);
    Findings findings;
    const RunSheet kind = run_sheet_kind(document, sheet);
    // A run sheet that has lost its names is met in a run log only.
    if (kind == RunSheet::present ||
        (kind == RunSheet::none && book && may_have_lost_its_names(document, sheet))) {
        const PristineSheet pristine(context);
        const auto rows = rows_of_run_sheet(pristine, document, sheet);
        if (!rows)
            return findings;
        findings = on_present_sheet(pristine, document, *rows);
    } else if (kind == RunSheet::none) {
        return findings;
    }
    if (book && !has_row(register_rows(document, *book), sheet)) {
        const auto title = named_area(document, sheet, "run_title");
        findings.push_back(odd(
            title ? title->first : Place{sheet, 0, 0},
            texts::run_check::no_row{.register_name = sheet_name(document, book->sheet)}.text()));
    }
    return findings;
}

} // namespace jarbook::menu
