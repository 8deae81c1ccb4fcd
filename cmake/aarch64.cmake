# Builds the add-in for ARM64 on another machine: Debian's cross compiler, and in JARBOOK_SYSROOT the
# libraries that it links against (scripts/arm64-sysroot). Programs that run while building (the SDK's,
# Python) and plain headers are this machine's own.
set(CMAKE_SYSTEM_NAME Linux)
set(CMAKE_SYSTEM_PROCESSOR aarch64)
set(CMAKE_CXX_COMPILER aarch64-linux-gnu-g++)
set(CMAKE_CXX_FLAGS_INIT -Wno-psabi) # how GCC 9 passed some arguments, which nobody asks
list(APPEND CMAKE_TRY_COMPILE_PLATFORM_VARIABLES JARBOOK_SYSROOT)

foreach(library sal:sal cppu:cppu cppuhelper:cppuhelpergcc3 salhelper:salhelpergcc3)
    string(REPLACE ":" ";" both ${library})
    list(GET both 0 name)
    list(GET both 1 file)
    string(TOUPPER ${name} name)
    set(UNO_${name} ${JARBOOK_SYSROOT}/usr/lib/aarch64-linux-gnu/libuno_${file}.so.3
        CACHE FILEPATH "" FORCE)
endforeach()
# Not /usr/include itself: that would put this machine's C headers before the compiler's own.
set(Boost_NO_BOOST_CMAKE ON)
set(Boost_INCLUDE_DIR ${JARBOOK_SYSROOT}/headers CACHE PATH "" FORCE)

# The tests (scripts/test-arm64) are run by the emulator on this machine's side, without a root of their own.
foreach(package GTest rapidcheck)
    set(${package}_DIR ${JARBOOK_SYSROOT}/usr/lib/aarch64-linux-gnu/cmake/${package} CACHE PATH "" FORCE)
endforeach()
set(CMAKE_EXE_LINKER_FLAGS_INIT "-L${JARBOOK_SYSROOT}/usr/lib/aarch64-linux-gnu -Wl,--allow-shlib-undefined -Wl,-rpath-link,${JARBOOK_SYSROOT}/usr/lib/aarch64-linux-gnu")
set(CMAKE_CROSSCOMPILING_EMULATOR qemu-aarch64-static -L /usr/aarch64-linux-gnu)
