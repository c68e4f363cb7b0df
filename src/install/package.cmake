# SPDX-License-Identifier: GPL-3.0-or-later
# The Debian package, made by `cpack -G DEB` in the build's folder: what a plain install has, without headers and libraries
# (nothing but our programs uses them yet), and what a desktop and Debian's policy ask for besides.
#
# Components: "program" goes into the package, "devel" is installed by hand alone, "debian" is in the package alone.

# ---- desktop entry and icon -------------------------------------------------------------------
# Hand-drawn once, as SVG; the sizes that panels ask for are made of it where librsvg's program is there.
set(icons ${CMAKE_INSTALL_DATADIR}/icons/hicolor)
install(FILES ${CMAKE_SOURCE_DIR}/src/install/slowlift.desktop DESTINATION ${CMAKE_INSTALL_DATADIR}/applications
        COMPONENT program)
install(FILES ${CMAKE_SOURCE_DIR}/src/install/slowlift.svg DESTINATION ${icons}/scalable/apps COMPONENT program)
find_program(RSVG_CONVERT rsvg-convert)
if(RSVG_CONVERT)
  foreach(size 16 24 32 48 64 128 256)
    set(icon ${CMAKE_BINARY_DIR}/icons/${size}.png)
    add_custom_command(OUTPUT ${icon}
      COMMAND ${CMAKE_COMMAND} -E make_directory ${CMAKE_BINARY_DIR}/icons
      COMMAND ${RSVG_CONVERT} -w ${size} -h ${size} ${CMAKE_SOURCE_DIR}/src/install/slowlift.svg -o ${icon}
      DEPENDS ${CMAKE_SOURCE_DIR}/src/install/slowlift.svg VERBATIM)
    install(FILES ${icon} DESTINATION ${icons}/${size}x${size}/apps RENAME slowlift.png COMPONENT program)
    list(APPEND icons_made ${icon})
  endforeach()
  add_custom_target(icons ALL DEPENDS ${icons_made})
endif()

# ---- what Debian's policy asks for ------------------------------------------------------------
find_program(GZIP gzip)
if(GZIP)
  set(SLOWLIFT_MAINTAINER "slowlift's authors <slowlift@example.org>" CACHE STRING
      "Who answers for the Debian package, with an address; the default's is one for examples")
  set(in_debian ${CMAKE_BINARY_DIR}/debian)
  string(TIMESTAMP day "%a, %d %b %Y %H:%M:%S +0000" UTC)
  file(CONFIGURE OUTPUT ${in_debian}/changelog @ONLY NEWLINE_STYLE UNIX CONTENT
"slowlift (${PROJECT_VERSION}) stable; urgency=low

  * See /usr/share/doc/slowlift/changelog.md.gz for what changed for people.

 -- ${SLOWLIFT_MAINTAINER}  ${day}
")
  add_custom_command(OUTPUT ${in_debian}/changelog.gz ${in_debian}/changelog.md.gz
    COMMAND ${GZIP} -9nc changelog > changelog.gz
    COMMAND ${GZIP} -9nc ${CMAKE_SOURCE_DIR}/docs/changelog.md > changelog.md.gz
    WORKING_DIRECTORY ${in_debian} DEPENDS docs/changelog.md ${in_debian}/changelog VERBATIM)
  set(for_debian ${in_debian}/changelog.gz ${in_debian}/changelog.md.gz)
  install(FILES ${for_debian} src/install/copyright DESTINATION ${CMAKE_INSTALL_DOCDIR} COMPONENT debian EXCLUDE_FROM_ALL)
  if(NOT CMAKE_CROSSCOMPILING)
    add_custom_command(OUTPUT ${in_debian}/slowlift.1.gz
      COMMAND ${GZIP} -9nc ${CMAKE_BINARY_DIR}/slowlift.1 > ${in_debian}/slowlift.1.gz
      DEPENDS ${CMAKE_BINARY_DIR}/slowlift.1 VERBATIM)
    list(APPEND for_debian ${in_debian}/slowlift.1.gz)
    install(FILES ${in_debian}/slowlift.1.gz DESTINATION ${CMAKE_INSTALL_MANDIR}/man1 COMPONENT debian EXCLUDE_FROM_ALL)
    install(FILES ${CMAKE_BINARY_DIR}/_slowlift DESTINATION ${CMAKE_INSTALL_DATADIR}/zsh/vendor-completions
            COMPONENT debian EXCLUDE_FROM_ALL) # where Debian's zsh looks
  endif()
  if(SLOWLIFT_PAPER AND MSGFMT AND NOT CMAKE_CROSSCOMPILING)
    foreach(language en es)
      set(printed ${in_debian}/quick-start.${language}.pdf)
      add_custom_command(OUTPUT ${printed}
        COMMAND $<TARGET_FILE:slowlift_program> quick-start --language ${language} -o ${printed}
        DEPENDS slowlift_program slowlift_paper catalogues VERBATIM)
      install(FILES ${printed} DESTINATION ${CMAKE_INSTALL_DOCDIR} COMPONENT debian EXCLUDE_FROM_ALL)
      list(APPEND for_debian ${printed})
    endforeach()
  endif()
  add_custom_target(debian_files ALL DEPENDS ${for_debian})
endif()

# ---- CPack ----------------------------------------------------------------------------
set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME slowlift)
set(CPACK_PACKAGE_VENDOR "slowlift's authors")
set(CPACK_PACKAGE_CONTACT "${SLOWLIFT_MAINTAINER}")
set(CPACK_PACKAGE_VERSION ${PROJECT_VERSION})
set(CPACK_STRIP_FILES ON)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS
    OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_COMPONENTS_GROUPING ALL_COMPONENTS_IN_ONE)
set(CPACK_COMPONENTS_ALL program debian)
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_MAINTAINER "${SLOWLIFT_MAINTAINER}")
set(CPACK_DEBIAN_PACKAGE_SECTION education)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)
set(CPACK_DEBIAN_PACKAGE_DEPENDS "fonts-dejavu-core")
set(CPACK_DEBIAN_PACKAGE_RECOMMENDS "fonts-inter")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "slow removal of hair colour, computed and shown, for teaching")
set(CPACK_DEBIAN_PACKAGE_DESCRIPTION
"Compares direct-dye removers side by side on dyed swatches: what leaves when,
what the hair pays for it, and what changes with the mix, the warmth or the
time. A kinetic model computes it; it shows order and reasons, not minutes to
rely on, and it is not validated on hair.
.
With a window, sheets for a class, the clock of a day of swatches, a log of
what was seen, and lessons. In English and Spanish.")
include(CPack)
