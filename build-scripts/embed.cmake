# Carries files inside the program. In CMakeLists.txt:
#
#   include(build-scripts/embed.cmake)
#   saggar_embed(saggar_layout saggar::layout builtInFiles layouts/checklist.xml layouts/trade-words.txt)
#
# adds to the target a source that defines, in the namespace, a function
#
#   std::span<const std::pair<std::string_view, std::string_view>> builtInFiles();
#
# of file names (without their folder) and contents, sorted by name. It is made again when a file changes.
# The same script, run by "cmake -P", writes that source.

if(CMAKE_SCRIPT_MODE_FILE)
  set(TABLE "")
  set(ARRAYS "")
  set(NUMBER 0)
  string(REPLACE "|" ";" FILES "${FILES}")
  foreach(FILE ${FILES})
    get_filename_component(NAME "${FILE}" NAME)
    file(READ "${FILE}" HEX HEX)
    string(LENGTH "${HEX}" LENGTH)
    math(EXPR SIZE "${LENGTH} / 2")
    string(REGEX REPLACE "(................................)" "\\1\n" HEX "${HEX}")
    string(REGEX REPLACE "([0-9a-f][0-9a-f])" "0x\\1," HEX "${HEX}")
    string(APPEND ARRAYS "const unsigned char kFile${NUMBER}[] = {\n${HEX}0};\n")
    string(APPEND TABLE "    {\"${NAME}\", {reinterpret_cast<const char*>(kFile${NUMBER}), ${SIZE}}},\n")
    math(EXPR NUMBER "${NUMBER} + 1")
  endforeach()
  file(WRITE "${OUT}" "// Made by build-scripts/embed.cmake.
#include <span>
#include <string_view>
#include <utility>

namespace ${NAMESPACE} {
namespace {
${ARRAYS}
const std::pair<std::string_view, std::string_view> kFiles[] = {
${TABLE}};
}  // namespace

std::span<const std::pair<std::string_view, std::string_view>> ${FUNCTION}();
std::span<const std::pair<std::string_view, std::string_view>> ${FUNCTION}() { return kFiles; }

}  // namespace ${NAMESPACE}
")
  return()
endif()

function(saggar_embed TARGET NAMESPACE FUNCTION)
  set(FILES "")
  foreach(FILE ${ARGN})
    get_filename_component(FILE "${FILE}" ABSOLUTE)
    list(APPEND FILES "${FILE}")
  endforeach()
  list(SORT FILES)
  string(REPLACE ";" "|" LISTED "${FILES}")
  set(OUT "${CMAKE_CURRENT_BINARY_DIR}/embedded/${TARGET}-${FUNCTION}.cpp")
  set(SCRIPT "${CMAKE_CURRENT_SOURCE_DIR}/build-scripts/embed.cmake")
  add_custom_command(
    OUTPUT "${OUT}"
    COMMAND "${CMAKE_COMMAND}" "-DOUT=${OUT}" "-DNAMESPACE=${NAMESPACE}" "-DFUNCTION=${FUNCTION}"
            "-DFILES=${LISTED}" -P "${SCRIPT}"
    DEPENDS ${FILES} "${SCRIPT}"
    VERBATIM)
  target_sources(${TARGET} PRIVATE "${OUT}")
endfunction()
