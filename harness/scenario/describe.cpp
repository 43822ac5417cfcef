// SPDX-License-Identifier: MIT
#include "describe.hpp"

#include "key.hpp"
#include "setting_text.hpp"
#include "value.hpp"

#include <fmt/format.h>

namespace noonbench::harness {

namespace {

void describe_keys(std::string& out, const std::vector<Key>& keys, const std::string& label,
                   Draft& draft) {
    for (const Key& key : keys) {
        const std::string path = label + key.path;
        const std::string value = written_value(key, draft);
        out += fmt::format("{}\n    {}\n    allowed: {}\n", path, key.meaning, allowed_for(key));
        if (!value.empty()) out += fmt::format("    default: {}\n", value);
        if (key.required) out += "    must be given\n";
        if (key.form != Form::list) continue;
        if (key.begin) key.begin(draft);
        describe_keys(out, key.items, path + "[].", draft);
    }
}

}  // namespace

std::string settings_text() {
    std::string out;
    for (const firmware::SettingInfo& info : firmware::setting_table())
        out += fmt::format("{}\n    {}\n    allowed: {}\n    default: {}\n    ground:  {}\n",
                           info.name, info.meaning, allowed_text(info),
                           written_setting(info, info.initial), info.ground);
    return out;
}

std::string keys_text() {
    Draft draft;
    std::string out;
    describe_keys(out, all_keys(), "", draft);
    return out;
}

}  // namespace noonbench::harness
