#pragma once

#include <atomic>
#include <chrono>
#include <exception>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <utility>

#include "choose/choose.hpp"

namespace podwright {

/// One calculation beside the window, on a thread of its own. What it works on must be its own.
template <class Result>
class Job {
public:
    /// `wake` is called from the thread when there is something new to show.
    explicit Job(std::function<void()> wake) : wake_(std::move(wake)) {}
    ~Job() { end(); }
    Job(const Job&) = delete;
    Job& operator=(const Job&) = delete;

    /// Stops what runs, and starts `work`.
    void start(std::function<Result(const Watch&)> work) {
        end();
        shared_ = std::make_shared<Shared>();
        began_ = std::chrono::steady_clock::now();
        thread_ = std::thread([shared = shared_, wake = wake_, work = std::move(work)] {
            const Watch watch{[&](const std::string& doing) {
                const std::lock_guard<std::mutex> lock(shared->mutex);
                shared->doing = doing;
                return !shared->stop;
            }};
            std::optional<Result> result;
            std::string failure;
            try {
                result = work(watch);
            } catch (const std::exception& error) {
                failure = error.what();
            }
            {
                const std::lock_guard<std::mutex> lock(shared->mutex);
                shared->result = std::move(result);
                shared->failure = std::move(failure);
                shared->done = true;
            }
            wake();
        });
    }
    /// Asks it to stop; what it has until then comes with take().
    void stop() {
        if (shared_) shared_->stop = true;
    }
    bool running() const { return shared_ && !shared_->done; }
    /// What it has found, once, when it is done.
    std::optional<Result> take() {
        if (!shared_ || !shared_->done) return {};
        std::optional<Result> result = std::move(shared_->result);
        failure_ = shared_->failure;
        end();
        return result;
    }
    /// Why what was taken found nothing, once; empty if it did.
    std::string take_failure() { return std::exchange(failure_, {}); }
    std::string doing() const {
        if (!shared_) return {};
        const std::lock_guard<std::mutex> lock(shared_->mutex);
        return shared_->doing;
    }
    double seconds() const {
        return std::chrono::duration<double>(std::chrono::steady_clock::now() - began_).count();
    }

private:
    struct Shared {
        std::atomic<bool> stop{false};
        std::atomic<bool> done{false};
        std::mutex mutex;
        std::string doing;
        std::optional<Result> result;
        std::string failure;
    };

    void end() {
        stop();
        if (thread_.joinable()) thread_.join();
        shared_.reset();
    }

    std::function<void()> wake_;
    std::shared_ptr<Shared> shared_;
    std::thread thread_;
    std::chrono::steady_clock::time_point began_;
    std::string failure_;
};

}  // namespace podwright
