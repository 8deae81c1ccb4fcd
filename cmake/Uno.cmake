# The office's SDK: finds it, compiles our IDL, makes C++ headers of ours and the office's types.
#
# Provides
#   jarbook_types       custom target: build/jarbook.rdb, the compiled IDL
#   uno_headers         interface library: generated headers, SDK headers and libraries
find_path(UNO_SDK_INCLUDE sal/types.h
          HINTS ENV OO_SDK_HOME PATHS /usr/include/libreoffice /usr/lib/libreoffice/sdk/include
                /opt/libreoffice/sdk/include
          REQUIRED DOC "C++ headers of the LibreOffice SDK")
find_program(UNOIDL_WRITE unoidl-write
             HINTS ENV OO_SDK_HOME PATHS /usr/lib/libreoffice/sdk/bin /opt/libreoffice/sdk/bin
             REQUIRED)
find_program(CPPUMAKER cppumaker
             HINTS ENV OO_SDK_HOME PATHS /usr/lib/libreoffice/sdk/bin /opt/libreoffice/sdk/bin
             REQUIRED)
find_path(OFFICE_PROGRAM soffice.bin PATHS /usr/lib/libreoffice/program /opt/libreoffice/program
          REQUIRED DOC "The office's program folder")
find_path(URE_TYPES types.rdb PATHS ${OFFICE_PROGRAM} /usr/lib/ure/share/misc
                                  /usr/lib/libreoffice/share/misc
          REQUIRED DOC "Folder of the URE's types.rdb")
set(OFFICE_TYPES ${OFFICE_PROGRAM}/types/offapi.rdb)

foreach(library sal cppu cppuhelper salhelper)
    string(TOUPPER ${library} name)
    find_library(UNO_${name} NAMES uno_${library} uno_${library}3 uno_${library}gcc3
                 PATHS ${OFFICE_PROGRAM} /usr/lib/libreoffice/sdk/lib /usr/lib/ure/lib REQUIRED)
    list(APPEND UNO_LIBRARIES ${UNO_${name}})
endforeach()

set(UNO_TYPES_RDB ${CMAKE_BINARY_DIR}/jarbook.rdb)
file(GLOB UNO_IDL CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/idl/org/jarbook/*.idl)
add_custom_command(
    OUTPUT ${UNO_TYPES_RDB}
    COMMAND ${UNOIDL_WRITE} ${URE_TYPES}/types.rdb ${OFFICE_TYPES} ${CMAKE_SOURCE_DIR}/idl
            ${UNO_TYPES_RDB}
    DEPENDS ${UNO_IDL} COMMENT "Compiling the IDL" VERBATIM)

set(UNO_HEADERS_DIR ${CMAKE_BINARY_DIR}/uno-headers)
set(UNO_OFFICE_STAMP ${UNO_HEADERS_DIR}/office.stamp)
set(UNO_OWN_STAMP ${UNO_HEADERS_DIR}/own.stamp)
add_custom_command(
    OUTPUT ${UNO_OFFICE_STAMP}
    COMMAND ${CPPUMAKER} -Gc -O${UNO_HEADERS_DIR} ${URE_TYPES}/types.rdb ${OFFICE_TYPES}
    COMMAND ${CMAKE_COMMAND} -E touch ${UNO_OFFICE_STAMP}
    COMMENT "Making C++ headers of the office's types" VERBATIM)
add_custom_command(
    OUTPUT ${UNO_OWN_STAMP}
    COMMAND ${CPPUMAKER} -Gc -O${UNO_HEADERS_DIR} -Torg.jarbook.* ${UNO_TYPES_RDB}
            -X${URE_TYPES}/types.rdb -X${OFFICE_TYPES}
    COMMAND ${CMAKE_COMMAND} -E touch ${UNO_OWN_STAMP}
    DEPENDS ${UNO_TYPES_RDB} ${UNO_OFFICE_STAMP}
    COMMENT "Making C++ headers of our own types" VERBATIM)
add_custom_target(uno_header_files DEPENDS ${UNO_OFFICE_STAMP} ${UNO_OWN_STAMP})

add_library(uno_headers INTERFACE)
add_dependencies(uno_headers uno_header_files)
target_include_directories(uno_headers SYSTEM INTERFACE ${UNO_SDK_INCLUDE} ${UNO_HEADERS_DIR})
target_compile_definitions(uno_headers INTERFACE LINUX UNX)
target_link_libraries(uno_headers INTERFACE ${UNO_LIBRARIES})
