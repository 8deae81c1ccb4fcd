#include "inspection.hpp"

#include "arguments.hpp"
#include "explainer.hpp"
#include "sheet_check.hpp"

#include <com/sun/star/lang/XMultiServiceFactory.hpp>

namespace jarbook::menu {

using namespace com::sun::star;
using addin::ustring;

namespace {

OpCodes codes_of(const Document& document) {
    return OpCodes(uno::Reference<lang::XMultiServiceFactory>(document, uno::UNO_QUERY_THROW));
}

} // namespace

Findings explain_cells(const Context& context, const Document& document,
                       const std::vector<Place>& cells) {
    const HiddenDocument copy = HiddenDocument::copy_of(context, document);
    const OpCodes codes = codes_of(copy.document());
    Explainer explainer(copy.document(), codes);
    Findings findings;
    for (const Place& cell : cells) {
        const sal_Int32 code = cell_at(document, cell)->getError();
        if (code == 0)
            continue;
        if (cell_at(copy.document(), cell)->getError() == 0) {
            findings.push_back({cell, Finding::Kind::stale, "", "", "",
                                "The cell shows " + error_text(code) +
                                    ", but computed again it gives " +
                                    shown(value_of(cell_at(copy.document(), cell))) +
                                    ". Choose Recalculate everything.",
                                code});
            continue;
        }
        const Findings found = explainer.explain(cell);
        findings.insert(findings.end(), found.begin(), found.end());
    }
    return findings;
}

Findings check_sheet(const Context& context, const Document& document, sal_Int32 sheet) {
    const HiddenDocument copy = HiddenDocument::copy_of(context, document);
    const OpCodes codes = codes_of(copy.document());
    return check_sheet(copy.document(), codes, sheet);
}

uno::Sequence<org::jarbook::Finding> handed_out(const Document& document, const Findings& findings,
                                                sal_Int32 from_sheet) {
    uno::Sequence<org::jarbook::Finding> result(static_cast<sal_Int32>(findings.size()));
    auto* to = result.getArray();
    for (const Finding& finding : findings)
        *to++ = {ustring(name_seen_from(document, finding.place, from_sheet)),
                 finding.place.sheet,
                 finding.place.column,
                 finding.place.row,
                 rtl::OUString::createFromAscii(kind_name(finding.kind)),
                 ustring(finding.function),
                 ustring(finding.argument),
                 ustring(finding.value),
                 ustring(finding.sentence),
                 finding.code};
    return result;
}

} // namespace jarbook::menu
