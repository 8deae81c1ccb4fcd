# The same package with an older version number: cmake -DOXT= -DOLDER= -DVERSION= -P make_older.cmake
set(stage ${OLDER}.stage)
file(REMOVE_RECURSE ${stage})
file(ARCHIVE_EXTRACT INPUT ${OXT} DESTINATION ${stage})
file(READ ${stage}/description.xml text)
string(REPLACE "<version value=\"${VERSION}\"/>" "<version value=\"0.0.1\"/>" older "${text}")
if(older STREQUAL text)
  message(FATAL_ERROR "no version ${VERSION} in the package's description")
endif()
file(WRITE ${stage}/description.xml "${older}")
file(GLOB files RELATIVE ${stage} ${stage}/*)
execute_process(COMMAND ${CMAKE_COMMAND} -E tar cf ${OLDER} --format=zip -- ${files}
  WORKING_DIRECTORY ${stage} COMMAND_ERROR_IS_FATAL ANY)
file(REMOVE_RECURSE ${stage})
