# tubewright_join_scripts(OUT DIRECTORY FILES...): the modules FILES of a folder as one script.
#
# A page that is one file cannot load modules, but modules tell linters and readers what each file
# uses. The lines `import {...} from "...";` and the word `export` go; what remains stands in one
# scope, so a name stands for one thing in all files, and a file follows those it needs at once.
function(tubewright_join_scripts out directory)
  set(joined "")
  foreach(file ${ARGN})
    file(READ ${directory}/${file} text)
    string(REGEX REPLACE "import {[^}]*} from \"[^\"]*\";\n" "" text "${text}")
    string(REGEX REPLACE "\nexport " "\n" text "${text}")
    if(text MATCHES "\n(import|export) ")
      message(FATAL_ERROR "${directory}/${file}: an import or export that cannot be joined")
    endif()
    string(APPEND joined "${text}\n")
  endforeach()
  set(${out} "\"use strict\";\n\n${joined}" PARENT_SCOPE)
endfunction()
