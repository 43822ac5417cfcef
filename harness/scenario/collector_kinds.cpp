// SPDX-License-Identifier: MIT
#include "collector_kinds.hpp"

namespace noonbench::harness {

namespace {

/// Selective flat plate: the plant's own default, eta0 0.78, a1 3.6, a2 0.014. The loss pair is
/// that of a cold-climate study (Energies 2012, 5, 4110), eta0 2 % lower for an ordinary product
/// (typical, no source).
plant::Collector flat_plate() {
    return {};
}

/// Older or plainer flat plate without a selective absorber: eta0 0.75, a1 6 (default values of
/// the UK government's annual method for a flat plate whose data are unknown; from memory).
plant::Collector flat_plate_basic() {
    plant::Collector c;
    c.eta0 = 0.75;
    c.a1_w_m2k = 6.0;
    c.a2_w_m2k2 = 0.0;
    c.incidence.b0 = 0.18;  // K(50 deg) = 0.9, reference flat plate of IEA SHC Task 26; from memory
    c.incidence.diffuse = 0.85;  // 1 / (1 + b0)
    return c;
}

/// Evacuated tubes with heat pipe and flat absorber fins, gaps between the tubes counted as area:
/// eta0 0.60 (default of the UK government's annual method for evacuated tubes; from memory), a1
/// 1.2 and a2 0.006 (illustrative, common practice, no source), capacity within 8..20 kJ/(m2 K)
/// (from memory). Modifiers across the tubes rise while the gaps close for the slanting sun (shape
/// typical, no source); along the tubes those of one glass.
plant::Collector evacuated_tube() {
    plant::Collector c;
    c.area_m2 = 2.5;
    c.eta0 = 0.60;
    c.a1_w_m2k = 1.2;
    c.a2_w_m2k2 = 0.006;
    c.a4 = 0.02;  // the vacuum keeps absorber and sky apart; assumed
    c.a5_j_m2k = 10000.0;
    c.content_m3 = 1.0e-3;
    c.incidence.b0 = 0.0;
    c.incidence.longitudinal = {1.0, 1.00, 0.99, 0.98, 0.97, 0.94, 0.90, 0.81, 0.52, 0.0};
    c.incidence.transversal = {1.0, 1.01, 1.04, 1.09, 1.17, 1.26, 1.30, 1.15, 0.75, 0.0};
    c.incidence.diffuse = 1.0;
    return c;
}

}  // namespace

plant::Collector typical_collector(CollectorKind kind) {
    switch (kind) {
        case CollectorKind::flat_plate:
            return flat_plate();
        case CollectorKind::flat_plate_basic:
            return flat_plate_basic();
        case CollectorKind::evacuated_tube:
            return evacuated_tube();
    }
    return flat_plate();
}

}  // namespace noonbench::harness
