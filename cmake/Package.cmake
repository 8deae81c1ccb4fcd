# Packs build/jarbook.oxt. What goes in is listed here, one line each: package path and source.
if(CMAKE_SYSTEM_PROCESSOR MATCHES "^(x86_64|AMD64)$")
    set(JARBOOK_PLATFORM linux_x86_64)
elseif(CMAKE_SYSTEM_PROCESSOR MATCHES "^(aarch64|arm64)$")
    set(JARBOOK_PLATFORM linux_aarch64)
else()
    message(FATAL_ERROR "No extension platform name is known for ${CMAKE_SYSTEM_PROCESSOR}")
endif()
configure_file(${CMAKE_SOURCE_DIR}/extension/description.xml.in
               ${CMAKE_BINARY_DIR}/description.xml @ONLY)

set(GENERATED ${CMAKE_BINARY_DIR}/extension/generated)
set(PACKED
    META-INF/manifest.xml   ${CMAKE_SOURCE_DIR}/extension/manifest.xml
    description.xml         ${CMAKE_BINARY_DIR}/description.xml
    description-en.txt      ${CMAKE_SOURCE_DIR}/extension/description-en.txt
    LICENSE                 ${CMAKE_SOURCE_DIR}/LICENSE
    NOTICE                  ${CMAKE_SOURCE_DIR}/NOTICE
    licences/LGPL-2.1.txt   ${CMAKE_SOURCE_DIR}/extension/licences/LGPL-2.1.txt
    jarbook.components      ${CMAKE_SOURCE_DIR}/extension/jarbook.components
    jarbook.uno.so          $<TARGET_FILE:jarbook_addin>
    jarbook.rdb             ${UNO_TYPES_RDB}
    CalcAddIns.xcu          ${GENERATED}/CalcAddIns.xcu
    functions.html          ${GENERATED}/functions.html
    Paths.xcu               ${CMAKE_SOURCE_DIR}/extension/Paths.xcu
    ProtocolHandler.xcu     ${CMAKE_SOURCE_DIR}/extension/ProtocolHandler.xcu
    Addons.xcu              ${CMAKE_SOURCE_DIR}/extension/Addons.xcu
    template/Jarbook/jarbook-run-log.ots    ${CMAKE_BINARY_DIR}/workbooks/jarbook-run-log.ots
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
    COMMAND ${CMAKE_COMMAND} -E chdir ${STAGE} ${CMAKE_COMMAND} -E tar cf ${OXT} --format=zip -- ${staged}
    DEPENDS ${sources} jarbook_addin COMMENT "Packing jarbook.oxt" VERBATIM)
add_custom_target(oxt ALL DEPENDS ${OXT})
# The generated files come from another folder's rules, which make knows by their target only.
add_dependencies(oxt jarbook_catalogue workbooks)
