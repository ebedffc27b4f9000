#include <cstdio>

int main() {
    std::puts("hidewright");
    return 0;
}
