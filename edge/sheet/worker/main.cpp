// hidewright-sheet: reads one data sheet for hidewright. See work.hpp.
#include <cstring>
#include <cstdio>

#include "edge/sheet/worker/work.hpp"

int main(int argc, char** argv) {
    if (argc > 1 && (std::strcmp(argv[1], "words") == 0 || std::strcmp(argv[1], "page") == 0)) hw::sheet_reader::work(argc, argv);
    std::puts("hidewright-sheet reads data sheets for hidewright, which starts it by itself. There is nothing to do by hand.");
    return argc > 1 && std::strcmp(argv[1], "--help") == 0 ? 0 : 2;
}
