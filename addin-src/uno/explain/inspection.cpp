#include "uno/explain/inspection.hpp"

#include "uno/explain/explainer.hpp"
#include "uno/text/utf8.hpp"

#include <algorithm>
#include <com/sun/star/lang/XMultiServiceFactory.hpp>

namespace jarbook::menu {

using namespace com::sun::star;
using addin::ustring;

namespace {

// Without the second, third … way from a cell to one that was told before: nothing new to people.
Findings without_detours(const Findings& findings) {
    Findings result;
    const auto told = [&](const Place& place) {
        return std::any_of(result.begin(), result.end(),
                           [&](const Finding& before) { return before.place == place; });
    };
    for (const Finding& finding : findings)
        if (!finding.source || !told(finding.place) || !told(*finding.source))
            result.push_back(finding);
    return result;
}

} // namespace

Findings explain_cells(const Context& context, const Document& document,
                       const std::vector<Place>& cells) {
    const OpCodes codes(uno::Reference<lang::XMultiServiceFactory>(document, uno::UNO_QUERY_THROW));
    Explainer explainer(context, document, codes);
    Findings findings;
    for (const Place& cell : cells) {
        const Findings found = explainer.explain(cell);
        findings.insert(findings.end(), found.begin(), found.end());
    }
    return without_detours(findings);
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
