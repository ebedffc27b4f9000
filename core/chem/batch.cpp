#include "core/chem/batch.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/chem/activity.hpp"
#include "core/chem/batch_kernel.hpp"
#include "core/chem/systems.hpp"

namespace hw::chem {

namespace {

using batch_kernel::Block;
using batch_kernel::width;

Result<Done> fits(const Batch& batch) {
    auto wrong = [](std::string what, std::string where) { return Error{ErrorCode::InvalidInput, std::move(what), std::move(where)}; };
    const std::size_t n = batch.lanes();
    for (const auto* v : {&batch.inert_mol_kg, &batch.debye_a_1, &batch.log_kw_1, &batch.log_gamma_h_1, &batch.log_gamma_oh_1})
        if (v->size() != n) return wrong("Every vector of a batch needs one entry per lane.", "batch");
    if (batch.systems.size() > batch_kernel::max_systems) return wrong("A batch holds at most 80 systems.", "batch.systems");
    for (std::size_t s = 0; s < batch.systems.size(); ++s) {
        const BatchSystem& b = batch.systems[s];
        const std::string where = "batch.systems[" + std::to_string(s) + "]";
        if (b.steps < 1 || b.steps > batch_max_steps) return wrong("A system has one to six steps.", where + ".steps");
        if (b.top_charge < -3 || b.top_charge > 3) return wrong("The top charge lies between -3 and 3.", where + ".top_charge");
        if (b.log_k.size() != static_cast<std::size_t>(b.steps) * (b.shared ? 1 : n)) return wrong("One constant per step, or per step and lane.", where + ".log_k");
        if (b.total_mol_kg.size() != n) return wrong("One total per lane.", where + ".total_mol_kg");
        for (double k : b.log_k)
            if (!(k >= -30 && k <= 10)) return wrong("log10 K lies between -30 and 10.", where + ".log_k");
    }
    return Done{};
}

/// Cumulative constants: beta[j] = K[0] ... K[j].
std::vector<std::vector<double>> cumulative(const Batch& batch) {
    std::vector<std::vector<double>> out;
    for (const BatchSystem& s : batch.systems) {
        const std::size_t row = s.shared ? 1 : batch.lanes();
        std::vector<double> beta = s.log_k;
        for (std::size_t i = row; i < beta.size(); ++i) beta[i] += beta[i - row];
        batch_kernel::power_of_ten_baseline(beta.data(), beta.data(), static_cast<long>(beta.size()));
        out.push_back(std::move(beta));
    }
    return out;
}

/// The (top charge, denominator) classes; class 0 is that of H+ and OH-. False when there are too many.
bool classify(const Batch& batch, Block& block) {
    block.classes = 1;
    block.class_top[0] = 0;
    block.class_ba[0] = long_range_ba("");
    for (std::size_t s = 0; s < batch.systems.size(); ++s) {
        int c = 0;
        while (c < block.classes && !(block.class_top[c] == batch.systems[s].top_charge && block.class_ba[c] == batch.systems[s].ba)) ++c;
        if (c == batch_kernel::max_classes) return false;
        if (c == block.classes) {
            block.class_top[c] = batch.systems[s].top_charge;
            block.class_ba[c] = batch.systems[s].ba;
            ++block.classes;
        }
        block.group[s] = c;
        block.steps[s] = batch.systems[s].steps;
        block.top[s] = batch.systems[s].top_charge;
    }
    block.systems = static_cast<int>(batch.systems.size());
    return true;
}

void run(Block& block, BatchTarget target) {
    switch (target) {
        case BatchTarget::Avx512: batch_kernel::solve_avx512(block); break;
        case BatchTarget::Avx2: batch_kernel::solve_avx2(block); break;
        case BatchTarget::Baseline: batch_kernel::solve_baseline(block); break;
    }
}

/// One block of lanes from `first` on; lanes beyond the end are filled with pure water.
class Filler {
public:
    Filler(const Batch& batch, Block& block) : batch_(batch), block_(block), beta_(cumulative(batch)) {
        tail_.resize(batch.systems.size());
        for (std::size_t s = 0; s < batch.systems.size(); ++s) {
            block_.stride[s] = batch.systems[s].shared ? 0 : static_cast<long>(batch.lanes());
            block_.beta[s] = beta_[s].data();
        }
    }
    void fill(std::size_t first) {
        const std::size_t n = std::min<std::size_t>(width, batch_.lanes() - first);
        for (std::size_t l = 0; l < width; ++l) {
            const bool in = l < n;
            const std::size_t i = in ? first + l : first;
            block_.strong[l] = in ? batch_.strong_mol_kg[i] : 0;
            block_.inert[l] = in ? batch_.inert_mol_kg[i] : 0;
            block_.a[l] = batch_.debye_a_1[i];
            block_.kw[l] = batch_.log_kw_1[i];
            block_.free_h[l] = -batch_.log_gamma_h_1[i];
            block_.free_oh[l] = -batch_.log_gamma_oh_1[i];
            block_.total_sum[l] = 0;
        }
        for (double* v : {block_.kw, block_.free_h, block_.free_oh}) batch_kernel::power_of_ten_baseline(v, v, width);
        for (std::size_t s = 0; s < batch_.systems.size(); ++s) {
            const BatchSystem& system = batch_.systems[s];
            block_.total[s] = system.total_mol_kg.data() + first;
            if (!system.shared) block_.beta[s] = beta_[s].data() + first;
            if (n < width) pad(s, first, n);
            for (std::size_t l = 0; l < n; ++l) block_.total_sum[l] += block_.total[s][l];
        }
    }

private:
    void pad(std::size_t s, std::size_t first, std::size_t n) {
        const BatchSystem& system = batch_.systems[s];
        auto& tail = tail_[s];
        const auto steps = static_cast<std::size_t>(system.steps);
        tail.assign((steps + 1) * width, 0.0);
        for (std::size_t l = 0; l < n; ++l) tail[l] = system.total_mol_kg[first + l];
        block_.total[s] = tail.data();
        if (system.shared) return;
        for (std::size_t j = 0; j < steps; ++j)
            for (std::size_t l = 0; l < width; ++l) tail[(j + 1) * width + l] = beta_[s][j * batch_.lanes() + first + std::min(l, n - 1)];
        block_.beta[s] = tail.data() + width;
        block_.stride[s] = width;
    }

