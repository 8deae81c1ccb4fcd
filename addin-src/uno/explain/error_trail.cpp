#include "uno/explain/error_trail.hpp"

#include "texts/explain.hpp"
#include "uno/explain/error_sentences.hpp"

#include <algorithm>
#include <deque>
#include <set>

namespace jarbook::menu {

bool ErrorTrail::follow(const Place& start, std::size_t most_causes) {
    if (!parts_.errors().code(start) || cells_.contains(start))
        return false;
    std::deque<Place> open{start};
    std::vector<Place> fresh;
    cells_.try_emplace(start);
    const std::size_t before = causes_.size();
    bool more = false;
    while (!open.empty()) {
        const Place place = open.front();
        open.pop_front();
        if (causes_.size() - before >= most_causes) {
            // Not explained, and so as good as never seen.
            cells_.erase(place);
            more = true;
            continue;
        }
        Explanation explanation = explainer_.explain(place);
        fresh.push_back(place);
        Cell& cell = cells_[place];
        cell.findings = std::move(explanation.findings);
        if (!cell.findings.empty())
            causes_.push_back(place);
        else if (!explanation.sources.empty())
            cell.source = explanation.sources.front();
        for (const Place& source : explanation.sources) {
            if (!parts_.errors().code(source))
                continue;
            const auto [next, unseen] = cells_.try_emplace(source);
            if (!unseen)
                continue;
            next->second.come_from = place;
            open.push_back(source);
        }
    }
    find_circles(fresh);
    return more;
}

void ErrorTrail::find_circles(const std::vector<Place>& fresh) {
    for (const Place& start : fresh) {
        std::vector<Place> way;
        std::set<Place> on_way;
        std::optional<Place> at = start;
        while (at && cells_.contains(*at) && !settled_.contains(*at) && on_way.insert(*at).second) {
            way.push_back(*at);
            at = cells_[*at].source;
        }
        settled_.insert(way.begin(), way.end());
        if (!at || !on_way.contains(*at))
            continue;
        close_circle({std::find(way.begin(), way.end(), *at), way.end()});
    }
}

void ErrorTrail::close_circle(const std::vector<Place>& circle) {
    const Place& first = circle.front();
    std::vector<std::string> names;
    for (const Place& place : circle)
        names.push_back(name_seen_from(parts_.document(), place, first.sheet));
    names.push_back(names.front());
    Cell& cell = cells_[first];
    cell.source.reset();
    cell.findings.push_back({first, Finding::Kind::error, "", "", "",
                             texts::explain::circle{.cells = circle_text(names)}.text(),
                             parts_.errors().code(first)});
    causes_.push_back(first);
}

const Findings& ErrorTrail::findings_at(const Place& cause) const {
    return cells_.at(cause).findings;
}

std::vector<Place> ErrorTrail::way_to(const Place& place) const {
    std::vector<Place> way;
    for (std::optional<Place> at = place; at && cells_.contains(*at); at = cells_.at(*at).come_from)
        way.push_back(*at);
    std::reverse(way.begin(), way.end());
    return way;
}

std::optional<Place> ErrorTrail::source_of(const Place& place) const {
    const auto cell = cells_.find(place);
    return cell == cells_.end() ? std::nullopt : cell->second.source;
}

std::map<Place, std::vector<Place>> ErrorTrail::cells_by_cause() const {
    std::map<Place, Place> cause_of;
    std::map<Place, std::vector<Place>> result;
    for (const auto& [start, cell] : cells_) {
        std::vector<Place> way;
        Place at = start;
        auto known = cause_of.find(at);
        while (known == cause_of.end()) {
            way.push_back(at);
            const auto source = source_of(at);
            if (!source || way.size() > cells_.size())
                break;
            at = *source;
            known = cause_of.find(at);
        }
        const Place cause = known == cause_of.end() ? at : known->second;
        for (const Place& place : way)
            cause_of.emplace(place, cause);
        result[cause].push_back(start);
    }
    return result;
}

} // namespace jarbook::menu
