function(run)
  execute_process(COMMAND ${ARGV} RESULT_VARIABLE status OUTPUT_VARIABLE out ERROR_VARIABLE err)
  if(NOT status EQUAL 0)
    message(FATAL_ERROR "failed: ${ARGV}\n${out}\n${err}")
  endif()
  set(output "${out}" PARENT_SCOPE)
endfunction()

set(installed ${SCRATCH}/installed)
file(REMOVE_RECURSE ${SCRATCH})
run(${CMAKE_COMMAND} --install ${BUILD} --prefix ${installed})
foreach(file bin/flinch share/man/man1/flinch.1.gz share/man/man1/flinch-call.1.gz share/doc/flinch/LICENSE
    share/doc/flinch/language.md share/doc/flinch/language_reference.md share/doc/flinch/examples/bramble.yaml
    share/doc/flinch/assessment.schema.json
    share/flinch/packs/canine/pack.flinch share/flinch/editors/flinch.vim include/flinch/model/load.hpp
    share/bash-completion/completions/flinch share/zsh/site-functions/_flinch
    share/fish/vendor_completions.d/flinch.fish)
  if(NOT EXISTS ${installed}/${file})
    message(FATAL_ERROR "not installed: ${file}")
  endif()
endforeach()

# The page of the library shows this program, and shows it as it is.
file(READ ${ROOT}/docs/api.md page)
foreach(shown main.cpp CMakeLists.txt)
  file(READ ${SOURCE}/${shown} text)
  string(FIND "${page}" "\n${text}```" at)
  if(at EQUAL -1)
    message(FATAL_ERROR "docs/api.md does not show ${shown} as it is")
  endif()
endforeach()
run(${CMAKE_COMMAND} -G Ninja -S ${SOURCE} -B ${SCRATCH}/build -DCMAKE_PREFIX_PATH=${installed}
  -DCMAKE_CXX_COMPILER=${COMPILER})
run(${CMAKE_COMMAND} --build ${SCRATCH}/build)
run(${SCRATCH}/build/consumer ${installed}/share/flinch/packs/canine ${installed}/share/doc/flinch/examples/bramble.yaml)
if(NOT output MATCHES "^how soon: Book a visit\nfirst: Elbow osteoarthritis\n")
  message(FATAL_ERROR "unexpected output: ${output}")
endif()
run(${installed}/bin/flinch --version)

# What README says of taking it away again.
file(STRINGS ${BUILD}/install_manifest.txt files)
file(REMOVE ${files})
file(GLOB_RECURSE left LIST_DIRECTORIES false ${installed}/*)
if(left)
  message(FATAL_ERROR "left behind: ${left}")
endif()
