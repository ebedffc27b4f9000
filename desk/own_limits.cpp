#include "desk/own_limits.hpp"

#include "core/chem/composition.hpp"
#include "desk/moment.hpp"
#include "desk/validate.hpp"

namespace hw::desk {

Result<std::vector<OwnLimit>> keep_own_limit(const OwnLimit& limit, Ports& ports) {
    if (const auto bad = out_of_range(limit)) return *bad;
    const bool back = !limit.limit_ppm && !limit.limit_mg_m3;
    if (!back || limit.id.empty()) {
        const auto cas = chem::parse_cas(limit.cas);
        if (!cas.ok()) return Error{ErrorCode::InvalidInput, cas.error().message, "cas"};
        if (back) return Error{ErrorCode::InvalidInput, "Give the limit in ppm or in mg/m³, as its source prints it.", "limit_ppm"};
        if (limit.limit_ppm && limit.limit_mg_m3) return Error{ErrorCode::InvalidInput, "Give one of the two; the other is worked out.", "limit_mg_m3"};
        if (limit.span != "shift" && limit.span != "short" && limit.span != "ceiling") return Error{ErrorCode::InvalidInput, "Say shift, short or ceiling.", "span"};
        if (limit.jurisdiction.empty()) return Error{ErrorCode::InvalidInput, "Say where it holds: the country or authority.", "jurisdiction"};
        if (limit.source.empty()) return Error{ErrorCode::InvalidInput, "Say who says so: the list and its year.", "source"};
        if (!parse_moment(limit.dated)) return Error{ErrorCode::InvalidInput, "Give the date of the source, like 2026-01-31.", "dated"};
    }
    HW_TRY(id, ports.store.keep_own_limit(limit));
    static_cast<void>(id);
    return ports.store.own_limits();
}

}  // namespace hw::desk
