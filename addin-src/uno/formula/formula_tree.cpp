#include "uno/formula/formula_tree.hpp"

#include "uno/text/utf8.hpp"

#include <algorithm>
#include <com/sun/star/sheet/ComplexReference.hpp>
#include <com/sun/star/sheet/ReferenceFlags.hpp>
#include <com/sun/star/sheet/SingleReference.hpp>

namespace jarbook::menu {

using namespace com::sun::star;
namespace Flags = sheet::ReferenceFlags;

namespace {

bool is_deleted(const sheet::SingleReference& reference) {
    return reference.Flags & (Flags::COLUMN_DELETED | Flags::ROW_DELETED | Flags::SHEET_DELETED);
}

Place place_of(const sheet::SingleReference& reference) {
    return {reference.Sheet, reference.Column, reference.Row};
}

class Parser {
public:
    Parser(const Tokens& tokens, const OpCodes& codes) : tokens_(tokens), codes_(codes) {}

    Node whole() {
        Node result = expression();
        // Something is left only if brackets do not match; what was read is kept.
        return result;
    }

private:
    const Token* peek() {
        while (at_ < tokens_.size() && codes_.is_space(tokens_[at_].OpCode))
            ++at_;
        return at_ < tokens_.size() ? &tokens_[at_] : nullptr;
    }
    bool next_is(sal_Int32 code) {
        const Token* token = peek();
        return token && token->OpCode == code;
    }

    // Up to a separator, a closing bracket or the end.
    Node expression() {
        const Level level(depth_);
        if (depth_ > deepest)
            return passed_over();
        return read_expression();
    }

    // Counts how deep brackets and calls are nested, here and in all that walks the tree later: the
    // stack has its limits. Calc itself computes nothing that is nested this deeply.
    struct Level {
        explicit Level(int& level) : depth(level) { ++depth; }
        ~Level() { --depth; }
        int& depth;
    };
    static constexpr int deepest = 200;

    // What is nested too deeply counts as a whole.
    Node passed_over() {
        Node node;
        node.first = at_;
        int open = 0;
        for (const Token* token = peek(); token; token = peek()) {
            if (open == 0 && (token->OpCode == codes_.separator || token->OpCode == codes_.close))
                break;
            open += token->OpCode == codes_.open ? 1 : token->OpCode == codes_.close ? -1 : 0;
            ++at_;
        }
        node.last = at_;
        return node;
    }

    Node read_expression() {
        Node result;
        result.kind = Node::Kind::operation;
        peek();
        result.first = at_;
        bool operators = false;
        for (const Token* token = peek(); token; token = peek()) {
            if (token->OpCode == codes_.separator || token->OpCode == codes_.close)
                break;
            if (codes_.is_operator(token->OpCode)) {
                operators = true;
                ++at_;
            } else {
                result.children.push_back(operand());
            }
        }
        result.last = at_;
        if (!operators && result.children.size() == 1) {
            Node only = std::move(result.children.front());
            return only;
        }
        if (!operators && result.children.empty())
            result.kind = Node::Kind::missing;
        return result;
    }

    Node operand() {
        Node node;
        node.first = at_;
        const Token& token = *peek();
        node.code = token.OpCode;
        ++at_;
        if (token.OpCode == codes_.open) {
            node.kind = Node::Kind::group;
            node.children.push_back(expression());
            if (next_is(codes_.close))
                ++at_;
        } else if (token.OpCode == codes_.missing) {
            node.kind = Node::Kind::missing;
        } else if (token.OpCode == codes_.push) {
            pushed(node, token.Data);
        } else if (token.OpCode == codes_.bad) {
            node.kind = Node::Kind::unknown;
            rtl::OUString text;
            token.Data >>= text;
            node.text = addin::utf8(text);
            if (next_is(codes_.open))
                arguments(node);
        } else if (next_is(codes_.open)) {
            node.kind = Node::Kind::call;
            if (is_ours(token, codes_)) {
                rtl::OUString name;
                token.Data >>= name;
                node.method = addin::utf8(name).substr(std::string_view(service_prefix).size());
            }
            arguments(node);
        }
        node.last = at_;
        return node;
    }

    static void pushed(Node& node, const uno::Any& data) {
        node.kind = Node::Kind::constant;
        sheet::SingleReference single;
        sheet::ComplexReference both;
        rtl::OUString text;
        if (data >>= text) {
            node.text = addin::utf8(text);
        } else if (data >>= single) {
            node.deleted = is_deleted(single);
        } else if (data >>= both) {
            node.deleted = is_deleted(both.Reference1) || is_deleted(both.Reference2);
        } else {
            if (data.getValueTypeClass() == uno::TypeClass_STRUCT)
                node.kind = Node::Kind::other; // a reference into another document
            return;
        }
        node.area = menu::area_of(data);
        if (node.area || node.deleted)
            node.kind = Node::Kind::reference;
    }

    void arguments(Node& node) {
        peek();
        ++at_; // the opening bracket
        if (next_is(codes_.close)) {
            ++at_;
            return;
        }
        while (peek()) {
            node.children.push_back(expression());
            if (!peek())
                return;
            const bool more = next_is(codes_.separator);
            ++at_;
            if (!more)
                return;
        }
    }

    const Tokens& tokens_;
    const OpCodes& codes_;
    std::size_t at_ = 0;
    int depth_ = 0;
};

} // namespace

std::optional<Area> area_of(const uno::Any& data) {
    sheet::SingleReference single;
    if (data >>= single) {
        if (is_deleted(single))
            return std::nullopt;
        return Area{place_of(single), place_of(single)};
    }
    sheet::ComplexReference both;
    if (data >>= both) {
        if (is_deleted(both.Reference1) || is_deleted(both.Reference2))
            return std::nullopt;
        // A name with relative references may give the corners the other way round; Calc takes the
        // cells between them all the same.
        const Place one = place_of(both.Reference1);
        const Place two = place_of(both.Reference2);
        const auto [first_sheet, last_sheet] = std::minmax(one.sheet, two.sheet);
        const auto [column, last_column] = std::minmax(one.column, two.column);
        const auto [row, last_row] = std::minmax(one.row, two.row);
        return Area{{first_sheet, column, row}, {last_sheet, last_column, last_row}};
    }
    return std::nullopt;
}

Node tree(const Tokens& tokens, const OpCodes& codes) {
    return Parser(tokens, codes).whole();
}

} // namespace jarbook::menu
