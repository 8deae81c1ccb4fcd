# Packs build/jarbook.oxt. What goes in is listed here, one line each: package path and source.
#
# Each platform has a folder of its own with its library, the types beside it (component.cpp looks for
# them there) and the components, which the manifest names for that platform. This machine's library is always there; JARBOOK_ARM64_LIBRARY, where it is
# set (scripts/release), is packed beside it.
set(JARBOOK_ARM64_LIBRARY "" CACHE FILEPATH "Library built for ARM64, to be packed as well")
if(CMAKE_SYSTEM_PROCESSOR MATCHES "^(x86_64|AMD64)$")
    set(platforms linux_x86_64)
elseif(CMAKE_SYSTEM_PROCESSOR MATCHES "^(aarch64|arm64)$")
    set(platforms linux_aarch64)
else()
    message(FATAL_ERROR "No extension platform name is known for ${CMAKE_SYSTEM_PROCESSOR}")
endif()
set(library_${platforms} $<TARGET_FILE:jarbook_addin>)
set(JARBOOK_OWN_PLATFORM ${platforms})
if(JARBOOK_ARM64_LIBRARY)
    list(APPEND platforms linux_aarch64)
    set(library_linux_aarch64 ${JARBOOK_ARM64_LIBRARY})
    list(REMOVE_DUPLICATES platforms)
endif()

set(GENERATED ${CMAKE_BINARY_DIR}/extension/generated)
set(PLATFORM_ENTRIES)
set(PACKED_LIBRARIES)
foreach(platform IN LISTS platforms)
    # As the manifest writes it: Linux_X86_64.
    string(TOUPPER ${platform} written)
    string(REGEX REPLACE "^LINUX" "Linux" written ${written})
    string(APPEND PLATFORM_ENTRIES
        " <manifest:file-entry manifest:media-type=\"application/vnd.sun.star.uno-components;platform=${written}\"\n"
        "                      manifest:full-path=\"${platform}/jarbook.components\"/>\n")
    list(APPEND PACKED_LIBRARIES
        ${platform}/jarbook.components ${CMAKE_SOURCE_DIR}/extension/jarbook.components
        ${platform}/jarbook.uno.so     ${library_${platform}}
        ${platform}/jarbook.rdb        ${UNO_TYPES_RDB})
endforeach()
list(JOIN platforms "," JARBOOK_PLATFORMS)
configure_file(${CMAKE_SOURCE_DIR}/extension/description.xml.in
               ${CMAKE_BINARY_DIR}/description.xml @ONLY)
configure_file(${CMAKE_SOURCE_DIR}/extension/manifest.xml.in ${CMAKE_BINARY_DIR}/manifest.xml @ONLY)

set(PACKED
    META-INF/manifest.xml   ${CMAKE_BINARY_DIR}/manifest.xml
    description.xml         ${CMAKE_BINARY_DIR}/description.xml
    description-en.txt      ${CMAKE_SOURCE_DIR}/extension/description-en.txt
    LICENSE                 ${CMAKE_SOURCE_DIR}/LICENSE
    NOTICE                  ${CMAKE_SOURCE_DIR}/NOTICE
    ${PACKED_LIBRARIES}
    CalcAddIns.xcu          ${GENERATED}/CalcAddIns.xcu
    functions.html          ${GENERATED}/functions.html
    Paths.xcu               ${CMAKE_SOURCE_DIR}/extension/Paths.xcu
    ProtocolHandler.xcu     ${CMAKE_SOURCE_DIR}/extension/ProtocolHandler.xcu
    Addons.xcu              ${CMAKE_SOURCE_DIR}/extension/Addons.xcu
    Accelerators.xcu        ${CMAKE_SOURCE_DIR}/extension/Accelerators.xcu
    template/Jarbook/jarbook-run-log.ots    ${CMAKE_BINARY_DIR}/workbooks/jarbook-run-log.ots
    workbooks/jarbook-run-sheet.ots         ${CMAKE_BINARY_DIR}/workbooks/jarbook-run-sheet.ots
    workbooks/jarbook-worked-example.ods    ${CMAKE_BINARY_DIR}/workbooks/jarbook-worked-example.ods
)

set(STAGE ${CMAKE_BINARY_DIR}/oxt)
set(OXT ${CMAKE_BINARY_DIR}/jarbook.oxt)
set(copy)
set(sources)
while(PACKED)
    list(POP_FRONT PACKED to from)
    cmake_path(GET to PARENT_PATH folder)
    list(APPEND copy COMMAND ${CMAKE_COMMAND} -E make_directory ${STAGE}/${folder})
    list(APPEND copy COMMAND ${CMAKE_COMMAND} -E copy ${from} ${STAGE}/${to})
    list(APPEND sources ${from})
    list(APPEND staged ${to})
endwhile()
add_custom_command(
    OUTPUT ${OXT}
    COMMAND ${CMAKE_COMMAND} -E rm -rf ${STAGE} ${OXT}
    ${copy}
    COMMAND ${Python3_EXECUTABLE} ${CMAKE_SOURCE_DIR}/tools/pack.py ${OXT} ${STAGE} ${staged}
    DEPENDS ${sources} ${CMAKE_SOURCE_DIR}/tools/pack.py jarbook_addin
    COMMENT "Packing jarbook.oxt" VERBATIM)
add_custom_target(oxt ALL DEPENDS ${OXT})
# The generated files come from another folder's rules, which make knows by their target only.
add_dependencies(oxt jarbook_catalogue workbooks)
