// SPDX-License-Identifier: MIT
// The only code that sees yaml-cpp. It is driven by events, not by its node tree, because events
// show anchors before they are expanded and depth before the stack is used.
#include "yaml_tree.hpp"

#include "quantity_text.hpp"
#include "raw_text.hpp"

#include <fmt/format.h>
#include <yaml-cpp/emitter.h>
#include <yaml-cpp/emittermanip.h>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/mark.h>
#include <yaml-cpp/parser.h>

#include <optional>
#include <sstream>
#include <utility>

namespace noonbench::harness {

namespace {

[[noreturn]] void refuse(const Place& place, std::string what, std::string allowed) {
    throw InputRefused(
        {{place.file, place.line, place.column, std::move(what), std::move(allowed)}});
}

class TreeBuilder final : public YAML::EventHandler {
  public:
    explicit TreeBuilder(std::string file) : file_(std::move(file)) {}

    [[nodiscard]] Node take_root() { return std::move(root_); }
    [[nodiscard]] std::vector<Problem> take_problems() { return std::move(problems_); }

    void OnDocumentStart(const YAML::Mark& mark) override {
        if (seen_document_) refuse(place_of(mark), "a second document begins", "one document");
        seen_document_ = true;
    }
    void OnDocumentEnd() override {}
    void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
        refuse_extras(mark, "", anchor);
        add(Node{Node::Kind::nothing, {}, {}, {}, place_of(mark)});
    }
    void OnAlias(const YAML::Mark& mark, YAML::anchor_t /*anchor*/) override {
        refuse_extras(mark, "", 1);
    }
    void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  const std::string& value) override {
        refuse_extras(mark, tag, anchor);
        add(Node{Node::Kind::scalar, value, {}, {}, place_of(mark)});
    }
    void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                         YAML::EmitterStyle::value /*style*/) override {
        refuse_extras(mark, tag, anchor);
        open(Node::Kind::list, mark);
    }
    void OnSequenceEnd() override { close(); }
    void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                    YAML::EmitterStyle::value /*style*/) override {
        refuse_extras(mark, tag, anchor);
        open(Node::Kind::map, mark);
    }
    void OnMapEnd() override { close(); }

  private:
    struct Open {
        Node node;
        std::optional<Entry> waiting;  // a key whose value has not come yet
    };

    [[nodiscard]] Place place_of(const YAML::Mark& mark) const {
        return {file_, mark.line + 1, mark.column + 1};
    }

    void refuse_extras(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor) {
        if (anchor != 0)
            refuse(place_of(mark), "anchors and aliases (& and *) are not taken here",
                   "values written out, or based_on: FILE");
        if (!tag.empty() && tag != "?" && tag != "!")
            refuse(place_of(mark), "tags (" + in_quotes(tag) + ") are not taken here",
                   "plain values with their unit");
    }

    void open(Node::Kind kind, const YAML::Mark& mark) {
        if (open_.size() >= most_depth)
            refuse(place_of(mark), fmt::format("nested more than {} levels deep", most_depth),
                   "a flatter file");
        open_.push_back({Node{kind, {}, {}, {}, place_of(mark)}, std::nullopt});
    }

    void close() {
        Node done = std::move(open_.back().node);
        open_.pop_back();
        add(std::move(done));
    }

    void add(Node node) {
        if (open_.empty()) {
            root_ = std::move(node);
            return;
        }
        Open& parent = open_.back();
        if (parent.node.kind == Node::Kind::list)
            parent.node.items.push_back(std::move(node));
        else if (parent.waiting)
            add_value(parent, std::move(node));
        else
            add_key(parent, node);
    }

    void add_key(Open& parent, const Node& node) {
        if (node.kind != Node::Kind::scalar)
            refuse(node.place, fmt::format("{} cannot be a key", kind_text(node.kind)), "a word");
        parent.waiting = Entry{node.text, node.place, {}};
    }

    void add_value(Open& parent, Node node) {
        Entry entry = std::move(*parent.waiting);
        parent.waiting.reset();
        // An absent value is placed by the reader of the stream after its key; show the key.
        if (node.kind == Node::Kind::nothing) node.place = entry.place;
        if (const Node* first = find(parent.node, entry.key)) {
            problems_.push_back({file_, entry.place.line, entry.place.column,
                                 fmt::format("the key {} stands here a second time (first in line "
                                             "{})",
                                             in_quotes(entry.key), first->place.line),
                                 "each key once"});
            return;
        }
        entry.value = std::move(node);
        parent.node.entries.push_back(std::move(entry));
    }

    std::string file_;
    bool seen_document_ = false;
    Node root_;
    std::vector<Open> open_;
    std::vector<Problem> problems_;
};

