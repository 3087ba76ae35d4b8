message(FATAL_ERROR "no python3 in /usr/bin: the written files cannot be read back; "
                    "install python3, python3-vtk9 and python3-meshio")
