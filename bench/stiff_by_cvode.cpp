#include "bench/stiff_by_cvode.hpp"

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_band.h>
#include <sunmatrix/sunmatrix_band.h>

#include <algorithm>

namespace hw::bench {

namespace {

int rates_for_cvode(realtype, N_Vector y, N_Vector f, void* data) {
    const auto& rates = *static_cast<const test::SectionRates*>(data);
    const auto n = static_cast<std::size_t>(NV_LENGTH_S(y));
    std::vector<double> in(NV_DATA_S(y), NV_DATA_S(y) + n), out(n);
    rates(in, out);
    std::copy(out.begin(), out.end(), NV_DATA_S(f));
    return 0;
}

}  // namespace

int integrate_by_cvode(const test::SectionRates& rates, std::vector<double>& y, double duration, std::size_t per_cell, double tolerance) {
    SUNContext context = nullptr;
    SUNContext_Create(nullptr, &context);
    const auto n = static_cast<sunindextype>(y.size());
    N_Vector state = N_VMake_Serial(n, y.data(), context);
    void* solver = CVodeCreate(CV_BDF, context);
    const auto band = static_cast<sunindextype>(2 * per_cell - 1);
    SUNMatrix matrix = SUNBandMatrix(n, band, band, context);
    SUNLinearSolver linear = SUNLinSol_Band(state, matrix, context);
    test::SectionRates held = rates;
    long steps = -1;
    double reached = 0;
    if (CVodeInit(solver, rates_for_cvode, 0, state) == CV_SUCCESS && CVodeSStolerances(solver, tolerance, tolerance) == CV_SUCCESS && CVodeSetUserData(solver, &held) == CV_SUCCESS &&
        CVodeSetLinearSolver(solver, linear, matrix) == CV_SUCCESS && CVodeSetMaxNumSteps(solver, 200000) == CV_SUCCESS && CVodeSetStopTime(solver, duration) == CV_SUCCESS &&
        CVode(solver, duration, state, &reached, CV_NORMAL) >= 0)
        CVodeGetNumSteps(solver, &steps);
    N_VDestroy(state);
    CVodeFree(&solver);
    SUNLinSolFree(linear);
    SUNMatDestroy(matrix);
    SUNContext_Free(&context);
    return static_cast<int>(steps);
}

}  // namespace hw::bench
