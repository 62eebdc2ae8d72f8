# A newcomer's first sheet is not to wait for what no weigh sheet needs. Where the sources of a room are compiled together,
# those that lakebound-batch needs make a part of each library, which it and what the commands share link; the library is
# that part and the others. A source that the part turns out to need fails to link: then it is no longer "later".

# lakebound_later(library sources...): what no weigh sheet needs.
function(lakebound_later name)
  list(TRANSFORM ARGN PREPEND ${CMAKE_CURRENT_SOURCE_DIR}/)
  set_property(TARGET lakebound_${name} APPEND PROPERTY LAKEBOUND_LATER ${ARGN})
endfunction()

# lakebound_first(library): makes the target lakebound_<library>_first, once everything is said of the library.
function(lakebound_first name)
  set(whole lakebound_${name})
  set(first ${whole}_first)
  get_target_property(later ${whole} LAKEBOUND_LATER)
  if(BUILD_SHARED_LIBS OR NOT CMAKE_UNITY_BUILD OR NOT later) # all of it
    add_library(${first} INTERFACE)
    target_link_libraries(${first} INTERFACE ${whole})
    return()
  endif()
  get_target_property(sources ${whole} SOURCES)
  list(REMOVE_ITEM sources ${later})
  add_library(${first} STATIC ${sources})
  set_property(TARGET ${whole} PROPERTY SOURCES ${later} $<TARGET_OBJECTS:${first}>)
  foreach(property IN ITEMS COMPILE_OPTIONS INTERFACE_COMPILE_OPTIONS INTERFACE_COMPILE_FEATURES LINK_LIBRARIES
          INTERFACE_LINK_LIBRARIES CXX_VISIBILITY_PRESET VISIBILITY_INLINES_HIDDEN POSITION_INDEPENDENT_CODE UNITY_BUILD_MODE)
    get_target_property(value ${whole} ${property})
    if(value)
      list(TRANSFORM value REPLACE "lakebound::([a-z]+)" "lakebound_\\1_first")
      set_property(TARGET ${first} PROPERTY ${property} ${value})
    endif()
  endforeach()
  target_compile_features(${first} PRIVATE cxx_std_20)
  target_include_directories(${first} PUBLIC ${PROJECT_SOURCE_DIR}/include ${lakebound_made})
endfunction()
