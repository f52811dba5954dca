# What `cmake --install` puts beside the program, and the Debian packages that `cpack` makes: `flinch`, and
# `libflinch-dev` for programs of others.
set(docs ${CMAKE_INSTALL_DOCDIR})
find_program(FLINCH_GZIP gzip REQUIRED)

# Without the time and the name of the file: the same bytes each time.
function(flinch_packed source output)
  add_custom_command(OUTPUT ${output} COMMAND sh -c "${FLINCH_GZIP} -9nc '${source}' > '${output}'"
    DEPENDS ${source} VERBATIM)
endfunction()
set(changelog ${CMAKE_CURRENT_BINARY_DIR}/changelog.gz)
flinch_packed(${CMAKE_CURRENT_SOURCE_DIR}/package/changelog ${changelog})
add_custom_target(flinch_changelog ALL DEPENDS ${changelog})

install(TARGETS flinch RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR} COMPONENT program)
# Two folders below lib: what lies higher CPack holds for a library of others, and has `ldconfig` look for it.
install(TARGETS flinch_server_driver LIBRARY DESTINATION ${CMAKE_INSTALL_LIBDIR}/flinch/drivers COMPONENT program)
install(DIRECTORY ${PROJECT_SOURCE_DIR}/rules/canine DESTINATION ${CMAKE_INSTALL_DATADIR}/flinch/packs COMPONENT program)
install(DIRECTORY ${PROJECT_SOURCE_DIR}/docs/editors DESTINATION ${CMAKE_INSTALL_DATADIR}/flinch COMPONENT program)
install(DIRECTORY ${flinch_manual}/ DESTINATION ${CMAKE_INSTALL_MANDIR}/man1 COMPONENT program
  FILES_MATCHING PATTERN "*.1.gz")
install(FILES complete/flinch.bash RENAME flinch
  DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions COMPONENT program)
install(FILES complete/flinch.fish DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d COMPONENT program)
# Debian's zsh looks in another folder for what packages bring than for what stands in /usr/local.
install(CODE "
  set(folder site-functions)
  if(CMAKE_INSTALL_PREFIX STREQUAL /usr)
    set(folder vendor-completions)
  endif()
  file(INSTALL ${CMAKE_CURRENT_SOURCE_DIR}/complete/_flinch
    DESTINATION \${CMAKE_INSTALL_PREFIX}/${CMAKE_INSTALL_DATADIR}/zsh/\${folder})"
  COMPONENT program)
install(DIRECTORY ${PROJECT_SOURCE_DIR}/docs/ DESTINATION ${docs} COMPONENT program
  PATTERN editors EXCLUDE PATTERN cases EXCLUDE)
install(DIRECTORY ${PROJECT_SOURCE_DIR}/docs/cases/ DESTINATION ${docs}/examples COMPONENT program)
install(FILES ${PROJECT_SOURCE_DIR}/README.md DESTINATION ${docs} COMPONENT program)
# In Debian the licence stands in `copyright` alone.
install(FILES ${PROJECT_SOURCE_DIR}/LICENSE DESTINATION ${docs} COMPONENT licence)
install(FILES package/copyright ${changelog} DESTINATION ${docs} COMPONENT program)
install(FILES package/copyright ${changelog} DESTINATION ${CMAKE_INSTALL_DATADIR}/doc/libflinch-dev
  COMPONENT library)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME flinch)
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "pain triage for animals, by packs of rules")
set(CPACK_PACKAGE_VENDOR "The Flinch contributors")
set(CPACK_PACKAGE_CONTACT "The Flinch contributors <maintainers@flinch.invalid>")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_PROJECT_CONFIG_FILE ${CMAKE_CURRENT_SOURCE_DIR}/package/time.cmake)
set(CPACK_STRIP_FILES ON)
set(CPACK_COMPONENTS_ALL program library)
set(CPACK_PRE_BUILD_SCRIPTS ${CMAKE_CURRENT_SOURCE_DIR}/package/permissions.cmake)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME flinch)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PROGRAM_DESCRIPTION "Takes the signs of an animal that may be hurting and gives back how soon it
must be seen, where it hurts, the likely causes with their reasons and
sources, and what is safe to do until then. It supports people who decide; it
does not diagnose, and a licensed veterinarian decides.")
set(CPACK_DEBIAN_LIBRARY_PACKAGE_NAME libflinch-dev)
set(CPACK_DEBIAN_LIBRARY_PACKAGE_SECTION libdevel)
set(CPACK_DEBIAN_LIBRARY_PACKAGE_DEPENDS "libfmt-dev, libyaml-cpp-dev, libsimdjson-dev, libutf8proc-dev")
set(CPACK_DEBIAN_LIBRARY_DESCRIPTION "The rules engine behind flinch as a static library for C++20, with its
headers and what CMake needs to find it: packs in the rule language, cases,
assessments with their reasons, care at home.")
include(CPack)
