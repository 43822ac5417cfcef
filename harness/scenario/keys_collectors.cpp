// SPDX-License-Identifier: MIT
// Rows of collectors and their data sheets.
#include "collector_kinds.hpp"
#include "key_making.hpp"

namespace noonbench::harness {

namespace {

plant::Collector& sheet(Draft& d) {
    return d.row.collector;
}

void add_row_items(std::vector<Key>& items) {
    items.push_back(taken(word_key("kind", {"flat_plate", "flat_plate_basic", "evacuated_tube"},
                                   "typical data sheet; single figures below replace its own",
                                   [](Draft& d) { return byte_of(d.collector_kind); }),
                          [](Draft& d) -> std::vector<Objection> {
                              sheet(d) = typical_collector(d.collector_kind);
                              return {};
                          }));
    items.push_back(number_key("number", {"", 1, 10}, "collectors one after the other in this row",
                               [](Draft& d) { return &d.row.collectors_in_series; }));
    items.push_back(number_key("slope", {"deg", 0, 90}, "if the row lies on another plane",
                               [](Draft& d) { return &d.row.slope_rad; }));
    items.push_back(number_key("azimuth", {"deg", 0, 360}, "if the row lies on another plane",
                               [](Draft& d) { return &d.row.azimuth_rad; }));
    items.push_back(word_key("sensor_place", {"hot_end", "cold_end"},
                             "end of the row at which the collector sensor sits",
                             [](Draft& d) { return byte_of(d.row.sensor_place); }));
}

void add_sheet_items(std::vector<Key>& items) {
    items.push_back(number_key("area", {"m2", 0.2, 20}, "gross area of one collector",
                               [](Draft& d) { return &sheet(d).area_m2; }));
    items.push_back(number_key("peak_efficiency", {"", 0.2, 1},
                               "eta 0 for the beam, ISO 9806, per gross area",
                               [](Draft& d) { return &sheet(d).eta0; }));
    items.push_back(number_key("heat_loss", {"W/(m2 K)", 0.2, 30}, "a1 of ISO 9806",
                               [](Draft& d) { return &sheet(d).a1_w_m2k; }));
    items.push_back(number_key("heat_loss_rise", {"W/(m2 K2)", 0, 0.1}, "a2 of ISO 9806",
                               [](Draft& d) { return &sheet(d).a2_w_m2k2; }));
    items.push_back(number_key("wind_loss", {"J/(m3 K)", 0, 5}, "a3 of ISO 9806",
                               [](Draft& d) { return &sheet(d).a3_j_m3k; }));
    items.push_back(number_key("sky_radiation", {"", 0, 1}, "a4 of ISO 9806",
                               [](Draft& d) { return &sheet(d).a4; }));
    items.push_back(number_key("heat_capacity", {"kJ/(m2 K)", 1, 100},
                               "a5 of ISO 9806, fluid included",
                               [](Draft& d) { return &sheet(d).a5_j_m2k; }));
    items.push_back(number_key("content", {"l", 0.1, 20}, "fluid in one collector",
                               [](Draft& d) { return &sheet(d).content_m3; }));
}

void add_incidence_items(std::vector<Key>& items) {
    items.push_back(number_key("incidence_b0", {"", 0, 0.5},
                               "beam modifier 1 - b0 (1/cos - 1); with 0 the two tables count",
                               [](Draft& d) { return &sheet(d).incidence.b0; }));
    Key along = key_of(Form::numbers, "incidence_along",
                       "beam modifiers at 0, 10 .. 90 deg along the tubes, instead of b0",
                       [](Draft& d) { return &sheet(d).incidence.longitudinal; });
    Key across = key_of(Form::numbers, "incidence_across",
                        "beam modifiers at 0, 10 .. 90 deg across the tubes, instead of b0",
                        [](Draft& d) { return &sheet(d).incidence.transversal; });
    for (Key* key : {&along, &across}) {
        key->most = 2.0;
        key->take = [](Draft& d) -> std::vector<Objection> {
            sheet(d).incidence.b0 = 0.0;  // else the tables would be read and never used
            return {};
        };
        items.push_back(*key);
    }
    items.push_back(number_key("incidence_diffuse", {"", 0, 1.5}, "modifier of diffuse light",
                               [](Draft& d) { return &sheet(d).incidence.diffuse; }));
}

/// Tables that nobody filled would shut the sun out.
std::vector<Objection> take_row(Draft& d) {
    const plant::IncidenceModifier& incidence = sheet(d).incidence;
    if (incidence.b0 == 0.0 &&
        (incidence.longitudinal[0] == 0.0 || incidence.transversal[0] == 0.0))
        return {{"incidence_b0 is 0 but a table of modifiers begins with 0",
                 "incidence_along and incidence_across, ten numbers each",
                 {}}};
    d.scenario.plant.rows.push_back(d.row);
    return {};
}

}  // namespace

void add_collector_keys(std::vector<Key>& keys) {
    std::vector<Key> items;
    add_row_items(items);
    add_sheet_items(items);
    add_incidence_items(items);
    Key key =
        list_key("collectors", {"", 1, plant::most_rows},
                 "a row of collectors, or a list of rows that run in parallel", std::move(items));
    key.open = [](Draft& d) { d.scenario.plant.rows.clear(); };
    key.begin = [](Draft& d) {
        d.row = d.roof;
        d.collector_kind = CollectorKind::flat_plate;
    };
    key.take = take_row;
    keys.push_back(std::move(key));
}

}  // namespace noonbench::harness
