// What our functions are given and take, but a person should look at.
#pragma once

#include "catalogue.hpp"
#include "uno/document/area_cover.hpp"
#include "uno/explain/finding.hpp"
#include "uno/explain/formula_parts.hpp"

#include <map>
#include <set>
#include <tuple>

namespace jarbook::menu {

class OddArguments {
public:
    explicit OddArguments(FormulaParts& parts);

    // Looks at the calls of our functions in one cell, as far as they are computed: not at the
    // branch that an IF does not take.
    void look_at(const Place& place);

    // Everything found in the cells looked at; temperatures are compared only now.
    Findings findings() const;

private:
    using Where = FormulaParts::Where;

    void walk(const Where& where, const Node& node);
    void call(const Where& where, const Node& node, const catalogue::Function& function);
    void single(const Where& where, const Node& node, const catalogue::Function& function,
                const catalogue::Argument& argument);
    void single_cell(const Where& where, const Place& cell, const Node& node,
                     const catalogue::Function& function, const catalogue::Argument& argument);
    void typed(const Where& where, const Node& node, const catalogue::Function& function,
               const catalogue::Argument& argument);
    void list(const Where& where, const Node& node, const catalogue::Function& function,
              const catalogue::Argument& argument);
    // Lists in the order of the run.
    void rising(const Where& where, const Area& strengths, const catalogue::Function& function);
    void no_cut(const Where& where, const Area& amounts, const Area& cuts,
                const catalogue::Function& function);
    void strength(const Place& cell, const catalogue::Function& function,
                  const catalogue::Argument& argument, double value);
    bool is_percent(const Place& cell);
    void add(Finding finding);

    Document document_;
    FormulaParts& parts_;
    Findings findings_;
    std::set<std::tuple<Place, Finding::Kind, std::string, std::string>> found_;
    // By sheet, and the column or row in which they stand.
    std::map<std::tuple<sal_Int32, bool, sal_Int32>, std::map<Place, double>> temperatures_;
    std::map<sal_Int32, bool> percent_formats_;
    std::set<Place> strengths_; // cells looked at for strengths written as fractions
    // Lists that were looked at: for what they measure, and along which others.
    std::map<catalogue::Measure, AreaCover> lists_;
    AreaCover rising_;
    std::map<std::pair<Place, Place>, AreaCover> cuts_;
};

} // namespace jarbook::menu
