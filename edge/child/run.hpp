// A program that reads foreign bytes for us: it gets them as its input, answers through a pipe, has nothing else of ours, and is
// ended when it takes too long. No door of its own: the photographs and the data sheets use it.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace hw::child {

struct Order {
    std::string program;             ///< path of the file to run
    std::vector<std::string> words;  ///< its arguments, the first one its name
    int wall_ms = 30000;             ///< by the clock on the wall, until it is ended
    std::size_t most = 0;            ///< bytes that it may answer; with more it is ended
};

struct Ended {
    bool started = false;   ///< false: there was no memory or no process for it; nothing was read
    bool answered = false;  ///< false: it took too long, or answered too much
    int signal = 0;         ///< what ended it, when it was not itself
    std::string answer;
};

/// Runs it to its end. May be asked by several threads.
Ended run(const Order& order, std::string_view bytes);

/// Whether somebody ended the program from outside, or the system had no memory: not the fault of what was read.
bool from_outside(int signal);

}  // namespace hw::child
