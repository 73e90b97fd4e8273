# web_pages(OUT): the source that carries the built pages, made by tools/build_pages when something
# under web/ changed; where there is no npm, a source that carries none, and that is said.
function(web_pages OUT)
  find_program(NPM npm)
  if(NOT NPM)
    message(STATUS "npm is not here: the program is built without its pages")
    set(${OUT} ${CMAKE_SOURCE_DIR}/server/no_pages.cpp PARENT_SCOPE)
    return()
  endif()
  set(made ${CMAKE_BINARY_DIR}/generated/web_pages.cpp)
  file(GLOB_RECURSE sources CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/web/src/* ${CMAKE_SOURCE_DIR}/web/public/*)
  add_custom_command(OUTPUT ${made}
    COMMAND ${CMAKE_SOURCE_DIR}/tools/build_pages ${made}
    DEPENDS ${sources} ${CMAKE_SOURCE_DIR}/web/index.html ${CMAKE_SOURCE_DIR}/web/package-lock.json
            ${CMAKE_SOURCE_DIR}/web/vite.config.ts ${CMAKE_SOURCE_DIR}/web/tools/embed.mjs
            ${CMAKE_SOURCE_DIR}/tools/build_pages
    COMMENT "Building the pages" VERBATIM)
  set(${OUT} ${made} PARENT_SCOPE)
endfunction()
