#include "core/belief/points.hpp"

#include <boost/random/sobol.hpp>

namespace hw::belief {

namespace {

constexpr std::size_t most_points = std::size_t{1} << 20, most_dimensions = 1000;

/// A word that looks random, of a counter (Steele, Lea & Flood's mix of 64 bits).
std::uint64_t mixed(std::uint64_t z) {
    z += 0x9e3779b97f4a7c15ULL;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
    return z ^ (z >> 31);
}

}  // namespace

bool is_power_of_two(std::size_t count) { return count >= 2 && (count & (count - 1)) == 0; }

Result<std::vector<std::vector<double>>> even_points(std::size_t count, std::size_t dimensions, std::uint64_t seed) {
    if (!is_power_of_two(count) || count > most_points) return Error{ErrorCode::InvalidInput, "Give a power of two: 64, 256, 1024 …", "members"};
    HW_EXPECTS(dimensions >= 1 && dimensions <= most_dimensions);
    unsigned bits = 0;
    while ((std::size_t{1} << bits) < count) ++bits;
    std::vector<std::uint64_t> shift(dimensions);
    for (std::size_t d = 0; d < dimensions; ++d) shift[d] = mixed(mixed(seed) + d);
    boost::random::sobol engine(dimensions);
    std::vector<std::vector<double>> points(count, std::vector<double>(dimensions));
    for (std::size_t i = 0; i < count; ++i)
        for (std::size_t d = 0; d < dimensions; ++d) {
            // The library leaves out the point at zero, with which the strips are whole.
            const std::uint64_t x = (i == 0 ? 0 : engine()) ^ shift[d];
            points[i][d] = (static_cast<double>(x >> (64 - bits)) + 0.5) / static_cast<double>(count);
        }
    return points;
}

}  // namespace hw::belief
