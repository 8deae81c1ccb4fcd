#include "uno/document/memory_stream.hpp"

#include <algorithm>
#include <com/sun/star/lang/IllegalArgumentException.hpp>

namespace jarbook::menu {

using com::sun::star::uno::Sequence;

void MemoryOutput::writeBytes(const Sequence<sal_Int8>& bytes) {
    bytes_.insert(bytes_.end(), bytes.begin(), bytes.end());
}

sal_Int32 MemoryInput::readBytes(Sequence<sal_Int8>& to, sal_Int32 count) {
    const sal_Int64 left = getLength() - at_;
    const auto size = static_cast<sal_Int32>(std::clamp<sal_Int64>(count, 0, left));
    to = Sequence<sal_Int8>(bytes_.data() + at_, size);
    at_ += size;
    return size;
}

sal_Int32 MemoryInput::available() {
    return static_cast<sal_Int32>(std::min<sal_Int64>(getLength() - at_, SAL_MAX_INT32));
}

void MemoryInput::seek(sal_Int64 position) {
    if (position < 0 || position > getLength())
        throw com::sun::star::lang::IllegalArgumentException();
    at_ = position;
}

} // namespace jarbook::menu
