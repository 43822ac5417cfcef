// SPDX-License-Identifier: MIT
// SUNDIALS CVODE: BDF with a dense Jacobian by differences and root finding on the rule's two
// thresholds, stopped at each knot of the weather, started anew where the pump changes.
#pragma once
#include "peers.hpp"

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#include <cmath>
#include <stdexcept>

namespace noonbench::benchmarks {

class CvodePeer {
  public:
    CvodePeer(double tolerance, CivilSeconds knot_s)
        : plant_(demo_plant()), flat_(plant_), knot_s_(knot_s) {
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

    Solved solve(CivilSeconds days, std::string name) {
        Solved solved{std::move(name), cpu_seconds(), 0.0, 0, 0};
        double t = 0.0;
        const auto end = static_cast<double>(days * seconds_a_day);
        drive(0);
        while (t < end) {
            double stop = std::min(end, static_cast<double>(span_.to.at_s));
            const double barred = static_cast<double>(rule_.since_s + rule_.least_run_s);
            if (rule_.on && t < barred) stop = std::min(stop, barred);
            check(CVodeSetStopTime(cvode_, stop));
            check(CVode(cvode_, stop, state_, &t, CV_NORMAL));
            // The rule acts on whole seconds: on to the next one, then decide.
            const auto now = static_cast<CivilSeconds>(std::ceil(t - 1e-9));
            go_on_to(now, t);
            const bool changed = rule_.decide(flat_.sensors(N_VGetArrayPointer(state_)), now);
            if (changed) {
                solved.starts += rule_.on ? 1 : 0;
            }
            drive(now);
            if (changed) check(CVodeReInit(cvode_, t, state_));
        }
        solved.cpu_s = cpu_seconds() - solved.cpu_s;
        solved.heat_kwh = N_VGetArrayPointer(state_)[flat_.size() - 1] / 3.6e6;
        solved.evaluations = flat_.evaluations;
        return solved;
    }

  private:
    // Behind a root the solver itself is ahead: what it passed is interpolated.
    void go_on_to(CivilSeconds now, double& t) {
        const auto wanted = static_cast<double>(now);
        double inside = 0.0;
        check(CVodeGetCurrentTime(cvode_, &inside));
        if (inside < wanted) {
            check(CVodeSetStopTime(cvode_, wanted));
            while (t < wanted) check(CVode(cvode_, wanted, state_, &t, CV_NORMAL));
        } else if (t < wanted) {
            check(CVodeGetDky(cvode_, wanted, 0, state_));
        }
        t = wanted;
    }
    static void check(int flag) {
        if (flag < 0) throw std::runtime_error("CVODE gave up with " + std::to_string(flag));
    }
    static int rate(double t, N_Vector y, N_Vector ydot, void* self) {
        static_cast<CvodePeer*>(self)->flat_.rate(t, N_VGetArrayPointer(y),
                                                  N_VGetArrayPointer(ydot));
        return 0;
    }
    static int root(double, N_Vector y, double* value, void* self) {
        const auto& peer = *static_cast<CvodePeer*>(self);
        const Readings shown = peer.flat_.sensors(N_VGetArrayPointer(y));
        const double threshold = peer.rule_.on ? peer.rule_.stop_k : peer.rule_.start_k;
        *value = shown.collector_sensor_c - shown.store_bottom_sensor_c - threshold;
        return 0;
    }
    void drive(CivilSeconds now) {
        span_ = noonbench::plant::testing::april_span(now, knot_s_);
        flat_.drive(span_, now, rule_.on);
    }

    Plant plant_;
    FlatPlant flat_;
    CivilSeconds knot_s_;
    noonbench::plant::testing::DifferenceRule rule_;
    WeatherSpan span_{};
    SUNContext context_ = nullptr;
    N_Vector state_ = nullptr;
    SUNMatrix matrix_ = nullptr;
    SUNLinearSolver solver_ = nullptr;
    void* cvode_ = nullptr;
};

}  // namespace noonbench::benchmarks
