#include "runs/register.hpp"

#include "core/still/forecast.hpp"
#include "support/support.hpp"
#include "text.hpp"

#include <com/sun/star/container/XNamed.hpp>
#include <stdexcept>

namespace jarbook::e2e {

using namespace com::sun::star;

const std::map<std::string, std::string>& register_columns() {
    static const std::map<std::string, std::string> columns{{"run", "A"},
                                                            {"still", "D"},
                                                            {"state", "F"},
                                                            {"charge_volume", "H"},
                                                            {"charge_strength", "I"},
                                                            {"charge_alcohol", "J"},
                                                            {"recovery", "L"},
                                                            {"foreshots", "M"},
                                                            {"heads", "N"},
                                                            {"hearts", "O"},
                                                            {"tails", "P"},
                                                            {"stages", "Q"},
                                                            {"stages_range", "R"},
                                                            {"unlike", "S"},
                                                            {"hours", "T"},
                                                            {"recovery_range", "AC"},
                                                            {"drawn_stages", "AG"},
                                                            {"drawn_range", "AI"},
                                                            {"drawn_unlike", "AL"},
                                                            {"known", "AM"},
                                                            {"others_mean", "AN"},
                                                            {"volume_range", "AQ"},
                                                            {"strength_range", "AR"},
                                                            {"alcohol_range", "AS"},
                                                            {"volume_tolerance", "AT"},
                                                            {"reading_scatter", "AU"},
                                                            {"curve", "AV"}};
    return columns;
}

RunsSheet::RunsSheet(const office::Document& document) : document_(document) {}

office::Range RunsSheet::block(const std::string& name) const {
    return named().sheet().range(named().address(name));
}

int RunsSheet::row(const std::string& run) const {
    const NamedSheet named = this->named();
    const int first = named.row("register");
    const int end = named.row("register_end");
    for (int row = first; row < end; ++row)
        if (named.at("A", row).text() == run)
            return row;
    throw std::runtime_error("Runs has no run " + run);
}

office::Cell RunsSheet::at(const std::string& run, const std::string& column) const {
    return named().at(register_columns().at(column), row(run));
}

std::map<std::string, Stated> RunsSheet::known(const std::string& still) const {
    std::map<std::string, Stated> result;
    const NamedSheet named = this->named();
    const int first = named.row("register");
    const int end = named.row("register_end");
    const auto& letters = register_columns();
    for (int row = first; row < end; ++row) {
        if (named.at(letters.at("still"), row).text() != still ||
            named.at(letters.at("state"), row).text() != "finished")
            continue;
        const auto stages = named.at(letters.at("stages"), row).value();
        const auto range = named.at(letters.at("stages_range"), row).value();
        if (std::holds_alternative<double>(stages) && std::holds_alternative<double>(range))
            result[named.at("A", row).text()] = {std::get<double>(stages),
                                                 std::get<double>(range) / 2};
    }
    return result;
}

void rename_sheet(const office::Document& document, const std::string& name,
                  const std::string& other) {
    shared_office().call("renaming " + name, [&] {
        const uno::Reference<container::XNamed> sheet(document.sheet(name).uno(),
                                                      uno::UNO_QUERY_THROW);
        sheet->setName(office::to_uno(other));
    });
}

void run_again(const office::Document& document, const std::string& run, double stages) {
    const NamedSheet sheet(document, run);
    const Charge charge{sheet["charge_volume"].number(), sheet["charge_strength"].number()};
    const Still still{.stages = stages, .pressure_hpa = sheet["pressure"].number()};
    // All together a tenth of a wash, so that it holds out for a still of two stages.
    const auto jars = static_cast<std::size_t>(sheet["jars_complete"].number());
    const double litres = charge.volume / 10 / double(jars);
    double from = 0;
    for (std::size_t jar = 0; jar < jars; ++jar) {
        const double alcohol =
            forecast_alcohol(charge, forecast_strength(charge, from, still),
                             forecast_strength(charge, from + litres, still), still);
        from += litres;
        sheet.in_column("jar_temperature", jar).set_number(20);
        sheet.in_column("jar_reading", jar).set_number(100 * alcohol / litres);
        sheet.in_column("jar_amount", jar).set_number(1000 * litres);
    }
}

} // namespace jarbook::e2e
