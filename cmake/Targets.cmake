# quillbench_library(NAME LINK public... PRIVATE private...): an empty library of ours; each room adds to it.
function(quillbench_library name)
    cmake_parse_arguments(arg "" "" "LINK;PRIVATE" ${ARGN})
    add_library(${name} STATIC)
    target_sources(${name} PUBLIC FILE_SET HEADERS BASE_DIRS ${PROJECT_SOURCE_DIR})
    target_include_directories(${name} PUBLIC ${PROJECT_SOURCE_DIR})
    target_link_libraries(${name} PUBLIC ${arg_LINK} PRIVATE quillbench_flags ${arg_PRIVATE})
endfunction()

# In a unity build (CMAKE_UNITY_BUILD: every preset but dev and bench) the sources of one room are compiled as one:
# names in unnamed namespaces are their room's own.
# quillbench_own(NAME...): what is set on every target of ours. Headers are tidied through the sources that include
# them, not once more where each is compiled alone.
function(quillbench_own)
    set_target_properties(${ARGV} PROPERTIES
        UNITY_BUILD_BATCH_SIZE 0
        UNITY_BUILD_CODE_BEFORE_INCLUDE "// NOLINTNEXTLINE(bugprone-suspicious-include)" # which is meant
        CXX_CLANG_TIDY "${QUILLBENCH_CLANG_TIDY}")
endfunction()

# quillbench_unhurried(NAME...): targets that compute little. Compiling them takes longer than running them: they are
# optimised less, under a sanitizer not at all.
function(quillbench_unhurried)
    foreach(name IN LISTS ARGV)
        if(QUILLBENCH_SANITIZE)
            target_compile_options(${name} PRIVATE -O0)
        else()
            target_compile_options(${name} PRIVATE $<$<CONFIG:Release>:-O1>)
        endif()
    endforeach()
endfunction()

# quillbench_guided(NAME...): what reads files. The fuzz targets are guided by the paths they take there.
function(quillbench_guided)
    if(QUILLBENCH_BUILD_FUZZERS)
        foreach(name IN LISTS ARGV)
            target_compile_options(${name} PRIVATE -fsanitize=fuzzer-no-link)
        endforeach()
    endif()
endfunction()

# quillbench_sources(NAME HEADERS a.hpp... SOURCES a.cpp...): what one room puts into the library.
function(quillbench_sources name)
    cmake_parse_arguments(arg "" "" "HEADERS;SOURCES" ${ARGN})
    set(headers ${arg_HEADERS})
    list(TRANSFORM headers PREPEND ${CMAKE_CURRENT_SOURCE_DIR}/)
    target_sources(${name} PUBLIC FILE_SET HEADERS BASE_DIRS ${PROJECT_SOURCE_DIR} FILES ${headers})
    set(sources ${arg_SOURCES})
    list(TRANSFORM sources PREPEND ${CMAKE_CURRENT_SOURCE_DIR}/)
    target_sources(${name} PRIVATE ${sources})
    quillbench_own(${name})
    set_target_properties(${name} PROPERTIES UNITY_BUILD_MODE GROUP)
    file(RELATIVE_PATH room ${PROJECT_SOURCE_DIR} ${CMAKE_CURRENT_SOURCE_DIR})
    string(MAKE_C_IDENTIFIER ${room} room)
    set_source_files_properties(${sources} TARGET_DIRECTORY ${name} PROPERTIES UNITY_GROUP ${room})
endfunction()

# quillbench_add_test(NAME LINK target... SOURCES file... [LABELS label...]): a Catch2 program, one ctest for it.
# Under a sanitizer cases tagged [slow] are left out, unless the whole program has that label.
function(quillbench_add_test name)
    cmake_parse_arguments(arg "" "" "LINK;SOURCES;LABELS" ${ARGN})
    set(cases)
    if(QUILLBENCH_SANITIZE AND NOT "slow" IN_LIST arg_LABELS)
        set(cases "~[slow]")
    endif()
    add_executable(${name} ${arg_SOURCES})
    quillbench_own(${name})
    target_include_directories(${name} PRIVATE ${PROJECT_SOURCE_DIR})
    target_compile_definitions(${name} PRIVATE
        QUILLBENCH_GOLDEN_DIR="${PROJECT_SOURCE_DIR}/tests/golden"
        QUILLBENCH_RESOURCE_DIR="${PROJECT_SOURCE_DIR}/resources")
    target_link_libraries(${name} PRIVATE Catch2::Catch2WithMain quillbench_flags quillbench_test_flags ${arg_LINK})
    add_test(NAME ${name} COMMAND ${name} ${cases})
    set_tests_properties(${name} PROPERTIES LABELS "${arg_LABELS}" TIMEOUT 600)
endfunction()
