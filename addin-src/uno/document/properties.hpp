// The office's named properties as an argument of its calls.
#pragma once

#include <com/sun/star/beans/PropertyValue.hpp>
#include <com/sun/star/uno/Sequence.hxx>
#include <vector>

namespace jarbook::menu {

class Properties {
public:
    template <class T>
    Properties& add(const char* name, const T& value) {
        com::sun::star::beans::PropertyValue property;
        property.Name = rtl::OUString::createFromAscii(name);
        property.Value <<= value;
        properties_.push_back(property);
        return *this;
    }
    com::sun::star::uno::Sequence<com::sun::star::beans::PropertyValue> sequence() const {
        return {properties_.data(), static_cast<sal_Int32>(properties_.size())};
    }

private:
    std::vector<com::sun::star::beans::PropertyValue> properties_;
};

} // namespace jarbook::menu
