// SPDX-License-Identifier: MIT
#include "vessel_size.hpp"

#include <algorithm>
#include <array>

namespace noonbench::plant {
namespace {

constexpr double bar_pa = 1.0e5;  // the rule counts the atmosphere as one bar
constexpr std::array sold_m3{0.012, 0.018, 0.025, 0.035, 0.050, 0.080,
                             0.100, 0.140, 0.200, 0.300, 0.500};

}  // namespace

double rule_reserve_m3(double system_m3) {
    return std::max(0.005 * system_m3, 0.003);
}

double rule_final_pa(double relief_pa) {
    return 0.9 * relief_pa;
}

double acceptance_share(double precharge_pa, double final_pa) {
    return std::max((final_pa - precharge_pa) / (final_pa + bar_pa), 0.1);
}

double needed_vessel_m3(const VesselDuty& duty) {
    const double taken_up_m3 =
        rule_expansion * duty.system_m3 + rule_reserve_m3(duty.system_m3) + duty.collector_m3;
    return taken_up_m3 / acceptance_share(duty.precharge_pa, rule_final_pa(duty.relief_pa));
}

double next_vessel_m3(double needed_m3) {
    const auto* const size = std::lower_bound(sold_m3.begin(), sold_m3.end(), needed_m3);
    return size == sold_m3.end() ? needed_m3 : *size;
}

double rule_precharge_pa(double fill_pa) {
    return std::max(fill_pa - rule_fill_above_precharge_pa, 0.0);
}

}  // namespace noonbench::plant
