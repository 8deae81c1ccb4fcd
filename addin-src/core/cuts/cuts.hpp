// The cuts of a run: which jar belongs to which, and what each cut holds.
//
// Jars stand in the order in which they ran. Volumes at 20 degC, in L or mL alike; strengths % vol
// at 20 degC. A cut is blended by mass (blending.hpp), so its volume and strength are those of the
// jars poured together. The four cuts and their order are those of the trade (common practice, no
// source); nothing here knows where to make them.
#pragma once

#include "core/base/refusal.hpp"
#include "core/gauging/lots.hpp"

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace jarbook {

enum class Cut { foreshots, heads, hearts, tails };
inline constexpr std::array<Cut, 4> all_cuts{Cut::foreshots, Cut::heads, Cut::hearts, Cut::tails};

// "foreshots", "heads", "hearts", "tails".
std::string_view cut_word(Cut cut);

// The cut of that name; case and spaces are ignored. Anything else is refused (not_a_number).
Cut cut_named(std::string_view word, const ArgumentPlace& place);

// The cut of each jar, by volume and strength:
//   foreshots  up to and including the first jar that holds anything, whenever foreshots_volume is
//              above 0; and each next while its middle (what ran before it and half of its own)
//              lies within the first foreshots_volume, the end included;
//   heads      until a jar's strength is at or below hearts_from;
//   hearts     until a jar's strength is below hearts_to;
//   tails      after that.
// A boundary once passed is not passed back by a noisy reading, and both may be passed in one step.
// A jar that holds nothing passes no boundary. foreshots_volume 0 or more, in the jars' unit;
// hearts_from and hearts_to 1...100 % vol, the first above the second (else impossible).
std::vector<Cut> cuts_of_run(const std::vector<Lot>& jars, double foreshots_volume,
                             double hearts_from, double hearts_to);

struct CutJar {
    Lot jar;
    Cut cut;
};

// Jars with their cuts from three lists that belong together; blank rows are left out, an unknown
// name is refused with its row.
std::vector<CutJar> cut_jars_from(const Column& volumes, const Column& strengths,
                                  const Column& cuts);

// What jars poured together hold.
struct CutFigures {
    double volume = 0.0;            // of the blend, at 20 degC
    std::optional<double> strength; // of the blend, % vol; none of a cut that holds nothing
    double alcohol = 0.0;           // pure alcohol, in the volumes' unit
    std::optional<double> share;    // 0...1 of all the pure alcohol listed; 0 for a cut without
                                    // jars, none where the jars hold no alcohol at all
};

// One cut out of a list.
CutFigures figures_of_cut(const std::vector<CutJar>& jars, Cut cut);

// Why a cut (none: all of them together) has no strength, or there is no share to tell. `argument`
// is the one that names cuts.
Refusal no_strength(std::optional<Cut> cut, std::string_view argument);
Refusal no_share();

// The four cuts in their order, then all of it poured together.
std::array<CutFigures, 5> cut_table(const std::vector<CutJar>& jars);

enum class CutQuantity { alcohol, volume, strength, share };

// "alcohol", "volume", "strength" or "share"; case and spaces are ignored.
CutQuantity cut_quantity_named(std::string_view word);

// One figure of one cut. The strength of a cut without jars is refused (nothing_there), and so is a
// share where there is no alcohol.
double cut_total(const std::vector<CutJar>& jars, Cut cut, CutQuantity quantity);

// Volume collected when the distillate passes a strength (1...100 % vol): linear between the
// middles of the jars, on the falling side, which begins at the strongest jar (the first of
// equals); the first passage counts where noisy readings pass several times. Jars that hold nothing
// are left out. A strength that is never reached is refused (impossible), with the strengths that
// there are.
double cut_point(const std::vector<Lot>& jars, double strength);

} // namespace jarbook
