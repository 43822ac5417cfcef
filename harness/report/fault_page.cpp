// SPDX-License-Identifier: MIT
#include "fault_page.hpp"

#include "assets.hpp"
#include "fault_card.hpp"
#include "fault_picture.hpp"
#include "text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

namespace noonbench::harness {
namespace {

using Group = std::vector<std::size_t>;

std::size_t root_of(const std::vector<std::size_t>& parents, std::size_t i) {
    while (parents[i] != i) i = parents[i];
    return i;
}

/// For each entry the first one of those that are connected with it.
std::vector<std::size_t> firsts(std::span<const FaultEntry> faults) {
    std::vector<std::size_t> parents(faults.size());
    std::iota(parents.begin(), parents.end(), std::size_t{0});
    for (std::size_t i = 0; i < faults.size(); ++i) {
        for (const std::string& like : faults[i].looks_like) {
            const auto found = std::find_if(faults.begin(), faults.end(),
                                            [&](const FaultEntry& f) { return f.name == like; });
            if (found == faults.end()) continue;
            const auto other = static_cast<std::size_t>(found - faults.begin());
            const std::size_t a = root_of(parents, i);
            const std::size_t b = root_of(parents, other);
            parents[std::max(a, b)] = std::min(a, b);
        }
    }
    for (std::size_t& parent : parents) parent = root_of(parents, parent);
    return parents;
}

/// Connected entries together, alone or not.
std::vector<Group> all_groups(std::span<const FaultEntry> faults) {
    const std::vector<std::size_t> first = firsts(faults);
    std::vector<Group> groups;
    std::vector<std::size_t> group_of(faults.size());
    for (std::size_t i = 0; i < faults.size(); ++i) {
        if (first[i] == i) {
            group_of[i] = groups.size();
            groups.emplace_back();
        }
        groups[group_of[first[i]]].push_back(i);
    }
    return groups;
}

Group alone(std::span<const FaultEntry> faults) {
    Group rest;
    for (const Group& group : all_groups(faults))
        if (group.size() == 1) rest.push_back(group.front());
    return rest;
}

std::string group_name(std::size_t group) {
    return fmt::format("Look-alikes {}", group + 1);
}

std::string link_to(const FaultEntry& fault) {
    return joined({"<li><a href=\"#", fault_id(fault.name), "\">",
                   escaped(fault.title.empty() ? fault.name : fault.title), "</a>",
                   fault.as_claimed ? "" : " <b class=\"amiss\">✗ not as claimed</b>", "</li>"});
}

std::string links(std::span<const FaultEntry> faults, const Group& group) {
    std::string out = "<ul>";
    for (const std::size_t i : group) out += link_to(faults[i]);
    return out + "</ul>";
}

std::string contents(std::span<const FaultEntry> faults, const std::vector<Group>& alike,
                     const Group& rest) {
    std::string out;
    if (!alike.empty()) {
        out += "<h3>These cannot be told apart in the customer's log</h3><div class=\"alike\">";
        for (std::size_t g = 0; g < alike.size(); ++g)
            out += joined({"<div><p>", group_name(g), "</p>", links(faults, alike[g]), "</div>"});
        out += "</div>";
    }
    if (!rest.empty())
        out += joined({"<h3>", alike.empty() ? "Each" : "The others, each",
                       " with a picture of its own", "</h3>", links(faults, rest)});
    return out;
}

std::string cards(std::span<const FaultEntry> faults, const Group& group) {
    std::string out;
    for (const std::size_t i : group) out += faults[i].card;
    return out;
}

std::string part(const std::string& heading, const std::string& about, const std::string& body) {
    return joined({"<section class=\"part\"><h2>", heading, "</h2>", about, body, "</section>"});
}

std::string parts(std::span<const FaultEntry> faults, const std::vector<Group>& alike,
                  const Group& rest) {
    std::string out;
    for (std::size_t g = 0; g < alike.size(); ++g)
        out +=
            part(group_name(g),
                 "<p class=\"hint\">The customer's log cannot tell these apart; what is measured "
                 "on site does.</p>",
                 cards(faults, alike[g]));
    if (!rest.empty())
        out += part(alike.empty() ? "The faults" : "The others", "", cards(faults, rest));
    return out;
}

std::string state_of(std::span<const FaultEntry> faults) {
    const auto amiss = std::count_if(faults.begin(), faults.end(),
                                     [](const FaultEntry& f) { return !f.as_claimed; });
    const std::string count =
        fmt::format("{} {}", faults.size(), faults.size() == 1 ? "fault" : "faults");
    if (amiss == 0)
        return joined({"<p class=\"site\">", count,
                       "; every requirement holds with its fault and fails where it must.</p>"});
    return fmt::format("<p class=\"alarm\">✗ {}; {} {} not show what the file claims.</p>", count,
                       amiss, amiss == 1 ? "does" : "do");
}

}  // namespace

std::vector<std::vector<std::size_t>> look_alikes(std::span<const FaultEntry> faults) {
    std::vector<Group> groups = all_groups(faults);
    std::erase_if(groups, [](const Group& group) { return group.size() == 1; });
    return groups;
}

std::string fault_page_html(std::span<const FaultEntry> faults) {
    const std::vector<Group> alike = look_alikes(faults);
    const Group rest = alone(faults);
    return filled_page(faults_html, {{"style", std::string(page_css) + std::string(faults_css)},
                                     {"patterns", picture_patterns()},
                                     {"state", state_of(faults)},
                                     {"contents", contents(faults, alike, rest)},
                                     {"parts", parts(faults, alike, rest)}});
}

}  // namespace noonbench::harness
