#include "uno/shelf/shelf_sheet.hpp"

#include "texts/to_shelf.hpp"
#include "uno/run_log/sheet_names.hpp"
#include "uno/run_log/undo_step.hpp"
#include "uno/text/utf8.hpp"

#include <cmath>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>
#include <com/sun/star/text/XTextRange.hpp>
#include <limits>

namespace jarbook::menu {

using namespace com::sun::star;
using addin::ustring;
using addin::utf8;

namespace {

rtl::OUString shown(const Document& document, const Place& place) {
    const uno::Reference<text::XTextRange> text(cell_at(document, place), uno::UNO_QUERY_THROW);
    return text->getString().trim();
}

void write(const Document& document, const Place& place, const std::string& text) {
    const uno::Reference<text::XTextRange> cell(cell_at(document, place), uno::UNO_QUERY_THROW);
    cell->setString(ustring(text));
}

void write(const Document& document, const Place& place, double number) {
    cell_at(document, place)->setValue(number);
}

} // namespace

bool same_name(const std::string& one, const std::string& other) {
    return ustring(one).trim().equalsIgnoreAsciiCase(ustring(other).trim());
}

std::string text_in(const Document& document, const Place& place) {
    return cell_at(document, place)->getError() != 0 ? "" : utf8(shown(document, place));
}

double number_in(const Document& document, const Place& place) {
    const auto cell = cell_at(document, place);
    const bool text = cell->getError() != 0 || shown(document, place).isEmpty() ||
                      (cell->getType() != table::CellContentType_VALUE &&
                       cell->getType() != table::CellContentType_FORMULA);
    return text ? std::numeric_limits<double>::quiet_NaN() : cell->getValue();
}

ShelfSheet::ShelfSheet(const Document& document) : document_(document) {
    for (sal_Int32 s = 0; s < sheet_count(document); ++s) {
        const auto lots = named_area(document, s, "lots_block");
        const auto book = named_area(document, s, "movements_block");
        if (!lots || !book)
            continue;
        lots_ = *lots;
        book_ = *book;
        return;
    }
    throw Obstacle(std::string(texts::to_shelf::no_shelf));
}

sal_Int32 ShelfSheet::column(const char* name) const {
    const auto area = named_area(document_, sheet(), name);
    if (!area)
        throw Obstacle(std::string(texts::to_shelf::no_shelf));
    return area->first.column;
}

std::string ShelfSheet::text(const Area& block, sal_Int32 row, sal_Int32 column) const {
    return text_in(document_, {sheet(), column, block.first.row + row});
}

std::vector<std::string> ShelfSheet::lot_names() const {
    std::vector<std::string> names;
    const sal_Int32 name = column("lot_name");
    for (sal_Int32 row = 0; row < lots_.rows(); ++row)
        if (std::string found = text(lots_, row, name); !found.empty())
            names.push_back(std::move(found));
    return names;
}

std::vector<ShelfSheet::OfRun> ShelfSheet::lots_of(const std::string& run) const {
    std::vector<OfRun> found;
    const sal_Int32 from = column("lot_run"), name = column("lot_name"), kind = column("lot_kind"),
                    alcohol = column("lot_filled");
    for (sal_Int32 row = 0; row < lots_.rows(); ++row)
        if (same_name(text(lots_, row, from), run))
            found.push_back({text(lots_, row, name), text(lots_, row, kind),
                             number_in(document_, {sheet(), alcohol, lots_.first.row + row})});
    return found;
}

std::vector<double> ShelfSheet::charged(const std::string& lot, const std::string& run) const {
    std::vector<double> litres;
    const sal_Int32 name = column("moved_lot"), what = column("moved_what"),
                    where = column("moved_where"), volume = column("moved_volume");
    for (sal_Int32 row = 0; row < book_.rows(); ++row)
        if (same_name(text(book_, row, name), lot) && same_name(text(book_, row, where), run) &&
            same_name(text(book_, row, what), std::string(texts::to_shelf::charged)))
            litres.push_back(number_in(document_, {sheet(), volume, book_.first.row + row}));
    return litres;
}

Place ShelfSheet::free_rows(const Area& block, std::size_t count) const {
    sal_Int32 free = block.first.row;
    for (sal_Int32 row = block.first.row; row <= block.last.row; ++row)
        for (sal_Int32 c = block.first.column; c <= block.last.column; ++c)
            if (cell_at(document_, {sheet(), c, row})->getType() != table::CellContentType_EMPTY)
                free = row + 1;
    if (block.last.row - free + 1 < static_cast<sal_Int32>(count))
        throw Obstacle(texts::to_shelf::full{.sheet = sheet_name(document_, sheet()),
                                             .rows = std::to_string(block.last.row - free + 1),
                                             .count = std::to_string(count)}
                           .text());
    return {sheet(), block.first.column, free};
}

void ShelfSheet::show(const Place& first, std::size_t count) const {
    const uno::Reference<table::XColumnRowRange> cells(sheet_at(document_, sheet()),
                                                       uno::UNO_QUERY_THROW);
    const auto rows = cells->getRows();
    for (std::size_t i = 0; i < count; ++i) {
        const uno::Reference<beans::XPropertySet> row(
            rows->getByIndex(first.row + static_cast<sal_Int32>(i)), uno::UNO_QUERY_THROW);
        bool visible = true;
        row->getPropertyValue("IsVisible") >>= visible;
        if (!visible)
            row->setPropertyValue("IsVisible", uno::Any(true));
    }
}

Place ShelfSheet::add(const std::vector<ShelfLot>& lots) const {
    const Place first = free_rows(lots_, lots.size());
    show(first, lots.size());
    sal_Int32 row = first.row;
    for (const ShelfLot& lot : lots) {
        write(document_, {sheet(), column("lot_name"), row}, lot.name);
        write(document_, {sheet(), column("lot_kind"), row}, lot.kind);
        write(document_, {sheet(), column("lot_run"), row}, lot.run);
        write(document_, {sheet(), column("lot_date"), row}, lot.date);
        write(document_, {sheet(), column("lot_litres"), row}, lot.litres);
        write(document_, {sheet(), column("lot_strength"), row}, lot.strength);
        ++row;
    }
    return first;
}

Place ShelfSheet::add(const std::vector<ShelfCharge>& charges) const {
    const Place first = free_rows(book_, charges.size());
    show(first, charges.size());
    sal_Int32 row = first.row;
    for (const ShelfCharge& charge : charges) {
        write(document_, {sheet(), column("moved_lot"), row}, charge.lot);
        write(document_, {sheet(), column("moved_what"), row},
              std::string(texts::to_shelf::charged));
        write(document_, {sheet(), column("moved_where"), row}, charge.run);
        write(document_, {sheet(), column("moved_date"), row}, charge.date);
        write(document_, {sheet(), column("moved_litres"), row}, charge.litres);
        write(document_, {sheet(), column("moved_strength"), row}, charge.strength);
        ++row;
    }
    return first;
}

std::string ShelfSheet::to_look_at() const {
    const auto count = named_area(document_, sheet(), "shelf_looks");
    const auto look = named_area(document_, sheet(), "shelf_look");
    if (!count || !look || !(number_in(document_, count->first) > 0))
        return "";
    return text_in(document_, look->first);
}

} // namespace jarbook::menu
