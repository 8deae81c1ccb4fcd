#include "call.hpp"

#include <algorithm>
#include <com/sun/star/beans/PropertyValue.hpp>
#include <com/sun/star/lang/IllegalArgumentException.hpp>
#include <com/sun/star/table/CellContentType.hpp>
#include <com/sun/star/uno/Sequence.hxx>
#include <com/sun/star/uno/XInterface.hpp>
#include <cppu/unotype.hxx>

namespace jarbook::hostile {

using namespace com::sun::star;

namespace {

template <class T>
T plain(const Value& value) {
    const auto* held = std::get_if<T>(&value.held);
    return held ? *held : T{};
}

rtl::OUString ustring(const std::u16string& text) {
    // The SDK's code unit may be char16_t or another integer of two bytes.
    return {reinterpret_cast<const sal_Unicode*>(text.data()), static_cast<sal_Int32>(text.size())};
}

template <class Cell, class Convert>
uno::Any typed_rows(const Rows& rows, Convert convert) {
    // Sequences are shared on copying, so that a whole column costs one pointer a row.
    std::vector<uno::Sequence<Cell>> pattern;
    for (const std::vector<Value>& row : rows.rows) {
        uno::Sequence<Cell>& cells = pattern.emplace_back(static_cast<sal_Int32>(row.size()));
        std::transform(row.begin(), row.end(), cells.getArray(), convert);
    }
    uno::Sequence<uno::Sequence<Cell>> result(static_cast<sal_Int32>(pattern.size() * rows.times));
    uno::Sequence<Cell>* to = result.getArray();
    for (std::size_t i = 0; i < rows.times; ++i)
        to = std::copy(pattern.begin(), pattern.end(), to);
    return uno::Any(result);
}

uno::Any foreign_any(Foreign kind) {
    switch (kind) {
    case Foreign::character: {
        sal_Unicode unit = u'%';
        return uno::Any(&unit, cppu::UnoType<cppu::UnoCharType>::get());
    }
    case Foreign::type:
        return uno::Any(cppu::UnoType<uno::XInterface>::get());
    case Foreign::enumeration:
        return uno::Any(table::CellContentType_VALUE);
    case Foreign::structure:
        return uno::Any(beans::PropertyValue());
    case Foreign::exception:
        return uno::Any(lang::IllegalArgumentException());
    case Foreign::interface:
        return uno::Any(uno::Reference<uno::XInterface>());
    }
    return {};
}

struct Maker {
    uno::Any operator()(LeftOut) const { return {}; }
    uno::Any operator()(double value) const { return uno::Any(value); }
    uno::Any operator()(const std::u16string& text) const { return uno::Any(ustring(text)); }
    uno::Any operator()(bool value) const { return uno::Any(value); }
    uno::Any operator()(Integer value) const {
        switch (value.bytes) {
        case 1:
            return uno::Any(static_cast<sal_Int8>(value.value));
        case 2:
            return uno::Any(static_cast<sal_Int16>(value.value));
        case 8:
            return uno::Any(static_cast<sal_Int64>(value.value));
        default:
            return uno::Any(static_cast<sal_Int32>(value.value));
        }
    }
    uno::Any operator()(float value) const { return uno::Any(value); }
    uno::Any operator()(const Rows& rows) const {
        switch (rows.element) {
        case Element::number:
            return typed_rows<double>(rows, plain<double>);
        case Element::text:
            return typed_rows<rtl::OUString>(
                rows, [](const Value& value) { return ustring(plain<std::u16string>(value)); });
        case Element::integer:
            return typed_rows<sal_Int32>(rows, [](const Value& value) {
                return static_cast<sal_Int32>(plain<Integer>(value).value);
            });
        case Element::any:
            break;
        }
        return typed_rows<uno::Any>(rows,
                                    [](const Value& value) { return hostile::any_from(value); });
    }
    uno::Any operator()(const Flat& flat) const {
        uno::Sequence<uno::Any> result(static_cast<sal_Int32>(flat.values.size()));
        std::transform(flat.values.begin(), flat.values.end(), result.getArray(),
                       [](const Value& value) { return hostile::any_from(value); });
        return uno::Any(result);
    }
    uno::Any operator()(Foreign kind) const { return foreign_any(kind); }
};

} // namespace

uno::Any any_from(const Value& value) {
    return std::visit(Maker(), value.held);
}

} // namespace jarbook::hostile
