// A small memory of runs, so that the cells of a sheet that ask the same curve share the work.
//
// A run is a pure function of its key, so that what a cell shows cannot depend on which cell was
// asked first, nor on whether the curve was remembered. Curves are per unit of charge: the charge's
// volume is no part of the key.
#pragma once

#include "core/still/pot_run.hpp"

#include <cstddef>
#include <list>
#include <memory>
#include <mutex>
#include <unordered_map>

namespace jarbook {

class RunMemory {
public:
    // About 6 kB a curve.
    static constexpr std::size_t bound = 256;

    static RunMemory& get();

    // The run of that charge strength, stages and pressure, computed if it is not remembered; the
    // least recently used gives way. May be called from any thread. Refusals are PotRun's, and are
    // not remembered.
    std::shared_ptr<const PotRun> run(double charge_strength, double stages, double pressure_hpa);

    std::size_t size() const;
    void forget();

private:
    struct Key {
        double charge_strength, stages, pressure_hpa;
        bool operator==(const Key&) const = default;
    };
    struct Hash {
        std::size_t operator()(const Key& key) const;
    };
    struct Entry {
        Key key;
        std::shared_ptr<const PotRun> run;
    };

    mutable std::mutex mutex_;
    std::list<Entry> recent_; // most recently used first
    std::unordered_map<Key, std::list<Entry>::iterator, Hash> by_key_;
};

} // namespace jarbook
