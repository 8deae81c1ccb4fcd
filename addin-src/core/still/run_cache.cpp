#include "core/still/run_cache.hpp"

#include <functional>

namespace jarbook {

RunMemory& RunMemory::get() {
    static RunMemory memory;
    return memory;
}

std::size_t RunMemory::Hash::operator()(const Key& key) const {
    const std::hash<double> hash;
    std::size_t sum = hash(key.charge_strength);
    for (const double part : {key.stages, key.pressure_hpa})
        sum = sum * 1000003 + hash(part);
    return sum;
}

std::shared_ptr<const PotRun> RunMemory::run(double charge_strength, double stages,
                                             double pressure_hpa) {
    const Key key{charge_strength, stages, pressure_hpa};
    {
        const std::lock_guard lock(mutex_);
        if (const auto found = by_key_.find(key); found != by_key_.end()) {
            recent_.splice(recent_.begin(), recent_, found->second);
            return found->second->run;
        }
    }
    // Computed outside the lock: two threads may both compute one curve, and both get the same.
    auto run = std::make_shared<const PotRun>(charge_strength, stages, pressure_hpa);
    const std::lock_guard lock(mutex_);
    if (by_key_.contains(key))
        return run;
    recent_.push_front({key, run});
    by_key_.emplace(key, recent_.begin());
    if (recent_.size() > bound) {
        by_key_.erase(recent_.back().key);
        recent_.pop_back();
    }
    return run;
}

std::size_t RunMemory::size() const {
    const std::lock_guard lock(mutex_);
    return recent_.size();
}

void RunMemory::forget() {
    const std::lock_guard lock(mutex_);
    by_key_.clear();
    recent_.clear();
}

} // namespace jarbook
