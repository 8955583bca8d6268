# The screens and the program that shows them.
find_package(glfw3 REQUIRED)
find_package(OpenGL REQUIRED COMPONENTS OpenGL EGL)
pkg_check_modules(IMGUI REQUIRED IMPORTED_TARGET imgui)
add_library(squeezeout_client_files STATIC files.cc)
target_link_libraries(squeezeout_client_files PUBLIC squeezeout_flags)
foreach(room draft plan_ahead look settings alarm view panels bench board wall setup help platform)
  add_subdirectory(${room})
endforeach()

# No window and no ImGui: what is shown, and what presses and answers make of it.
add_library(squeezeout_client_session STATIC lay_out.cc session.cc)
target_link_libraries(squeezeout_client_session
  PRIVATE fmt::fmt
  PUBLIC squeezeout_client_plan_ahead squeezeout_client_panels squeezeout_client_bench squeezeout_client_board
         squeezeout_client_wall squeezeout_client_setup squeezeout_client_help)

# Sound, lamp and printer: no window.
add_library(squeezeout_client_outlets STATIC outlets.cc)
target_link_libraries(squeezeout_client_outlets
  PUBLIC squeezeout_client_view squeezeout_client_alarm squeezeout_client_sound squeezeout_client_commands
  PRIVATE squeezeout_client_label fmt::fmt)

add_library(squeezeout_client_app STATIC app.cc device.cc options.cc replay.cc studio.cc)
target_link_libraries(squeezeout_client_app
  PUBLIC squeezeout_client_session squeezeout_client_platform squeezeout_client_sync squeezeout_client_files
         squeezeout_client_outlets squeezeout_client_settings
  PRIVATE PkgConfig::IMGUI fmt::fmt)

add_executable(squeezeout-bench main.cc)
target_link_libraries(squeezeout-bench PRIVATE squeezeout_client_app fmt::fmt)
