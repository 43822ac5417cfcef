// SPDX-License-Identifier: MIT
#include "verdict_section.hpp"

#include "text.hpp"

#include "harness/bench/clock.hpp"

#include <cmath>

namespace noonbench::harness {
namespace {

/// A word and a sign: colour is never the only carrier.
const char* badge(Truth truth) {
    switch (truth) {
        case Truth::held:
            return "<span class=\"verdict held\">✓ held</span>";
        case Truth::not_held:
            return "<span class=\"verdict failed\">✗ not held</span>";
        case Truth::not_known:
            break;
    }
    return "<span class=\"verdict open\">? not yet known</span>";
}

/// A true minus sign, as everywhere on the page.
std::string shown(const MarginClass& margin_class, double margin) {
    const std::string text = margin_text(margin_class, margin);
    return text.starts_with('-') ? "−" + text.substr(1) : text;
}

std::string margins(const Outcome& outcome) {
    if (outcome.truth == Truth::held && !outcome.put_to_the_test) return "never put to the test";
    std::string text;
    for (const Margin& m : outcome.margins) {
        if (std::isinf(m.lo) && m.lo == m.hi) continue;  // nothing in this unit decides
        const std::string lo = shown(m.margin_class, m.lo);
        const std::string hi = shown(m.margin_class, m.hi);
        text += text.empty() ? "" : "; ";
        text += lo;
        if (hi != lo) text += joined({" to ", hi});
    }
    return text;
}

/// What a trainee should see of a requirement that did not hold.
std::string story(const Verdict& v) {
    if (v.outcome.truth != Truth::not_held) return {};
    std::string chain;
    for (const std::string& link : v.chain) chain += joined({"<li>", escaped(link), "</li>"});
    return joined({"<p>Tightest at <strong class=\"loc\">", date_time_text(v.tightest_at_s),
                   "</strong>. Look at: ", escaped(v.look_at), "</p><ol class=\"chain loc\">",
                   chain, "</ol>"});
}

std::string table(std::span<const Verdict> verdicts) {
    std::string rows;
    for (const Verdict& v : verdicts) {
        rows += joined({"<tr><th scope=\"row\">", escaped(v.name), "<br><span class=\"that\">",
                        escaped(v.text), "</span>", story(v), "</th><td>", badge(v.outcome.truth),
                        "</td><td class=\"loc\">", escaped(margins(v.outcome)), "</td></tr>"});
    }
    return joined(
        {"<div class=\"wide screen-only\"><table class=\"verdicts\"><thead><tr><th "
         "scope=\"col\">Requirement</th><th scope=\"col\">Verdict</th><th "
         "scope=\"col\">Margin</th></tr></thead><tbody>",
         rows, "</tbody></table></div>"});
}

/// Paper has less room: what held stands in one paragraph, what did not is told.
std::string on_paper(std::span<const Verdict> verdicts) {
    std::string held;
    std::string others;
    for (const Verdict& v : verdicts) {
        const std::string item =
            joined({badge(v.outcome.truth), " ", escaped(v.name), " (", margins(v.outcome), ")"});
        if (v.outcome.truth == Truth::held) {
            held += (held.empty() ? "" : " · ") + item;
        } else {
            others += joined({"<li>", item, story(v), "</li>"});
        }
    }
    return joined({"<div class=\"paper-only verdicts\" aria-hidden=\"true\"><p>", held, "</p><ul>",
                   others, "</ul></div>"});
}

}  // namespace

std::string verdicts_section(std::span<const Verdict> verdicts) {
    return verdicts.empty() ? std::string() : table(verdicts) + on_paper(verdicts);
}

}  // namespace noonbench::harness