    const Batch& batch_;
    Block& block_;
    std::vector<std::vector<double>> beta_, tail_;
};

}  // namespace

BatchTarget widest_batch_target() {
#if defined(__x86_64__) && defined(__GNUC__)
    if (__builtin_cpu_supports("avx512f")) return BatchTarget::Avx512;
    if (__builtin_cpu_supports("avx2")) return BatchTarget::Avx2;
#endif
    return BatchTarget::Baseline;
}

Result<BatchAnswer> solve_batch(const Batch& batch, BatchTarget target) {
    HW_TRY(ok, fits(batch));
    static_cast<void>(ok);
    Block block;
    if (!classify(batch, block))
        return Error{ErrorCode::InvalidInput, "A batch holds at most eight kinds of top charge and long-range term.", "batch.systems"};
    const std::size_t n = batch.lanes();
    BatchAnswer out;
    out.target = std::min(target, widest_batch_target());
    out.ph.resize(n);
    out.ionic_strength_mol_kg.resize(n);
    out.buffer_mol_kg_ph.resize(n);
    out.settled.resize(n);
    Filler filler(batch, block);
    for (std::size_t first = 0; first < n; first += width) {
        filler.fill(first);
        run(block, out.target);
        for (std::size_t l = 0; l < std::min<std::size_t>(width, n - first); ++l) {
            out.ph[first + l] = block.ph[l];
            out.ionic_strength_mol_kg[first + l] = block.ionic[l];
            out.buffer_mol_kg_ph[first + l] = block.buffer[l];
            out.settled[first + l] = block.open[l] == 0;
        }
    }
    return out;
}

namespace {

/// Specific interaction of every form of a system with the lane's sodium, potassium and chloride.
struct Interactions {
    std::vector<double> sodium, potassium, chloride;
    bool any = false;
};

Interactions interactions_of(const AcidSystem& system) {
    Interactions out;
    for (int j = 0; j <= system.steps; ++j) {
        const int z = system.top_charge - j;
        out.sodium.push_back(z < 0 ? specific_interaction(system.name, z, "sodium") : 0);
        out.potassium.push_back(z < 0 ? specific_interaction(system.name, z, "potassium") : 0);
        out.chloride.push_back(z > 0 ? specific_interaction(system.name, z, "chloride") : 0);
        out.any = out.any || out.sodium.back() != 0 || out.potassium.back() != 0 || out.chloride.back() != 0;
    }
    return out;
}

BatchSystem system_of(std::size_t index, const std::vector<Totals>& liquids, Temperature water) {
    const AcidSystem& system = acid_systems()[index];
    const Interactions e = interactions_of(system);
    const auto pk = pk_at(index, water);
    BatchSystem out;
    out.steps = system.steps;
    out.top_charge = system.top_charge;
    out.ba = long_range_ba(system.name);
    out.shared = !e.any;
    for (const Totals& t : liquids) out.total_mol_kg.push_back(t.system_mol_kg[index]);
    for (std::size_t j = 0; j < pk.size(); ++j) {
        if (out.shared) out.log_k.push_back(-pk[j]);
        else
            for (const Totals& t : liquids)
                out.log_k.push_back(-pk[j] + (e.sodium[j] - e.sodium[j + 1]) * t.sodium_mol_kg + (e.potassium[j] - e.potassium[j + 1]) * t.potassium_mol_kg +
                                    (e.chloride[j] - e.chloride[j + 1]) * t.chloride_mol_kg);
    }
    return out;
}

}  // namespace

Batch batch_of(const std::vector<Totals>& liquids, const Conditions& conditions) {
    Batch out;
    const double a = debye_huckel_a(conditions.water), log_kw = -pkw_at(conditions.water);
    const double h_cl = specific_interaction("hydrogen", 1, "chloride");
    const double oh_na = specific_interaction("hydroxide", -1, "sodium"), oh_k = specific_interaction("hydroxide", -1, "potassium");
    for (const Totals& t : liquids) {
        const double divalent = t.calcium_mol_kg + t.magnesium_mol_kg;
        out.strong_mol_kg.push_back(t.strong_charge_mol_kg() + 2 * divalent);
        out.inert_mol_kg.push_back(t.sodium_mol_kg + t.potassium_mol_kg + t.chloride_mol_kg + t.other_anion_mol_kg + t.other_cation_mol_kg + 4 * divalent);
        out.debye_a_1.push_back(a);
        out.log_kw_1.push_back(log_kw);
        out.log_gamma_h_1.push_back(h_cl * t.chloride_mol_kg);
        out.log_gamma_oh_1.push_back(oh_na * t.sodium_mol_kg + oh_k * t.potassium_mol_kg);
    }
    for (std::size_t s = 0; s < acid_systems().size(); ++s)
        if (std::any_of(liquids.begin(), liquids.end(), [&](const Totals& t) { return t.system_mol_kg[s] > 0; })) out.systems.push_back(system_of(s, liquids, conditions.water));
    return out;
}

Result<BatchAnswer> equilibria(const std::vector<Totals>& liquids, const Conditions& conditions, std::size_t* fallbacks) {
    const double c = conditions.water.celsius();
    if (!(c >= -1e-9 && c <= 60 + 1e-9))
        return Error{ErrorCode::OutOfRange, "The constants hold from 0 to 60 °C. Give a temperature between them.", "liquid_c"};
    HW_TRY(answer, solve_batch(batch_of(liquids, conditions)));
    Conditions core;
    core.water = conditions.water;
    core.complexes = false;
    if (fallbacks != nullptr) *fallbacks = 0;
    for (std::size_t l = 0; l < liquids.size(); ++l) {
        if (answer.settled[l] != 0) continue;
        if (fallbacks != nullptr) ++*fallbacks;
        HW_TRY(e, equilibrium(liquids[l], core));
        answer.ph[l] = e.ph;
        answer.ionic_strength_mol_kg[l] = e.ionic_strength_mol_kg;
        answer.buffer_mol_kg_ph[l] = e.buffer_mol_kg_ph;
        answer.settled[l] = 1;
    }
    return answer;
}

}  // namespace hw::chem