/// The commonest reason for text that is not YAML, which yaml-cpp does not name.
void refuse_tabs(std::string_view text, const std::string& name) {
    int line = 1;
    for (std::size_t begin = 0; begin < text.size(); ++line) {
        const std::size_t first = text.find_first_not_of(' ', begin);
        if (first != std::string_view::npos && text[first] == '\t')
            refuse({name, line, static_cast<int>(first - begin) + 1}, "a tab indents this line",
                   "blanks");
        const std::size_t end = text.find('\n', begin);
        if (end == std::string_view::npos) return;
        begin = end + 1;
    }
}

/// A paragraph, as `about: >` leaves it: lines of text, the last one ended, that a block of literal
/// text keeps as they are.
bool is_paragraph(std::string_view text) {
    return text.size() > 1 && text.ends_with('\n') && text[text.size() - 2] != '\n' &&
           text.front() != ' ' && text.front() != '\n' && text.find('\r') == std::string_view::npos;
}

/// Words that are values of another kind, or none at all, to some reader of YAML.
bool is_said_plainly(std::string_view text) {
    return text.find_first_of(":\r\n\t") == std::string_view::npos;  // 06:30 counts in sixties
}

void emit(YAML::Emitter& out, const Node& node);

void emit_scalar(YAML::Emitter& out, const std::string& text) {
    if (is_paragraph(text))
        out << YAML::Literal << text;
    else if (is_said_plainly(text))
        out << text;  // the emitter quotes what would not read back
    else
        out << YAML::DoubleQuoted << text;
}

/// A map of single values of one line each, short enough for one line together.
bool fits_in_a_line(const Node& map) {
    constexpr std::size_t most_columns = 90;
    std::size_t columns = 6;
    for (const Entry& entry : map.entries) {
        if (entry.value.kind != Node::Kind::scalar) return false;
        if (entry.value.text.find('\n') != std::string::npos) return false;
        columns += entry.key.size() + entry.value.text.size() + 4;
    }
    return columns <= most_columns;
}

void emit_list(YAML::Emitter& out, const Node& list) {
    if (list.items.empty()) out << YAML::Flow;
    out << YAML::BeginSeq;
    for (const Node& item : list.items) {
        if (item.kind == Node::Kind::map && fits_in_a_line(item)) out << YAML::Flow;
        emit(out, item);
    }
    out << YAML::EndSeq;
}

void emit(YAML::Emitter& out, const Node& node) {
    switch (node.kind) {
        case Node::Kind::nothing:
            out << YAML::Null;
            return;
        case Node::Kind::scalar:
            emit_scalar(out, node.text);
            return;
        case Node::Kind::list:
            emit_list(out, node);
            return;
        case Node::Kind::map:
            if (node.entries.empty()) out << YAML::Flow;
            out << YAML::BeginMap;
            for (const Entry& entry : node.entries) {
                out << YAML::Key;
                emit_scalar(out, entry.key);
                out << YAML::Value;
                emit(out, entry.value);
            }
            out << YAML::EndMap;
            return;
    }
}

}  // namespace

std::string yaml_text(const Node& root) {
    YAML::Emitter out;
    emit(out, root);
    return std::string(out.c_str(), out.size()) + "\n";
}

std::string_view kind_text(Node::Kind kind) {
    switch (kind) {
        case Node::Kind::nothing:
            return "nothing";
        case Node::Kind::scalar:
            return "a single value";
        case Node::Kind::list:
            return "a list";
        case Node::Kind::map:
            return "a map (keys with values)";
    }
    return "";
}

const Node* find(const Node& map, std::string_view key) {
    for (const Entry& entry : map.entries)
        if (entry.key == key) return &entry.value;
    return nullptr;
}

Node* find(Node& map, std::string_view key) {
    return const_cast<Node*>(find(std::as_const(map), key));
}

Node parse_yaml(std::string_view text, const std::string& name) {
    refuse_unreadable(text, name);
    std::istringstream stream{std::string(text)};
    TreeBuilder builder(name);
    try {
        YAML::Parser parser(stream);
        while (parser.HandleNextDocument(builder)) {
        }
    } catch (const YAML::Exception& error) {
        refuse_tabs(text, name);
        refuse({name, error.mark.line + 1, error.mark.column + 1}, "not YAML: " + error.msg,
               "keys and values as `key: value`, indented with blanks");
    }
    std::vector<Problem> problems = builder.take_problems();
    if (!problems.empty()) throw InputRefused(std::move(problems));
    return builder.take_root();
}

Node parse_yaml_file(const std::filesystem::path& file) {
    return parse_yaml(file_text(file), file.string());
}

}  // namespace noonbench::harness
