// SPDX-License-Identifier: MIT
// Where the house stands and how its roof lies.
#include "key_making.hpp"

namespace noonbench::harness {

namespace {

plant::Site& site(Draft& d) {
    return d.scenario.plant.site;
}

Key horizon_key() {
    std::vector<Key> items;
    items.push_back(number_key("azimuth", {"deg", 0, 360}, "clockwise from north",
                               [](Draft& d) { return &d.horizon.azimuth_rad; }));
    items.push_back(number_key("elevation", {"deg", 0, 90}, "of the skyline there",
                               [](Draft& d) { return &d.horizon.elevation_rad; }));
    Key key =
        list_key("site.horizon", {"", 0, 72},
                 "skyline from point to point, sorted by azimuth; empty: flat", std::move(items));
    key.open = [](Draft& d) { site(d).horizon.clear(); };
    key.begin = [](Draft& d) { d.horizon = {}; };
    key.take = [](Draft& d) -> std::vector<Objection> {
        auto& points = site(d).horizon;
        if (!points.empty() && points.back().azimuth_rad >= d.horizon.azimuth_rad)
            return {{"this point does not lie clockwise of the one before",
                     "points sorted by azimuth",
                     {}}};
        points.push_back(d.horizon);
        return {};
    };
    return key;
}

}  // namespace

void add_site_keys(std::vector<Key>& keys) {
    keys.push_back(number_key("site.latitude", {"deg", -66, 66}, "north positive",
                              [](Draft& d) { return &site(d).latitude_rad; }));
    keys.push_back(number_key("site.longitude", {"deg", -180, 180}, "east positive",
                              [](Draft& d) { return &site(d).longitude_rad; }));
    keys.push_back(number_key("site.elevation", {"m", -400, 5000}, "above the sea",
                              [](Draft& d) { return &site(d).elevation_m; }));
    keys.push_back(number_key("site.utc_offset", {"h", -12, 14},
                              "local standard time minus universal time",
                              [](Draft& d) { return &site(d).utc_offset_s; }));
    keys.push_back(number_key("site.ground_albedo", {"%", 0, 100},
                              "share of the sun that the ground throws back; grass 20 %, snow 70 %",
                              [](Draft& d) { return &site(d).ground_albedo; }));
    keys.push_back(horizon_key());
    // The plane of the roof is where each row begins; a row may lie on another one.
    keys.push_back(number_key("roof.slope", {"deg", 0, 90}, "0 deg is flat, 90 deg a wall",
                              [](Draft& d) { return &d.roof.slope_rad; }));
    keys.push_back(number_key("roof.azimuth", {"deg", 0, 360},
                              "where the roof looks, clockwise from north; south is 180 deg",
                              [](Draft& d) { return &d.roof.azimuth_rad; }));
    for (Key* key : {&keys[keys.size() - 2], &keys.back()})
        key->take = [](Draft& d) -> std::vector<Objection> {
            d.scenario.plant.rows.assign(1, d.roof);
            return {};
        };
}

}  // namespace noonbench::harness
