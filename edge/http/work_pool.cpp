#include "edge/http/work_pool.hpp"

#include <utility>

namespace hw::http {

WorkPool::WorkPool(unsigned threads, std::size_t waiting) : waiting_(waiting) {
    for (unsigned i = 0; i < threads; ++i) threads_.emplace_back([this] { work(); });
}

WorkPool::~WorkPool() { stop(); }

bool WorkPool::offer(std::function<void()> job) {
    {
        const std::scoped_lock lock(guard_);
        if (stopping_ || jobs_.size() >= waiting_) return false;
        jobs_.push_back(std::move(job));
    }
    woken_.notify_one();
    return true;
}

void WorkPool::stop() {
    {
        const std::scoped_lock lock(guard_);
        stopping_ = true;
    }
    woken_.notify_all();
    for (auto& thread : threads_) thread.join();
    threads_.clear();
}

void WorkPool::work() {
    for (;;) {
        std::function<void()> job;
        {
            std::unique_lock lock(guard_);
            woken_.wait(lock, [this] { return stopping_ || !jobs_.empty(); });
            if (jobs_.empty()) return;
            job = std::move(jobs_.front());
            jobs_.pop_front();
        }
        job();
    }
}

}  // namespace hw::http
