// Does any mixture fail to converge? Ten million random ones, strong and weak, 1e-6 to 3 mol/kg of each ingredient, 0 to
// 60 degC, over all acid-base systems of the atlas; must print 0.
//
// Size: ten million is far beyond what a workshop will ever ask, and enough to meet one failure in a million ten times
// over. Eight systems are drawn per block of 4096 liquids, which shares one temperature; each is present with chance one
// half. First argument: another number of liquids. Second: a seed.

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <numeric>
#include <random>
#include <vector>

#include "bench/mixtures.hpp"
#include "core/chem/batch.hpp"

int main(int count, char** arguments) {
    using namespace hw;
    const std::size_t wanted = count > 1 ? std::strtoull(arguments[1], nullptr, 10) : 10'000'000;
    std::mt19937_64 random(count > 2 ? std::strtoull(arguments[2], nullptr, 10) : 7);
    constexpr std::size_t block = 4096;
    std::vector<std::size_t> all(chem::acid_systems().size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    std::uniform_real_distribution<double> celsius(0, 60);
    std::size_t solved = 0, scalar = 0, failed = 0, beyond = 0;
    double busy = 0, lowest = 99, highest = -99;
    while (solved < wanted) {
        std::shuffle(all.begin(), all.end(), random);
        const std::vector<std::size_t> systems(all.begin(), all.begin() + 8);
        std::vector<chem::Totals> liquids;
        for (std::size_t i = 0; i < block; ++i) liquids.push_back(bench::random_liquid(random, systems, (solved / block) % 2 == 1));
        chem::Conditions c;
        c.water = Temperature::celsius(celsius(random));
        std::size_t fallbacks = 0;
        busy += bench::seconds_of([&] {
            const auto answer = chem::equilibria(liquids, c, &fallbacks);
            if (!answer.ok()) {
                ++failed;
                return;
            }
            for (std::size_t i = 0; i < block; ++i) {
                beyond += answer->ionic_strength_mol_kg[i] > 3;
                lowest = std::min(lowest, answer->ph[i]);
                highest = std::max(highest, answer->ph[i]);
            }
        });
        scalar += fallbacks;
        solved += block;
    }
    std::printf("%zu liquids, pH %.2f to %.2f, %.1f %% beyond 3 mol/kg of ionic strength\n", solved, lowest, highest, 100.0 * static_cast<double>(beyond) / static_cast<double>(solved));
    std::printf("%zu went to the scalar path; %zu blocks with a liquid that did not converge\n", scalar, failed);
    std::printf("%.2f million per second from totals on one core\n", static_cast<double>(solved) / busy / 1e6);
    return failed == 0 ? 0 : 1;
}
