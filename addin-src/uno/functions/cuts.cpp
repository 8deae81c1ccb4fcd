#include "uno/functions/spirit.hpp"
#include "uno/text/utf8.hpp"

#include "core/cuts/cuts.hpp"
#include "uno/functions/guard.hpp"

namespace jarbook::addin {

using com::sun::star::uno::Sequence;

namespace {

std::vector<CutJar> cut_jars_argument(const Any& volumes, const Any& strengths, const Any& cuts) {
    return cut_jars_from(column(volumes, "volumes"), column(strengths, "strengths"),
                         column(cuts, "cuts"));
}

} // namespace

Any Spirit::cutNames(const Any& volumes, const Any& strengths, double foreshotsVolume,
                     double heartsFrom, double heartsTo) {
    return any_result("CUTNAMES", [&] {
        const Column list = column(volumes, "volumes");
        const std::vector<Lot> jars = lots_from(list, column(strengths, "strengths"));
        const std::vector<Cut> cuts = cuts_of_run(jars, foreshotsVolume, heartsFrom, heartsTo);
        // One name a row of the lists, empty text where the row is blank.
        std::vector<Any> names(list.cells.size(), Any(OUString()));
        for (std::size_t i = 0; i < jars.size(); ++i)
            names[jars[i].row] <<= ustring(cut_word(cuts[i]));
        return column_result(names);
    });
}

double Spirit::cutTotal(const Any& volumes, const Any& strengths, const Any& cuts,
                        const OUString& cut, const Any& quantity) {
    return number("CUTTOTAL", [&] {
        const Cut wanted = cut_named(utf8(cut), "cut");
        const CutQuantity figure = cut_quantity_named(word_or(quantity, "quantity", "alcohol"));
        return cut_total(cut_jars_argument(volumes, strengths, cuts), wanted, figure);
    });
}

Any Spirit::cutTable(const Any& volumes, const Any& strengths, const Any& cuts) {
    return any_result("CUTTABLE", [&] {
        const auto table = cut_table(cut_jars_argument(volumes, strengths, cuts));
        Sequence<Sequence<Any>> rows(static_cast<sal_Int32>(table.size()));
        Sequence<Any>* row = rows.getArray();
        for (int r = 0; r < static_cast<int>(table.size()); ++r) {
            const CutFigures& figures = table[r];
            // What is not there is an error in its cell alone.
            const double strength =
                figures.strength
                    ? *figures.strength
                    : refused(
                          "CUTTABLE",
                          no_strength(r < 4 ? std::optional(all_cuts[r]) : std::nullopt, "cuts"),
                          Part{r, 1});
            const double share =
                figures.share ? *figures.share : refused("CUTTABLE", no_share(), Part{r, 3});
            const Any cells[] = {Any(figures.volume), Any(strength), Any(figures.alcohol),
                                 Any(share)};
            *row++ = Sequence<Any>(cells, 4);
        }
        return Any(rows);
    });
}

double Spirit::cutPoint(const Any& volumes, const Any& strengths, double strength) {
    return number("CUTPOINT",
                  [&] { return cut_point(lots_argument(volumes, strengths, Any()), strength); });
}

} // namespace jarbook::addin
