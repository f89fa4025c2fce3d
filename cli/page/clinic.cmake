# Read by page.cmake. The engine of the clinic's page: the same objects as the walk's, and with them what resolves, proves, compares and draws.
# A file of its own, so that the page that a family carries stays small. Still no reader of XML: it gets drafts (engine/wire/draft_model).

# page_units(<name> <file>...): the files eight at a time; of twenty, as rushlight_together takes them, some use one name.
function(page_units name)
  set(number 0)
  set(batch "")
  foreach(file IN LISTS ARGN)
    list(APPEND batch ${file})
    list(LENGTH batch length)
    if(length EQUAL 8)
      page_unit(${name}_${number} ${batch})
      math(EXPR number "${number} + 1")
      set(batch "")
    endif()
  endforeach()
  if(batch)
    page_unit(${name}_${number} ${batch})
  endif()
  set(page_objects ${page_objects} PARENT_SCOPE)
endfunction()

list(REMOVE_ITEM page_objects ${page_out}/engine_cli.o)
set(page_level -O2)  # a nurse waits for a proof: with -Os, which calls where -O2 puts in line, several times as long
set(engine ${PROJECT_SOURCE_DIR}/engine)

file(GLOB rest CONFIGURE_DEPENDS ${engine}/protocol/*.cpp)
list(REMOVE_ITEM rest ${protocol})
page_units(clinic_protocol ${rest})

# Those that RUSHLIGHT_TOGETHER keeps apart: engine/verify/CMakeLists.txt.
set(alone axes decisions compare counterparts dose_changes ways file_changes in_step cases case_words step_changes)
list(TRANSFORM alone REPLACE "(.+)" "${engine}/verify/\\1.cpp")
file(GLOB verify CONFIGURE_DEPENDS ${engine}/verify/*.cpp)
list(REMOVE_ITEM verify ${alone})
page_units(clinic_verify ${verify})
foreach(file IN LISTS alone)
  get_filename_component(name ${file} NAME_WE)
  page_unit(clinic_${name} ${file})
endforeach()

file(GLOB picture CONFIGURE_DEPENDS ${engine}/picture/*.cpp)
list(FILTER picture EXCLUDE REGEX "/flow[a-z_]*\\.cpp$")
page_units(clinic_picture ${picture})

set(read moved_places resolved_draft source_map stated_value threshold_edit xml_characters)
list(TRANSFORM read REPLACE "(.+)" "${engine}/read/\\1.cpp")
page_units(clinic_read ${read})
page_unit(clinic_wire ${engine}/wire/csv.cpp ${engine}/wire/kept_set.cpp)

set(of_cli assembled_set counted_rest fresh_findings map_named number_changes number_words numbers_collected numbers_sheet plain_text print_findings say told_differences turn_words)
list(TRANSFORM of_cli REPLACE "(.+)" "${PROJECT_SOURCE_DIR}/cli/\\1.cpp")
page_units(clinic_cli ${of_cli})
set(of_clinic clinic_engine clinic_form clinic_page clinic_set clinic_told)
list(TRANSFORM of_clinic REPLACE "(.+)" "${CMAKE_CURRENT_LIST_DIR}/\\1.cpp")
page_units(clinic_page ${of_clinic})

page_link(${clinic_engine} createClinicEngine worker,node _rushlight_clinic_file,_rushlight_clinic_open,_rushlight_clinic_call)
