// A document's bytes in memory, so that nothing of it is written to a disk.
#pragma once

#include <com/sun/star/io/XInputStream.hpp>
#include <com/sun/star/io/XOutputStream.hpp>
#include <com/sun/star/io/XSeekable.hpp>
#include <cppuhelper/implbase1.hxx>
#include <cppuhelper/implbase2.hxx>
#include <vector>

namespace jarbook::menu {

class MemoryOutput final : public cppu::WeakImplHelper1<com::sun::star::io::XOutputStream> {
public:
    void SAL_CALL writeBytes(const com::sun::star::uno::Sequence<sal_Int8>& bytes) override;
    void SAL_CALL flush() override {}
    void SAL_CALL closeOutput() override {}

    std::vector<sal_Int8> take() { return std::move(bytes_); }

private:
    std::vector<sal_Int8> bytes_;
};

class MemoryInput final : public cppu::WeakImplHelper2<com::sun::star::io::XInputStream,
                                                       com::sun::star::io::XSeekable> {
public:
    explicit MemoryInput(std::vector<sal_Int8> bytes) : bytes_(std::move(bytes)) {}

    sal_Int32 SAL_CALL readBytes(com::sun::star::uno::Sequence<sal_Int8>& to,
                                 sal_Int32 count) override;
    sal_Int32 SAL_CALL readSomeBytes(com::sun::star::uno::Sequence<sal_Int8>& to,
                                     sal_Int32 count) override {
        return readBytes(to, count);
    }
    void SAL_CALL skipBytes(sal_Int32 count) override { seek(at_ + count); }
    sal_Int32 SAL_CALL available() override;
    void SAL_CALL closeInput() override {}
    void SAL_CALL seek(sal_Int64 position) override;
    sal_Int64 SAL_CALL getPosition() override { return at_; }
    sal_Int64 SAL_CALL getLength() override { return static_cast<sal_Int64>(bytes_.size()); }

private:
    std::vector<sal_Int8> bytes_;
    sal_Int64 at_ = 0;
};

} // namespace jarbook::menu
