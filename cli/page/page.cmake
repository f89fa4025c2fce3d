# Read by cli/CMakeLists.txt. The handheld page: the same sources of the engine once more, for the browser, and the files around it. Without Debian's
# emscripten the program is built without it and `rushlight page` says so.
set(page_out ${CMAKE_BINARY_DIR}/page)
set(page_engine ${page_out}/engine.js)
set(clinic_engine ${page_out}/clinic-engine.js)
option(RUSHLIGHT_PAGE "Build the engine for the browser, where emscripten is installed" ON)
set(RUSHLIGHT_PAGE_ENGINE "" CACHE FILEPATH "An engine.js that another build of this tree has made, its clinic-engine.js beside it: taken as they are")
find_program(RUSHLIGHT_EMCC em++)

# Not the reader of XML, nor what proves: the page gets protocols that were read and checked (engine/wire/protocol_model).
file(GLOB measure CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/engine/measure/*.cpp)
file(GLOB finding CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/engine/finding/*.cpp)
file(GLOB episode CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/engine/episode/*.cpp)
file(GLOB wire CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/engine/wire/*.cpp)
list(FILTER wire EXCLUDE REGEX "/(csv|kept_set|json_from_child)\\.cpp$")
file(GLOB page CONFIGURE_DEPENDS ${CMAKE_CURRENT_LIST_DIR}/*.cpp)
set(protocol protocol source threshold words band_name)
list(TRANSFORM protocol REPLACE "(.+)" "${PROJECT_SOURCE_DIR}/engine/protocol/\\1.cpp")
set(cli answers bell dialog done_record keys meaning_in_menus meaning_on_step menus misplaced_deed noticed outcome_words past_night
        plain_text readings say screen screen_text situation typed_drink typed_units why_words)
list(TRANSFORM cli REPLACE "(.+)" "${PROJECT_SOURCE_DIR}/cli/\\1.cpp")
# Two files of one unit must not use one name in their unnamed namespaces.
set(apart ${measure})
list(FILTER apart INCLUDE REGEX "/(ketones|moment|written)\\.cpp$")
list(REMOVE_ITEM measure ${apart})
set(screen ${PROJECT_SOURCE_DIR}/cli/screen.cpp)
list(REMOVE_ITEM cli ${screen})
list(FILTER page EXCLUDE REGEX "/(page_(data|files|frame)|clinic_[a-z]+)\\.cpp$")  # they make the page, or are for the clinic

set(page_flags -std=c++20 -fwasm-exceptions)
set(page_level -Os)
set(page_objects "")
# page_unit(<name> <file>...): several files compiled as one, which costs a third of one after the other.
function(page_unit name)
  set(text "")
  foreach(file IN LISTS ARGN)
    string(APPEND text "#include \"${file}\"\n")
  endforeach()
  file(CONFIGURE OUTPUT ${page_out}/${name}.cpp CONTENT "${text}" @ONLY)
  add_custom_command(
    OUTPUT ${page_out}/${name}.o
    COMMAND ${CMAKE_COMMAND} -E env NODE_PATH=/usr/share/nodejs ${CMAKE_CXX_COMPILER_LAUNCHER} ${RUSHLIGHT_EMCC} ${page_flags} ${page_level}
            -I${page_out}/foreign -I${PROJECT_SOURCE_DIR}/engine -I${PROJECT_SOURCE_DIR} -MD -MF ${page_out}/${name}.d
            -c ${page_out}/${name}.cpp -o ${page_out}/${name}.o
    DEPENDS ${ARGN} ${page_out}/${name}.cpp
    DEPFILE ${page_out}/${name}.d
    COMMENT "Compiling ${name} of the page's engine"
    VERBATIM)
  set(page_objects ${page_objects} ${page_out}/${name}.o PARENT_SCOPE)
endfunction()

# page_link(<engine.js> <name> <environments> <functions>): what has been compiled until here, as one script.
function(page_link engine name environments functions)
  # Debian's emcc needs its node modules where another node is installed, and leaves half a result behind when it fails.
  add_custom_command(
    OUTPUT ${engine}
    COMMAND ${CMAKE_COMMAND} -E env NODE_PATH=/usr/share/nodejs ${RUSHLIGHT_EMCC} ${page_level} -fwasm-exceptions ${page_objects} --no-entry
            --pre-js ${CMAKE_CURRENT_LIST_DIR}/instantiate.js
            -sMODULARIZE=1 -sEXPORT_NAME=${name} -sSINGLE_FILE=1 -sALLOW_MEMORY_GROWTH=1 -sENVIRONMENT=${environments}
            -sEXPORTED_FUNCTIONS=${functions},_malloc,_free -sEXPORTED_RUNTIME_METHODS=UTF8ToString,stringToUTF8,lengthBytesUTF8
            -o ${engine}
    DEPENDS ${page_objects} ${CMAKE_CURRENT_LIST_DIR}/instantiate.js
    COMMENT "Linking ${name}"
    VERBATIM)
endfunction()

set(RUSHLIGHT_HAS_PAGE OFF)
if(RUSHLIGHT_PAGE AND RUSHLIGHT_PAGE_ENGINE)
  set(page_engine ${RUSHLIGHT_PAGE_ENGINE})
  get_filename_component(beside ${RUSHLIGHT_PAGE_ENGINE} DIRECTORY)
  set(clinic_engine ${beside}/clinic-engine.js)
  set(RUSHLIGHT_HAS_PAGE ON)
elseif(RUSHLIGHT_PAGE AND RUSHLIGHT_EMCC)
  set(RUSHLIGHT_HAS_PAGE ON)
  # Only this library's headers: with -I/usr/include the host's own would be found as well.
  find_path(nlohmann_folder nlohmann/json.hpp REQUIRED)
  file(MAKE_DIRECTORY ${page_out}/foreign)
  file(CREATE_LINK ${nlohmann_folder}/nlohmann ${page_out}/foreign/nlohmann SYMBOLIC)
  page_unit(engine_wire ${wire})
  page_unit(engine_cli ${cli} ${page})
  page_unit(engine_episode ${episode})
  page_unit(engine_finding ${finding})
  page_unit(engine_measure ${measure} ${protocol} ${screen})
  foreach(file IN LISTS apart)
    get_filename_component(name ${file} NAME_WE)
    page_unit(engine_${name} ${file})
  endforeach()
  page_link(${page_engine} createEngine web,node _rushlight_open,_rushlight_call)
  include(${CMAKE_CURRENT_LIST_DIR}/clinic.cmake)
else()
  message(STATUS "The handheld page is left out: em++ was not found (Debian: emscripten), or RUSHLIGHT_PAGE is off")
  file(CONFIGURE OUTPUT ${page_engine} CONTENT "" @ONLY)
  file(CONFIGURE OUTPUT ${clinic_engine} CONTENT "" @ONLY)
endif()

# Everything the page is made of travels inside the program, as the protocols do.
set(page_parts ${page_engine} ${clinic_engine})
foreach(part page.html page.css page.js pad.js journal.js alarm.js drawings.js calls.js elements.js face.js before.js back.js panels.js words.js service-worker.js icon.svg
             clinic.html clinic.css clinic.js clinic-form.js clinic-told.js clinic-map.js clinic-worker.js clinic-words.js)
  list(APPEND page_parts ${CMAKE_CURRENT_LIST_DIR}/${part})
endforeach()
set(page_cpp ${CMAKE_BINARY_DIR}/generated/page_parts.cpp)
add_custom_command(
  OUTPUT ${page_cpp}
  COMMAND ${CMAKE_COMMAND} "-DFILES=${page_parts}" -DOUT=${page_cpp} -DFUNCTION=page_parts -P ${PROJECT_SOURCE_DIR}/cli/embed.cmake
  DEPENDS ${page_parts} ${PROJECT_SOURCE_DIR}/cli/embed.cmake
  COMMENT "Embedding the page"
  VERBATIM)
set_source_files_properties(${page_cpp} PROPERTIES COMPILE_OPTIONS -Wno-overlength-strings SKIP_UNITY_BUILD_INCLUSION ON)
