#include "uno/shelf/run_and_shelf.hpp"

#include "texts/entry.hpp"
#include "texts/run_log.hpp"
#include "texts/to_shelf.hpp"
#include "uno/document/action_lock.hpp"
#include "uno/run_log/run_sheet.hpp"
#include "uno/run_log/undo_step.hpp"
#include "uno/shelf/shelf_sheet.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numeric>

namespace jarbook::menu {

namespace {

// A run as the shelf wants it.
struct Run {
    std::string title;
    double date;
};

Place named_cell(const Document& document, sal_Int32 sheet, const char* name) {
    const auto area = named_area(document, sheet, name);
    if (!area)
        throw Obstacle(std::string(texts::run_log::changed_by_hand));
    return area->first;
}

Run run_on(const Document& document, sal_Int32 sheet) {
    switch (run_sheet_kind(document, sheet)) {
    case RunSheet::earlier:
        throw Obstacle(std::string(texts::to_shelf::earlier));
    case RunSheet::none:
        throw Obstacle(std::string(texts::run_log::no_run_sheet));
    case RunSheet::present:
        break;
    }
    require_not_shared(document);
    const Run run{text_in(document, named_cell(document, sheet, "run_title")),
                  number_in(document, named_cell(document, sheet, "run_date"))};
    if (run.title.empty() || !(run.date > 0))
        throw Obstacle(std::string(texts::to_shelf::no_date));
    return run;
}

double rounded(double value, double digits) {
    return std::round(value * digits) / digits;
}

std::string fixed(double value, int digits) {
    char text[64];
    std::snprintf(text, sizeof text, "%.*f", digits, value);
    return text;
}

std::string listed(const std::vector<std::string>& entries) {
    std::string text;
    for (const std::string& entry : entries)
        text += (text.empty() ? "" : "; ") + entry;
    return text;
}

std::string amount(const std::string& name, double litres, double strength) {
    return texts::to_shelf::amount{
        .lot = name, .litres = fixed(litres, 2), .strength = fixed(strength, 1)}
        .text();
}

// What the run made, where there is some: a drop that a rounding left is none.
std::vector<ShelfLot> made_by(const Document& document, sal_Int32 sheet, const Run& run) {
    const std::string stripping(texts::to_shelf::stripping_run);
    const bool strips =
        same_name(text_in(document, named_cell(document, sheet, "run_kind")), stripping);
    const double water = number_in(document, named_cell(document, sheet, "product_water"));
    const auto product =
        strips ? std::pair{texts::to_shelf::low_wines{run.title}.text(),
                           texts::to_shelf::kind_low_wines}
        : water > 0
            ? std::pair{texts::to_shelf::product{run.title}.text(), texts::to_shelf::kind_product}
            : std::pair{texts::to_shelf::hearts{run.title}.text(), texts::to_shelf::kind_hearts};
    const struct {
        const char *volume, *strength;
        std::string name, kind;
    } all[] = {
        {"next_product_volume", "next_product_strength", product.first,
         std::string(product.second)},
        {"next_spare_volume", "next_spare_strength", texts::to_shelf::spare{run.title}.text(),
         std::string(texts::to_shelf::kind_hearts)},
        {"next_feints_volume", "next_feints_strength", texts::to_shelf::feints{run.title}.text(),
         std::string(texts::to_shelf::kind_feints)}};
    std::vector<ShelfLot> lots;
    for (const auto& one : all) {
        const double litres = number_in(document, named_cell(document, sheet, one.volume));
        const double strength = number_in(document, named_cell(document, sheet, one.strength));
        if (litres >= 0.0005 && strength > 0)
            lots.push_back({one.name, one.kind, run.title, run.date, rounded(litres, 1e4),
                            rounded(strength, 1e3)});
    }
    return lots;
}

double alcohol(const ShelfLot& lot) {
    return lot.litres * lot.strength / 100;
}

// Rows entered on the shelf in one step; what is said ends with what the shelf has to look at.
template <class Row>
Shelved booked(const Document& document, const ShelfSheet& shelf, const std::vector<Row>& rows,
               std::string_view undo_title, const std::vector<std::string>& said) {
    Shelved done;
    UndoStep step(document, undo_title);
    {
        const ActionLock lock(document);
        const Unprotected open(document, shelf.sheet());
        done.first = shelf.add(rows);
    }
    step.keep();
    for (const std::string& sentence : said)
        if (!sentence.empty())
            done.text += (done.text.empty() ? "" : " ") + sentence;
    if (const std::string look = shelf.to_look_at(); !look.empty())
        done.text += " " + look;
    return done;
}

} // namespace

Shelved add_to_shelf(const Document& document, sal_Int32 run_sheet) {
    const Run run = run_on(document, run_sheet);
    const ShelfSheet shelf(document);
    const std::vector<ShelfLot> made = made_by(document, run_sheet, run);
    if (made.empty())
        throw Obstacle(texts::to_shelf::nothing_made{.run = run.title}.text());

    const auto there = shelf.lots_of(run.title);
    const auto taken = shelf.lot_names();
    std::vector<ShelfLot> fresh;
    std::vector<std::string> old, entered;
    double on_shelf = 0;
    for (const auto& lot : there)
        on_shelf += std::isnan(lot.alcohol) ? 0 : lot.alcohol;
    for (const ShelfLot& lot : made) {
        const auto of_kind = [&](const auto& known) { return same_name(known.kind, lot.kind); };
        const auto found = std::find_if(there.begin(), there.end(), of_kind);
        const auto named = std::find_if(taken.begin(), taken.end(), [&](const std::string& name) {
            return same_name(name, lot.name);
        });
        if (found != there.end())
            old.push_back(found->name);
        else if (named != taken.end())
            old.push_back(*named);
        else
            fresh.push_back(lot);
    }
    const std::string already =
        old.empty() ? "" : texts::to_shelf::already{.lots = listed(old), .run = run.title}.text();
    if (fresh.empty())
        throw Obstacle(already);
    // Under another kind it may be there, too: a run gives no more than it collected.
    const double collected =
        number_in(document, named_cell(document, run_sheet, "sum_collected_alcohol"));
    const double together =
        std::accumulate(fresh.begin(), fresh.end(), on_shelf,
                        [](double sum, const ShelfLot& lot) { return sum + alcohol(lot); });
    if (!there.empty() && together > 1.005 * collected + 0.002)
        throw Obstacle(texts::to_shelf::too_much{.there = fixed(on_shelf, 2),
                                                 .run = run.title,
                                                 .together = fixed(together, 2),
                                                 .collected = fixed(collected, 2)}
                           .text());

    for (const ShelfLot& lot : fresh)
        entered.push_back(amount(lot.name, lot.litres, lot.strength));
    return booked(document, shelf, fresh, texts::entry::add_to_shelf,
                  {texts::to_shelf::added{.lots = listed(entered)}.text(), already});
}

Shelved take_from_shelf(const Document& document, sal_Int32 run_sheet) {
    const Run run = run_on(document, run_sheet);
    const ShelfSheet shelf(document);
    const auto names = named_area(document, run_sheet, "lot_name");
    const auto volumes = named_area(document, run_sheet, "lot_at20");
    const auto strengths = named_area(document, run_sheet, "lot_strength");
    if (!names || !volumes || !strengths)
        throw Obstacle(std::string(texts::run_log::changed_by_hand));
    const auto on_shelf = shelf.lot_names();

    std::vector<ShelfCharge> fresh;
    std::vector<std::string> old, strange, waiting, entered;
    for (sal_Int32 i = 0; i < names->rows(); ++i) {
        const auto at = [&](const Area& column) {
            return Place{column.first.sheet, column.first.column, column.first.row + i};
        };
        const std::string name = text_in(document, at(*names));
        if (name.empty())
            continue;
        const double litres = number_in(document, at(*volumes));
        const double strength = number_in(document, at(*strengths));
        const auto lot = std::find_if(on_shelf.begin(), on_shelf.end(),
                                      [&](const std::string& n) { return same_name(n, name); });
        if (lot == on_shelf.end())
            strange.push_back(name);
        else if (!shelf.charged(*lot, run.title).empty())
            old.push_back(*lot);
        else if (!(litres > 0) || std::isnan(strength))
            waiting.push_back(name);
        else
            fresh.push_back(
                {*lot, run.title, run.date, rounded(litres, 1e4), rounded(strength, 1e3)});
    }
    std::string rest;
    const auto say = [&](const std::string& text) { rest += (rest.empty() ? "" : " ") + text; };
    if (!old.empty())
        say(texts::to_shelf::charged_already{.run = run.title, .lots = listed(old)}.text());
    if (!waiting.empty())
        say(texts::to_shelf::not_complete{.lots = listed(waiting)}.text());
    if (!strange.empty())
        say(texts::to_shelf::not_on_shelf{.lots = listed(strange)}.text());
    if (fresh.empty())
        throw Obstacle(rest.empty() ? std::string(texts::to_shelf::no_charge) : rest);

    for (const ShelfCharge& charge : fresh)
        entered.push_back(amount(charge.lot, charge.litres, charge.strength));
    return booked(document, shelf, fresh, texts::entry::take_from_shelf,
                  {texts::to_shelf::taken{.run = run.title, .lots = listed(entered)}.text(), rest});
}

} // namespace jarbook::menu
