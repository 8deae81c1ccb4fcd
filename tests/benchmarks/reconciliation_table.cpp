// Prints what is said of invented runs, right or wrong: the tables of README.md. Arguments: the
// number of runs for each line (10,000), and with what the names of the lines begin that are wanted
// (all).
#include "record/invented_runs.hpp"

#include "core/record/stages_uncertainty.hpp"
#include "core/still/pot_run.hpp"

#include <cstdio>
#include <cstdlib>
#include <string_view>

namespace {

using namespace invented;

void naming(int runs, std::string_view wanted) {
    std::printf("| run | error, standard uncertainties | fits | named rightly | several, it among "
                "them | several, without it | none | named wrongly |\n"
                "| --- | --- | --- | --- | --- | --- | --- | --- |\n");
    struct Line {
        const char* name;
        Kind kind;
    };
    for (const Line& line :
         {Line{"charge, one lot, residue", {1, 30.0}}, Line{"12 jars", {12, 30.0}},
          Line{"12 jars, ± 0.5 % vol common", {12, 30.0, 1.0, 0.2, 0.5}},
          Line{"30 jars", {30, 30.0}}}) {
        if (!std::string_view(line.name).starts_with(wanted))
            continue;
        for (const Scale scale : {Scale::own, Scale::others})
            for (const double size : {0.0, 3.0, 5.0, 8.0}) {
                if (scale == Scale::others && size == 0.0)
                    continue;
                const Tally t = tally(line.kind, size, scale, runs, 20261128);
                std::printf("| %s | %g%s | %.1f %% | %.1f | %.1f | %.1f | %.1f | %.1f |\n",
                            line.name, size,
                            size == 0.0           ? ""
                            : scale == Scale::own ? " of its own"
                                                  : " of what the others say",
                            t.pct(t.fits), t.pct(t.right), t.pct(t.tie), t.pct(t.off_tie),
                            t.pct(t.none), t.pct(t.wrong));
                std::fflush(stdout);
            }
    }
    const Tally weak = tally({12, 5.0}, 0.0, Scale::own, runs, 20261128);
    std::printf("residue of some 0.2 %% vol, read as 0 where noise takes it below: %.1f %% fit\n",
                weak.pct(weak.fits));
}

} // namespace

int main(int argc, char** argv) {
    naming(argc > 1 ? std::atoi(argv[1]) : 10000, argc > 2 ? argv[2] : "");
}
