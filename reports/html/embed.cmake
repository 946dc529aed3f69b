# Writes the files of a page into a source file: each as a PagePart, its text and its SHA-256 in base64.
#
#   cmake -D OUT=<page_parts.cpp> -D IN=<folder> -P embed.cmake
cmake_minimum_required(VERSION 3.25)

set(alphabet "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/")

# 32 bytes in hexadecimal to base64: three hexadecimal digits are two digits of base64.
function(base64_of_hex hex out)
  set(digits "${hex}00")
  set(result "")
  foreach(group RANGE 21)
    math(EXPR at "${group} * 3")
    string(SUBSTRING "${digits}" ${at} 3 three)
    math(EXPR high "(0x${three} >> 6) & 63")
    math(EXPR low "0x${three} & 63")
    string(SUBSTRING "${alphabet}" ${high} 1 first)
    string(SUBSTRING "${alphabet}" ${low} 1 second)
    string(APPEND result "${first}${second}")
  endforeach()
  string(SUBSTRING "${result}" 0 43 result)
  set(${out} "${result}=" PARENT_SCOPE)
endfunction()

set(source "// Written by embed.cmake.\n#include \"reports/html/page_parts.hpp\"\n\nnamespace insideline::reports {\n\n")
foreach(part IN ITEMS page_style=page.css page_script=page.js line_map_style=line_map.css player_style=player.css
                      address_script=address.js rows_script=rows.js line_map_script=line_map.js
                      schedule_script=schedule.js sound_script=sound.js loop_script=loop.js player_script=player.js
                      side_by_side_style=side_by_side.css side_by_side_script=side_by_side.js
                      survey_style=survey.css
                      stand_style=stand.css ask_script=ask.js remarks_script=remarks.js)
  string(REGEX MATCH "^([a-z_]+)=(.+)$" ignored "${part}")
  set(name "${CMAKE_MATCH_1}")
  file(READ "${IN}/${CMAKE_MATCH_2}" text)
  string(SHA256 hash "${text}")
  base64_of_hex("${hash}" hash)
  string(APPEND source "extern const PagePart ${name}{R\"page(${text})page\", \"${hash}\"};\n")
endforeach()
string(APPEND source "\n}  // namespace insideline::reports\n")
file(WRITE "${OUT}" "${source}")
