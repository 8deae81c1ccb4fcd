// Coverage-guided: libFuzzer's bytes are taken for a function and its arguments, and the packed
// library is called with them as by jarbook-hostile. Built by the preset "fuzz" (clang).
//
// Of texts, the binding takes apart cells and words only; the catalogue's text is read by Python at
// build time (tools/catalogue.py), and no installed code parses it.
#include "binding.hpp"
#include "generator.hpp"
#include "odd_values.hpp"

#include <cstdio>
#include <cstdlib>
#include <cstring>

using namespace jarbook;
using namespace jarbook::hostile;

namespace {

class Bytes {
public:
    Bytes(const std::uint8_t* data, std::size_t size) : data_(data), size_(size) {}
    bool empty() const { return size_ == 0; }
    std::uint8_t byte() {
        if (empty())
            return 0;
        --size_;
        return *data_++;
    }
    template <class T>
    T raw() {
        T value{};
        const std::size_t count = std::min(sizeof value, size_);
        std::memcpy(&value, data_, count);
        data_ += count;
        size_ -= count;
        return value;
    }

private:
    const std::uint8_t* data_;
    std::size_t size_;
};

std::u16string text_from(Bytes& bytes) {
    std::u16string text(bytes.byte() % 24, u'\0');
    for (char16_t& unit : text) {
        const std::uint8_t low = bytes.byte();
        unit = low < 0x80 ? low : static_cast<char16_t>(low | (bytes.byte() << 8));
    }
    return text;
}

Value value_from(Bytes& bytes, int depth);

Rows rows_from(Bytes& bytes, int depth) {
    Rows rows;
    const std::uint8_t shape = bytes.byte();
    rows.element = shape < 224 ? Element::any : static_cast<Element>(shape % 4);
    rows.rows.resize(bytes.byte() % 12);
    const std::size_t width = shape % 3 == 0 ? 1 : shape % 5;
    for (auto& row : rows.rows) {
        const std::size_t cells = shape % 7 == 0 ? bytes.byte() % 4 : width;
        while (row.size() < cells)
            row.push_back(rows.element == Element::any      ? value_from(bytes, depth - 1)
                          : rows.element == Element::number ? Value{bytes.raw<double>()}
                          : rows.element == Element::text
                              ? Value{text_from(bytes)}
                              : Value{Integer{bytes.raw<std::int32_t>(), 4}});
    }
    return rows;
}

Value value_from(Bytes& bytes, int depth) {
    switch (bytes.byte() % 12) {
    case 0:
        return {LeftOut{}};
    case 1:
    case 2:
    case 3: // 0.00 to 655.35 in steps that people type
        return {bytes.raw<std::uint16_t>() / 100.0};
    case 4:
        return {bytes.raw<double>()};
    case 5:
        return {text_from(bytes)};
    case 6:
        return {bytes.byte() % 2 == 0};
    case 7: {
        static constexpr int widths[] = {1, 2, 4, 8};
        return {Integer{bytes.raw<std::int64_t>(), widths[bytes.byte() % 4]}};
    }
    case 8:
        return {bytes.raw<float>()};
    case 9:
        return {static_cast<Foreign>(bytes.byte() % 6)};
    case 10: {
        Flat flat;
        if (depth > 0)
            for (int i = bytes.byte() % 4; i > 0; --i)
                flat.values.push_back(value_from(bytes, depth - 1));
        return {flat};
    }
    default:
        if (depth == 0)
            return {std::u16string()};
        return {rows_from(bytes, depth)};
    }
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    // Never destroyed: UNO's own threads may outlive main.
    static Binding& binding = *new Binding(JARBOOK_LIBRARY, JARBOOK_TYPES, JARBOOK_OFFICE_PROGRAM);
    Bytes bytes(data, size);
    const auto functions = catalogue::functions();
    const catalogue::Function& function = functions[bytes.byte() % functions.size()];
    Call call{std::string(function.method), {}};
    while (call.arguments.size() < function.arguments.size())
        call.arguments.push_back(value_from(bytes, 2));
    const Outcome outcome = binding.call(call);
    if (!outcome.fault.empty()) {
        std::fprintf(stderr, "FAULT %s\n  %s\n", outcome.fault.c_str(), notation(call).c_str());
        std::abort();
    }
    return 0;
}
