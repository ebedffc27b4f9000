// Long answers: begun, looked at while they run, cancelled. In memory only; forgotten after a while.
#pragma once

#include <atomic>
#include <chrono>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>

#include "base/progress.hpp"
#include "base/result.hpp"

namespace hw::http {

class Works {
public:
    /// Gives the answer as JSON. Must return soon after `progress` says no.
    using Job = std::function<Result<std::string>(const Progress& progress)>;

    struct State {
        double done_1 = 0;
        std::string doing;
        bool finished = false;
        std::string answer;                       ///< JSON, once it is finished and went well
        std::optional<Error> error;               ///< once it is finished and did not
    };

    ~Works();

    /// Begins a job for a person. An id that nobody can guess.
    /// @error Unavailable  that person, or everybody together, has as many running as are allowed
    Result<std::string> begin(const std::string& person, Job job);
    /// @param person  whose it is; `everybody`: also that of others  @error NotFound  never was, is somebody else's, or is forgotten
    Result<State> state(const std::string& id, const std::string& person, bool everybody);
    Result<Done> cancel(const std::string& id, const std::string& person, bool everybody);
    /// Cancels all and waits for them.
    void stop();

    static constexpr std::size_t most_of_one = 2, most_together = 6, most_kept = 60;
    static constexpr std::chrono::minutes kept_for{15};

private:
    struct Item {
        std::string person;
        std::mutex guard;                         ///< of state
        State state;
        std::atomic<bool> cancelled{false};
        std::chrono::steady_clock::time_point ended{};
        std::thread thread;
    };
    void forget_old();
    Result<std::shared_ptr<Item>> find(const std::string& id, const std::string& person, bool everybody);

    std::mutex guard_;                            ///< of items_
    std::map<std::string, std::shared_ptr<Item>> items_;
    bool stopping_ = false;
};

}  // namespace hw::http
