#include "edge/http/work.hpp"

#include <algorithm>
#include <exception>
#include <random>
#include <utility>
#include <vector>

namespace hw::http {

namespace {

std::string new_id() {
    static constexpr std::string_view digits = "0123456789abcdef";
    std::random_device device;
    std::string out;
    for (int i = 0; i < 32; ++i) out += digits[device() % digits.size()];
    return out;
}

Error none() { return {ErrorCode::NotFound, "There is no such work: it was forgotten, or it is somebody else's. Ask again.", "id"}; }

}  // namespace

Works::~Works() { stop(); }

Result<std::string> Works::begin(const std::string& person, Job job) {
    const std::scoped_lock lock(guard_);
    if (stopping_) return Error{ErrorCode::Unavailable, "The program is ending.", ""};
    forget_old();
    std::size_t of_one = 0, together = 0;
    for (const auto& [id, item] : items_) {
        const std::scoped_lock inner(item->guard);
        if (item->state.finished) continue;
        ++together;
        of_one += item->person == person ? 1 : 0;
    }
    if (of_one >= most_of_one || together >= most_together) return Error{ErrorCode::Unavailable, "Two plans are being worked out already. Wait for one, or cancel it.", ""};
    const std::string id = new_id();
    const auto item = std::make_shared<Item>();
    item->person = person;
    item->thread = std::thread([item = item.get(), job = std::move(job)] {
        const Progress progress = [item](double done_1, const char* doing) {
            const std::scoped_lock inner(item->guard);
            item->state.done_1 = std::max(item->state.done_1, done_1);
            item->state.doing = doing == nullptr ? "" : doing;
            return !item->cancelled.load();
        };
        Result<std::string> answer = Error{ErrorCode::Bug, "Something went wrong inside the program. Nothing was lost.", ""};
        try {
            answer = job(progress);
        } catch (const std::exception&) {  // told as the bug that it is; the thread must not end the program
        }
        const std::scoped_lock inner(item->guard);
        item->state.finished = true;
        item->state.done_1 = 1;
        item->state.doing.clear();
        item->ended = std::chrono::steady_clock::now();
        if (answer.ok()) item->state.answer = std::move(*answer);
        else if (item->cancelled) item->state.error = Error{ErrorCode::NotConverged, "Cancelled.", ""};
        else item->state.error = answer.error();
    });
    items_[id] = item;
    return id;
}

Result<std::shared_ptr<Works::Item>> Works::find(const std::string& id, const std::string& person, bool everybody) {
    const std::scoped_lock lock(guard_);
    forget_old();
    const auto it = items_.find(id);
    if (it == items_.end() || (it->second->person != person && !everybody)) return none();
    return it->second;
}

Result<Works::State> Works::state(const std::string& id, const std::string& person, bool everybody) {
    HW_TRY(item, find(id, person, everybody));
    const std::scoped_lock inner(item->guard);
    return item->state;
}

Result<Done> Works::cancel(const std::string& id, const std::string& person, bool everybody) {
    HW_TRY(item, find(id, person, everybody));
    item->cancelled = true;
    return Done{};
}

void Works::forget_old() {
    const auto now = std::chrono::steady_clock::now();
    std::vector<std::pair<std::chrono::steady_clock::time_point, std::string>> ended;
    for (const auto& [id, item] : items_) {
        const std::scoped_lock inner(item->guard);
        if (item->state.finished) ended.emplace_back(item->ended, id);
    }
    std::sort(ended.begin(), ended.end());
    std::size_t kept = ended.size();
    for (const auto& [at, id] : ended) {
        if (now - at < kept_for && kept <= most_kept) break;
        --kept;
        const auto it = items_.find(id);
        it->second->thread.join();  // has ended
        items_.erase(it);
    }
}

void Works::stop() {
    std::map<std::string, std::shared_ptr<Item>> all;
    {
        const std::scoped_lock lock(guard_);
        stopping_ = true;
        all.swap(items_);
    }
    for (const auto& [id, item] : all) item->cancelled = true;
    for (const auto& [id, item] : all)
        if (item->thread.joinable()) item->thread.join();
}

}  // namespace hw::http
