// SPDX-License-Identifier: MIT
#include "cvode_peer.hpp"

#include "odeint_peer.hpp"

#ifdef NOONBENCH_HAS_CVODE
#include "flat_plant.hpp"

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#include <cmath>
#include <stdexcept>
#include <utility>
#include <vector>

namespace noonbench::benchmarks {
namespace {

void check(int flag) {
    if (flag < 0) throw std::runtime_error("CVODE gave up with " + std::to_string(flag));
}

class CvodePeer {
  public:
    CvodePeer(const Case& what, double tolerance)
        : end_s_(what.world.end_s()),
          flat_(what.parameters),
          world_(what.world),
          rule_{.regulated = what.regulated} {
        SUNContext_Create(nullptr, &context_);
        const auto n = static_cast<sunindextype>(flat_.size());
        state_ = N_VNew_Serial(n, context_);
        N_Vector absolute = N_VNew_Serial(n, context_);
        const std::vector<double> start = flat_.start();
        const std::vector<double> kelvin = flat_.kelvin();
        std::copy(start.begin(), start.end(), N_VGetArrayPointer(state_));
        for (std::size_t i = 0; i < kelvin.size(); ++i) {
            N_VGetArrayPointer(absolute)[i] = kelvin[i] * tolerance * 10.0;
        }
        cvode_ = CVodeCreate(CV_BDF, context_);
        check(CVodeInit(cvode_, rate, 0.0, state_));
        check(CVodeSVtolerances(cvode_, tolerance, absolute));
        check(CVodeSetUserData(cvode_, this));
        matrix_ = SUNDenseMatrix(n, n, context_);
        solver_ = SUNLinSol_Dense(state_, matrix_, context_);
        check(CVodeSetLinearSolver(cvode_, solver_, matrix_));
        check(CVodeRootInit(cvode_, 1, root));
        check(CVodeSetMaxNumSteps(cvode_, 100000));
        N_VDestroy(absolute);
    }
    CvodePeer(const CvodePeer&) = delete;
    CvodePeer& operator=(const CvodePeer&) = delete;
    ~CvodePeer() {
        SUNLinSolFree(solver_);
        SUNMatDestroy(matrix_);
        CVodeFree(&cvode_);
        N_VDestroy(state_);
        SUNContext_Free(&context_);
    }

    Solved solve(std::string name) {
        Solved solved{.name = std::move(name), .cpu_s = cpu_seconds()};
        if (rule_.decide(sensors(), 0)) solved.note(rule_, 0);
        Stretch stretch = world_.at(0);
        for (CivilSeconds now = 0; now < end_s_;) {
            flat_.drive(stretch, now, rule_.order);
            check(CVodeSetStopTime(cvode_, static_cast<double>(stretch.until_s)));
            const CivilSeconds look = std::min(stretch.until_s, rule_.next_look_s(now));
            check(CVode(cvode_, static_cast<double>(look), state_, &t_, CV_NORMAL));
            // The rule acts on whole seconds: on to the next one, then decide.
            now = static_cast<CivilSeconds>(std::ceil(t_ - 1e-9));
            go_on_to(now);
            const bool changed = rule_.decide(sensors(), now);
            if (changed) solved.note(rule_, now);
            const double flow_kg_s = std::exchange(stretch, world_.at(now)).tap_flow_kg_s;
            if (changed || flow_kg_s != stretch.tap_flow_kg_s) {
                check(CVodeReInit(cvode_, t_, state_));
            }
        }
        solved.cpu_s = cpu_seconds() - solved.cpu_s;
        solved.heat_kwh = N_VGetArrayPointer(state_)[flat_.size() - 1] / 3.6e6;
        solved.evaluations = flat_.evaluations;
        return solved;
    }

  private:
    [[nodiscard]] Readings sensors() const { return flat_.sensors(N_VGetArrayPointer(state_)); }

    // Behind a root the solver itself is ahead: what it passed is interpolated.
    void go_on_to(CivilSeconds now) {
        const auto wanted = static_cast<double>(now);
        double inside = 0.0;
        check(CVodeGetCurrentTime(cvode_, &inside));
        if (inside < wanted) {
            check(CVodeSetStopTime(cvode_, wanted));
            while (t_ < wanted) check(CVode(cvode_, wanted, state_, &t_, CV_NORMAL));
        } else if (t_ < wanted) {
            check(CVodeGetDky(cvode_, wanted, 0, state_));
        }
        t_ = wanted;
    }
    static int rate(double t, N_Vector y, N_Vector ydot, void* self) {
        static_cast<CvodePeer*>(self)->flat_.rate(t, N_VGetArrayPointer(y),
                                                  N_VGetArrayPointer(ydot));
        return 0;
    }
    static int root(double, N_Vector y, double* value, void* self) {
        const auto& peer = *static_cast<CvodePeer*>(self);
        *value = peer.rule_.crossing_k(peer.flat_.sensors(N_VGetArrayPointer(y)));
        return 0;
    }

    CivilSeconds end_s_;
    FlatPlant flat_;
    WorldReader world_;
    Rule rule_;
    double t_ = 0.0;
    SUNContext context_ = nullptr;
    N_Vector state_ = nullptr;
    SUNMatrix matrix_ = nullptr;
    SUNLinearSolver solver_ = nullptr;
    void* cvode_ = nullptr;
};

}  // namespace

Solved solve_with_cvode(const Case& what, double tolerance, std::string name) {
    return CvodePeer(what, tolerance).solve(std::move(name));
}

Solved solve_tightly(const Case& what) {
    return solve_with_cvode(what, 1e-9, "CVODE BDF 1e-9, roots");
}

}  // namespace noonbench::benchmarks
#else
namespace noonbench::benchmarks {

Solved solve_tightly(const Case& what) {
    return solve_with_odeint(what, 1e-8, "Odeint dopri5 1e-8 K, dense, polled");
}

}  // namespace noonbench::benchmarks
#endif
