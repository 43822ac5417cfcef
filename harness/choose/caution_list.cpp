// SPDX-License-Identifier: MIT
#include "caution_list.hpp"

#include "harness/report/text.hpp"

namespace noonbench::harness {

std::string caution_list(const Chosen& chosen) {
    std::string out;
    for (const Caution& caution : chosen.cautions) {
        out +=
            joined({"<li><b>", escaped(caution.about), ":</b> ", escaped(caution.text), "</li>"});
    }
    return joined({"<ul>", out, "</ul>"});
}

}  // namespace noonbench::harness
