#include "uno/explain/inspection.hpp"

#include "texts/explain.hpp"
#include "texts/working.hpp"
#include "uno/explain/error_trail.hpp"
#include "uno/text/utf8.hpp"

#include <com/sun/star/lang/XMultiServiceFactory.hpp>
#include <set>

namespace jarbook::menu {

using namespace com::sun::star;
using addin::ustring;

namespace {

// A person corrects a few cells and asks again.
constexpr std::size_t most_causes = 20;
// Of a longer way its ends are told.
constexpr std::size_t longest_way = 8;
constexpr std::size_t told_at_ends = 3;

class Account {
public:
    Account(const Document& document, ErrorCells& errors, const ErrorTrail& trail)
        : document_(document), errors_(errors), trail_(trail) {}

    void add_cause(const Place& cause) {
        const std::vector<Place> way = trail_.way_to(cause);
        const std::size_t steps = way.size() - 1;
        for (std::size_t i = 0; i < steps; ++i) {
            if (steps > longest_way && i == told_at_ends) {
                i = steps - told_at_ends;
                add_step(way[told_at_ends], way[i], i - told_at_ends - 1);
            }
            add_step(way[i], way[i + 1], 0);
        }
        if (!causes_.insert(cause).second)
            return;
        const Findings& findings = trail_.findings_at(cause);
        findings_.insert(findings_.end(), findings.begin(), findings.end());
    }

    // A cell whose error comes from one that was told, or explained, before.
    void add_known(const Place& cell) {
        if (const auto source = trail_.source_of(cell); source && !passing_.contains(cell))
            add_step(cell, *source, 0);
    }

    void add_more(const Place& cell) {
        findings_.push_back(
            {cell, Finding::Kind::passed_on, "", "", "",
             texts::explain::more_origins{.count = std::to_string(causes_.size())}.text(),
             errors_.code(cell)});
    }

    std::size_t causes() const { return causes_.size(); }
    Findings findings() { return std::move(findings_); }

private:
    void add_step(const Place& from, const Place& to, std::size_t left_out) {
        if (!passing_.insert(from).second)
            return;
        const sal_Int32 code = errors_.code(to);
        const std::string name = name_seen_from(document_, to, from.sheet);
        findings_.push_back(
            {from, Finding::Kind::passed_on, "", "", "",
             left_out > 0
                 ? texts::explain::uses_far{.cell = name, .count = std::to_string(left_out)}.text()
                 : texts::explain::uses{.cell = name, .error = error_text(code)}.text(),
             code});
    }

    const Document& document_;
    ErrorCells& errors_;
    const ErrorTrail& trail_;
    Findings findings_;
    std::set<Place> passing_; // cells whose way was told
    std::set<Place> causes_;
};

} // namespace

Findings explain_cells(const Context& context, const Document& document,
                       const std::vector<Place>& cells, Progress& progress) {
    const OpCodes codes(uno::Reference<lang::XMultiServiceFactory>(document, uno::UNO_QUERY_THROW));
    FormulaParts parts(context, document, codes, progress);
    ErrorTrail trail(parts);
    Account account(document, parts.errors(), trail);
    progress.begin(std::string(texts::working::errors), cells.size());
    for (std::size_t i = 0; i < cells.size(); ++i) {
        progress.at(i);
        if (account.causes() >= most_causes) {
            account.add_more(cells[i]);
            break;
        }
        if (trail.explained(cells[i])) {
            account.add_known(cells[i]);
            continue;
        }
        const std::size_t before = trail.causes().size();
        const bool more = trail.follow(cells[i], most_causes - account.causes());
        for (std::size_t cause = before; cause < trail.causes().size(); ++cause)
            account.add_cause(trail.causes()[cause]);
        account.add_known(cells[i]);
        if (more) {
            account.add_more(cells[i]);
            break;
        }
    }
    return account.findings();
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
                 finding.code,
                 finding.input ? ustring(name_seen_from(document, *finding.input, from_sheet))
                               : rtl::OUString()};
    return result;
}

} // namespace jarbook::menu
