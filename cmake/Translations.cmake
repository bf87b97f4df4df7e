# The window's texts in other languages. resources/translations/quillbench_LANGUAGE.ts is what people edit; the compiled
# form is made in the build folder. The target `translations` brings the .ts up to the sources.
set(QUILLBENCH_LANGUAGES de)

# quillbench_translate(TARGET): the translations as resources under ":/translations".
function(quillbench_translate target)
    set(from ${PROJECT_SOURCE_DIR}/resources/translations)
    set(to ${PROJECT_BINARY_DIR}/translations)
    foreach(language IN LISTS QUILLBENCH_LANGUAGES)
        set(name quillbench_${language})
        add_custom_command(OUTPUT ${to}/${name}.qm
            COMMAND Qt6::lrelease -silent ${from}/${name}.ts -qm ${to}/${name}.qm
            DEPENDS ${from}/${name}.ts VERBATIM COMMENT "Translating: ${name}.qm")
        list(APPEND compiled ${to}/${name}.qm)
        list(APPEND renewals COMMAND Qt6::lupdate -silent -no-obsolete -locations none -no-ui-lines
             -target-language ${language} -I . app -ts ${from}/${name}.ts)
    endforeach()
    configure_file(${from}/translations.qrc ${to}/translations.qrc COPYONLY)
    # moc and rcc run before anything of the target is compiled: they need the compiled translations by then.
    add_custom_target(${target}_translations DEPENDS ${compiled})
    set_property(TARGET ${target} APPEND PROPERTY AUTOGEN_TARGET_DEPENDS ${target}_translations)
    target_sources(${target} PRIVATE ${to}/translations.qrc)
    add_custom_target(translations ${renewals} WORKING_DIRECTORY ${PROJECT_SOURCE_DIR} VERBATIM)
endfunction()
