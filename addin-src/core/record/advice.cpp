#include "core/record/advice.hpp"

#include "core/base/refusal.hpp"
#include "texts/number.hpp"
#include "texts/reconcile.hpp"
#include "texts/unit.hpp"

#include <algorithm>
#include <cmath>

namespace jarbook {

namespace {

// Rounded to two digits: what is estimated is not worth more.
std::string about(double value) {
    if (value == 0.0 || !std::isfinite(value))
        return number_text(value);
    const double unit = std::pow(10.0, std::floor(std::log10(std::fabs(value))) - 1.0);
    return number_text(std::round(value / unit) * unit);
}

// With as many decimals as its uncertainty leaves: 6.49 of an uncertainty of 0.06.
std::string decimals(double value, double uncertainty) {
    const double place = std::floor(std::log10(std::fmax(uncertainty, 1e-9)));
    const int count = static_cast<int>(std::clamp(-place, 0.0, 9.0));
    if (place > 0.0) {
        const double unit = std::pow(10.0, place);
        return number_text(std::round(value / unit) * unit);
    }
    return fixed_text(value, count);
}

std::string row_of(const RunReadings& run, std::size_t lot) {
    return std::to_string(run.lots[lot].row + 1);
}

std::string name_of(const RunReadings& run, const Suspect& suspect) {
    const std::string row = row_of(run, suspect.lot);
    return suspect.is_strength ? texts::reconcile::strength_of{.row = row}.text()
                               : texts::reconcile::volume_of{.row = row}.text();
}

std::string one_to_look_at(const RunReadings& run, const Suspect& suspect) {
    const double change = suspect.implied - suspect.reading;
    std::string change_text = about(std::fabs(change));
    if (suspect.is_strength)
        change_text = texts::number::with_unit{.number = change_text,
                                               .unit = std::string(texts::unit::pct_vol)}
                          .text();
    return texts::reconcile::one{
        .reading = name_of(run, suspect),
        .change = change_text,
        .direction = std::string(change < 0.0 ? texts::reconcile::less : texts::reconcile::more),
        .implied = decimals(suspect.implied, suspect.uncertainty),
        .read = number_text(suspect.reading)}
        .text();
}

std::string several_to_look_at(const RunReadings& run, std::vector<Suspect> suspects) {
    if (std::all_of(suspects.begin(), suspects.end(),
                    [](const Suspect& one) { return one.is_strength; }))
        return std::string(texts::reconcile::a_strength);
    // The best ones, with their values; of more than so many only how many more there are.
    constexpr std::size_t most = 5;
    std::stable_sort(suspects.begin(), suspects.end(),
                     [](const Suspect& a, const Suspect& b) { return a.fall > b.fall; });
    const std::size_t shown = suspects.size() > most + 1 ? most : suspects.size();
    std::string list;
    for (std::size_t i = 0; i < shown; ++i) {
        if (i > 0)
            list += texts::reconcile::next;
        list += texts::reconcile::instead{.reading = name_of(run, suspects[i]),
                                          .implied = decimals(suspects[i].implied,
                                                              suspects[i].uncertainty),
                                          .read = number_text(suspects[i].reading)}
                    .text();
    }
    if (shown < suspects.size())
        list += texts::reconcile::and_more{.count = std::to_string(suspects.size() - shown)}.text();
    return texts::reconcile::several{.readings = list}.text();
}

// The smallest error that shows, of all lots of a direction.
struct Noticed {
    double volume = HUGE_VAL;
    double volume_pct = HUGE_VAL;
    double strength = HUGE_VAL;
};

Noticed noticed(const RunReadings& run, const Verdict& verdict, Direction direction) {
    Noticed least;
    for (std::size_t i = 0; i < run.lots.size(); ++i) {
        if (run.lots[i].direction != direction)
            continue;
        const auto& others = verdict.reconciled.all.difference_uncertainty;
        const double volume = noticed_four_times_in_five * others[volume_of(i)];
        if (volume < least.volume) {
            least.volume = volume;
            least.volume_pct = 100.0 * volume / run.lots[i].volume;
        }
        if (!verdict.reconciled.is_held(strength_of_lot(i)))
            least.strength =
                std::fmin(least.strength, noticed_four_times_in_five * others[strength_of_lot(i)]);
    }
    return least;
}

std::string fits(const RunReadings& run, const Verdict& verdict) {
    const Noticed in = noticed(run, verdict, Direction::in);
    const Noticed out = noticed(run, verdict, Direction::out);
    return texts::reconcile::fits{.in_volume = about(in.volume),
                                  .in_pct = about(in.volume_pct),
                                  .in_strength = about(in.strength),
                                  .out_volume = about(out.volume),
                                  .out_strength = about(out.strength)}
        .text();
}

} // namespace

std::string advice(const RunReadings& run, const Verdict& verdict) {
    std::string text = verdict.fits                   ? fits(run, verdict)
                       : verdict.suspects.empty()     ? std::string(texts::reconcile::none)
                       : verdict.suspects.size() == 1 ? one_to_look_at(run, verdict.suspects[0])
                                                      : several_to_look_at(run, verdict.suspects);
    for (const Held& held : verdict.reconciled.held) {
        const texts::reconcile::strength_of strength{.row = row_of(run, held.at / 2)};
        text.append(" ").append(
            texts::reconcile::held{.reading = strength.text(), .bound = number_text(held.value)}
                .text());
    }
    return text;
}

} // namespace jarbook
