# lp_solve, packed statically: target lp_solve. Of Debian's liblpsolve55-dev the archive that is
# position-independent, and COLAMD (libsuitesparse-dev), which it calls. What static linking asks for
# is in NOTICE.
find_path(LPSOLVE_INCLUDE_DIR lpsolve/lp_lib.h REQUIRED)
find_library(LPSOLVE_ARCHIVE NAMES liblpsolve55_pic.a REQUIRED)
find_library(COLAMD_ARCHIVE NAMES libcolamd.a REQUIRED)
find_library(SUITESPARSECONFIG_ARCHIVE NAMES libsuitesparseconfig.a REQUIRED)
add_library(lp_solve INTERFACE)
target_include_directories(lp_solve SYSTEM INTERFACE ${LPSOLVE_INCLUDE_DIR})
target_link_libraries(lp_solve INTERFACE ${LPSOLVE_ARCHIVE} ${COLAMD_ARCHIVE}
                      ${SUITESPARSECONFIG_ARCHIVE} m)
# For each programme lp_solve looks for a libmyBLAS.so on the machine and would compute with it. A cell
# function reads no files, and gives the same on every machine: see linear_programme.cpp.
target_link_options(lp_solve INTERFACE -Wl,--wrap=dlopen)
