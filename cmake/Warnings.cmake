# One INTERFACE target carries every flag; each target of ours links it PRIVATE.
add_library(quillbench_flags INTERFACE)
target_compile_options(quillbench_flags INTERFACE
    -Werror -Wall -Wextra -Wpedantic
    -Wshadow              # a hidden variable is a wrong variable
    -Wconversion -Wsign-conversion -Wdouble-promotion # units are doubles: nothing changes width unseen
    -Wold-style-cast -Wcast-align -Wcast-qual
    -Wnon-virtual-dtor -Woverloaded-virtual
    -Wnull-dereference -Wformat=2 -Wimplicit-fallthrough
    -Wswitch-enum         # a new choir or interval is handled everywhere
    -Wundef
    -fno-fast-math -ffp-contract=off # the same cents on every machine
    $<$<CXX_COMPILER_ID:Clang>:-Wreserved-identifier>
    $<$<CXX_COMPILER_ID:GNU>:-Wfloat-equal # Clang's refuses defaulted comparisons too; these sources meet GCC's
        -Wduplicated-cond -Wduplicated-branches -Wlogical-op -Wuseless-cast -Wsuggest-override
        # GCC 12 sees false overlaps and unset reads in std::string at -O3 (GCC bug 105651).
        -Wno-restrict -Wno-maybe-uninitialized
        # In a unity build a name of one source is no shadow on the next, and GCC 12 sees false null dereferences in
        # the standard library where more is inlined; dev compiles each source alone, with both.
        $<$<BOOL:${CMAKE_UNITY_BUILD}>:-Wno-subobject-linkage -Wno-shadow -Wno-null-dereference>>)
target_compile_definitions(quillbench_flags INTERFACE
    $<$<CONFIG:Debug>:_GLIBCXX_ASSERTIONS>)

if(QUILLBENCH_SANITIZE)
    target_compile_options(quillbench_flags INTERFACE
        -fsanitize=${QUILLBENCH_SANITIZE} -fno-sanitize-recover=all -fno-omit-frame-pointer
        # GCC 12 reports false null dereferences and uninitialised reads in instrumented code.
        -Wno-null-dereference $<$<CXX_COMPILER_ID:GNU>:-Wno-maybe-uninitialized>
        $<$<CXX_COMPILER_ID:Clang>:-fsanitize-ignorelist=${CMAKE_CURRENT_LIST_DIR}/not_ours.txt>)
    # With what Clang's sanitizers export the usual linker takes a minute for one program.
    target_link_options(quillbench_flags INTERFACE -fsanitize=${QUILLBENCH_SANITIZE}
        $<$<CXX_COMPILER_ID:Clang>:-fuse-ld=gold>)
endif()

# Added only where Qt is linked.
add_library(quillbench_qt_flags INTERFACE)
target_compile_definitions(quillbench_qt_flags INTERFACE
    QT_NO_KEYWORDS QT_NO_CAST_FROM_ASCII QT_NO_CAST_TO_ASCII QT_NO_FOREACH
    QT_DISABLE_DEPRECATED_BEFORE=0x060400)

# Tests compare for sameness where sameness is meant; compiling them takes longer than running them. Linked after
# quillbench_flags.
add_library(quillbench_test_flags INTERFACE)
target_compile_options(quillbench_test_flags INTERFACE -Wno-float-equal $<$<CONFIG:Release>:-O1>
    # GCC 12 sees false null dereferences in the library's streams at -O3.
    $<$<CXX_COMPILER_ID:GNU>:-Wno-null-dereference>)
if(QUILLBENCH_SANITIZE)
    target_compile_options(quillbench_test_flags INTERFACE -O0)
endif()
