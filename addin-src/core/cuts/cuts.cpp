#include "core/cuts/cuts.hpp"

#include "core/base/keywords.hpp"
#include "core/base/refusal.hpp"
#include "core/blending/blending.hpp"
#include "texts/cuts.hpp"
#include "texts/refusal.hpp"
#include "texts/unit.hpp"

#include <algorithm>

namespace jarbook {

namespace {

constexpr std::array<std::string_view, 4> words{"foreshots", "heads", "hearts", "tails"};
constexpr std::array<std::string_view, 4> quantities{"alcohol", "volume", "strength", "share"};

// A wish of 1...100 % vol. 0 is what an empty cell looks like.
void require_boundary(std::string_view argument, double strength) {
    require_wished_strength(argument, strength);
    if (strength == 0.0)
        refuse_range(argument, strength, 1.0, 100.0, texts::unit::pct_vol,
                     texts::refusal::is_it_empty);
}

CutFigures figures(const std::vector<Lot>& lots, double all_alcohol) {
    CutFigures result;
    result.volume = blend_volume(lots);
    if (result.volume > 0.0)
        result.strength = blend(lots).strength;
    result.alcohol = pure_alcohol(lots);
    if (lots.empty())
        result.share = 0.0;
    else if (all_alcohol > 0.0)
        result.share = result.alcohol / all_alcohol;
    return result;
}

std::vector<Lot> lots_of(const std::vector<CutJar>& jars, std::optional<Cut> cut = std::nullopt) {
    std::vector<Lot> lots;
    for (const CutJar& jar : jars)
        if (!cut || jar.cut == *cut)
            lots.push_back(jar.jar);
    return lots;
}

} // namespace

std::string_view cut_word(Cut cut) {
    return words[static_cast<std::size_t>(cut)];
}

Cut cut_named(std::string_view word, const ArgumentPlace& place) {
    const std::string wanted = folded(word);
    for (const Cut cut : all_cuts)
        if (cut_word(cut) == wanted)
            return cut;
    refuse(RefusalKind::not_a_number, place, word,
           texts::cuts::no_cut{.place = place.text(), .word = std::string(word)}.text());
}

std::vector<Cut> cuts_of_run(const std::vector<Lot>& jars, double foreshots_volume,
                             double hearts_from, double hearts_to) {
    require_amount("foreshotsVolume", foreshots_volume);
    require_boundary("heartsFrom", hearts_from);
    require_boundary("heartsTo", hearts_to);
    if (hearts_from <= hearts_to)
        refuse(RefusalKind::impossible, "heartsFrom", number_text(hearts_from),
               texts::cuts::order{.from = pct_vol_text(hearts_from), .to = pct_vol_text(hearts_to)}
                   .text());

    std::vector<Cut> cuts;
    cuts.reserve(jars.size());
    Cut running = foreshots_volume > 0.0 ? Cut::foreshots : Cut::heads;
    // A middle on the boundary is within it, whatever the sum's rounding.
    const double boundary = foreshots_volume * (1.0 + 1e-12);
    double before = 0.0;
    for (const Lot& jar : jars) {
        if (jar.volume > 0.0) {
            if (running == Cut::foreshots && before > 0.0 && before + jar.volume / 2.0 > boundary)
                running = Cut::heads;
            if (running == Cut::heads && jar.strength <= hearts_from)
                running = Cut::hearts;
            if (running == Cut::hearts && jar.strength < hearts_to)
                running = Cut::tails;
        }
        cuts.push_back(running);
        before += jar.volume;
    }
    return cuts;
}

std::vector<CutJar> cut_jars_from(const Column& volumes, const Column& strengths,
                                  const Column& cuts) {
    // A row that is blank in all three is blank in the first two: the lots are those rows.
    rows_in_common({&volumes, &strengths, &cuts});
    std::vector<CutJar> jars;
    for (const Lot& lot : lots_from(volumes, strengths))
        jars.push_back({lot, cut_named(text_in(cuts, lot.row), row_of(cuts, lot.row))});
    return jars;
}

CutFigures figures_of_cut(const std::vector<CutJar>& jars, Cut cut) {
    return figures(lots_of(jars, cut), pure_alcohol(lots_of(jars)));
}

std::array<CutFigures, 5> cut_table(const std::vector<CutJar>& jars) {
    const std::vector<Lot> all = lots_of(jars);
    const double alcohol = pure_alcohol(all);
    std::array<CutFigures, 5> table;
    for (std::size_t i = 0; i < all_cuts.size(); ++i)
        table[i] = figures(lots_of(jars, all_cuts[i]), alcohol);
    table[all_cuts.size()] = figures(all, alcohol);
    return table;
}

CutQuantity cut_quantity_named(std::string_view word) {
    const std::string wanted = folded(word);
    for (std::size_t i = 0; i < quantities.size(); ++i)
        if (quantities[i] == wanted)
            return static_cast<CutQuantity>(i);
    refuse(RefusalKind::not_a_number, "quantity", word,
           texts::cuts::no_quantity{.word = std::string(word)}.text());
}

Refusal no_strength(std::optional<Cut> cut, std::string_view argument) {
    if (!cut)
        return {RefusalKind::nothing_there, "volumes", "", texts::cuts::no_strength_at_all};
    const std::string word(cut_word(*cut));
    return {RefusalKind::nothing_there, argument, word,
            texts::cuts::no_strength{.cut = word}.text()};
}

Refusal no_share() {
    return {RefusalKind::nothing_there, "strengths", "", texts::cuts::no_share};
}

double cut_total(const std::vector<CutJar>& jars, Cut cut, CutQuantity quantity) {
    const CutFigures figures = figures_of_cut(jars, cut);
    switch (quantity) {
    case CutQuantity::alcohol:
        return figures.alcohol;
    case CutQuantity::volume:
        return figures.volume;
    case CutQuantity::strength:
        if (!figures.strength)
            throw no_strength(cut, "cut");
        return *figures.strength;
    case CutQuantity::share:
        break;
    }
    if (!figures.share)
        throw no_share();
    return *figures.share;
}

double cut_point(const std::vector<Lot>& jars, double strength) {
    require_boundary("strength", strength);
    struct Point {
        double collected; // at the jar's middle
        double strength;
    };
    std::vector<Point> points;
    double before = 0.0;
    for (const Lot& jar : jars) {
        if (jar.volume > 0.0)
            points.push_back({before + jar.volume / 2.0, jar.strength});
        before += jar.volume;
    }
    if (points.empty())
        refuse(RefusalKind::nothing_there, "volumes", "", texts::cuts::no_jar);

    const auto weaker = [](const Point& a, const Point& b) { return a.strength < b.strength; };
    // max_element gives the first of equals.
    const auto strongest = std::max_element(points.begin(), points.end(), weaker);
    if (strength > strongest->strength)
        refuse(RefusalKind::impossible, "strength", number_text(strength),
               texts::cuts::never_so_strong{.strength = pct_vol_text(strength),
                                            .strongest = pct_vol_text(strongest->strength)}
                   .text());
    if (strength == strongest->strength)
        return strongest->collected;
    for (auto point = strongest; point + 1 != points.end(); ++point) {
        const Point& next = point[1];
        if (next.strength > strength)
            continue;
        // point->strength > strength here: the first passage, so the slope is never 0.
        return point->collected + (next.collected - point->collected) *
                                      (point->strength - strength) /
                                      (point->strength - next.strength);
    }
    const auto weakest = std::min_element(strongest, points.end(), weaker);
    refuse(RefusalKind::impossible, "strength", number_text(strength),
           texts::cuts::never_so_weak{.strength = pct_vol_text(strength),
                                      .strongest = pct_vol_text(strongest->strength),
                                      .weakest = pct_vol_text(weakest->strength)}
               .text());
}

} // namespace jarbook
