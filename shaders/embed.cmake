# Writes OUTPUT, a C++ source that holds every shader text of INPUTS as a raw string literal.
# Run as: cmake -DOUTPUT=... -DINPUTS=a.glsl,b.glsl -P embed.cmake
string(REPLACE "," ";" INPUTS "${INPUTS}")
set(TEXT "#include \"draw/shader_sources.hpp\"\n\nnamespace podwright {\n\n")
string(APPEND TEXT "std::string_view shader_source(std::string_view name) {\n")
foreach(FILE ${INPUTS})
  get_filename_component(NAME ${FILE} NAME_WE)
  file(READ ${FILE} BODY)
  string(APPEND TEXT "    if (name == \"${NAME}\") return R\"GLSL(${BODY})GLSL\";\n")
endforeach()
string(APPEND TEXT "    return {};\n}\n\n}  // namespace podwright\n")
file(WRITE ${OUTPUT} "${TEXT}")
