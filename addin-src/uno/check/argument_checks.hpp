// What our functions are given and take, but a person should look at.
#pragma once

#include "uno/explain/explainer.hpp"

#include <map>
#include <set>
#include <tuple>

namespace jarbook::menu {

class OddArguments {
public:
    OddArguments(const Document& document, Explainer& explainer);

    // Looks at the calls of our functions in one cell, as far as they are computed: not at the
    // branch that an IF does not take.
    void look_at(const Place& place);

    // Everything found in the cells looked at; temperatures are compared only now.
    Findings findings() const;

private:
    using Where = Explainer::Where;

    void walk(const Where& where, const Node& node);
    void call(const Where& where, const Node& node, const catalogue::Function& function);
    void single(const Where& where, const Node& node, const catalogue::Function& function,
                const catalogue::Argument& argument);
    void list(const Where& where, const Node& node, const catalogue::Function& function,
              const catalogue::Argument& argument);
    // Lists in the order of the run.
    void rising(const Where& where, const Area& strengths, const catalogue::Function& function);
    void no_cut(const Where& where, const Area& volumes, const Area& cuts,
                const catalogue::Function& function);
    void percent(const Place& cell, const catalogue::Function& function,
                 const catalogue::Argument& argument, double value);
    bool is_percent(const Place& cell);
    void temperature(const Place& cell, const catalogue::Argument& argument, double value,
                     bool along_row);
    void add(Finding finding);

    Document document_;
    Explainer& explainer_;
    Findings findings_;
    std::set<std::tuple<Place, Finding::Kind, std::string, std::string>> told_;
    // By argument, sheet, and the column or row in which they stand.
    std::map<std::tuple<std::string, sal_Int32, bool, sal_Int32>, std::map<Place, double>>
        temperatures_;
    std::map<sal_Int32, bool> percent_formats_;
    std::set<Place> fractions_; // cells looked at for strengths written as fractions
};

} // namespace jarbook::menu
