// A few threads for answers that take long, so that the threads of the network never wait for one.
#pragma once

#include <condition_variable>
#include <deque>
#include <functional>
#include <mutex>
#include <thread>
#include <vector>

namespace hw::http {

class WorkPool {
public:
    /// @param threads  how many jobs run at a time
    /// @param waiting  how many may wait; more are refused at once instead of piling up
    WorkPool(unsigned threads, std::size_t waiting);
    ~WorkPool();
    WorkPool(const WorkPool&) = delete;
    WorkPool& operator=(const WorkPool&) = delete;

    /// False when the queue is full or the pool is stopping; the job is then not run. A job must not throw.
    bool offer(std::function<void()> job);
    /// Takes nothing more, finishes what is waiting, and ends the threads.
    void stop();

private:
    void work();

    std::size_t waiting_;
    std::mutex guard_;
    std::condition_variable woken_;
    std::deque<std::function<void()>> jobs_;
    bool stopping_ = false;
    std::vector<std::thread> threads_;
};

}  // namespace hw::http
