# Who may include whom. Reads C++ files, named from the top of the checkout; prints a complaint for
# each broken rule and fails when there is one. Run by tools/check_layers.

BEGIN {
  order = "server, client, tools -> {proto, report} -> floor -> plan -> craft -> {gear, trade} -> time -> base; floor -> schedule -> base"
  base = " common/base "
  time = base "common/time "
  sees["common/base"] = base
  sees["common/time"] = time
  sees["common/gear"] = time "common/gear "
  sees["common/trade"] = time "common/trade "
  craft = time "common/gear common/trade common/craft "
  plan = craft "common/plan "
  floor = plan "common/schedule common/floor "
  sees["common/schedule"] = base "common/schedule "
  sees["common/craft"] = craft
  sees["common/plan"] = plan
  sees["common/floor"] = floor
  sees["common/report"] = floor "common/report "
  sees["proto"] = floor "proto "
  edge = floor "common/report proto "
  sees["server"] = edge "server "
  shared = edge "client/sync client/words client/label "  # the mirror, its words and labels, which know no window
  sees["client/sync"] = shared
  sees["client/words"] = shared
  sees["client/label"] = shared
  sees["client"] = shared "client "
  sees["tools"] = shared "tools "
  sees["tests"] = shared "server client tools tests "
}

# "common/plan/slot.h" -> "common/plan", "server/store/store.h" -> "server", "vector" -> "";
# of client/ only sync, words and label are layers of their own.
function layer(path,    parts) {
  if (path !~ /^(common|proto|server|client|tools|tests)\//) return ""
  split(path, parts, "/")
  return parts[1] == "common" || path ~ /^client\/(sync|words|label)\// ? parts[1] "/" parts[2] : parts[1]
}

function complain(what, rule, mend) {
  printf "%s:%d: %s\n  rule: %s\n  mend: %s\n", FILENAME, FNR, what, rule, mend
  broken++
}

function in_folders(folders) { return FILENAME ~ "^(" folders ")/" }

FNR == 1 {
  here = layer(FILENAME)
  if (!(here in sees)) complain("no layer holds this file", order, "move it to one of these folders")
}

in_folders("common") && FILENAME != "common/time/zone.cc" {
  code = $0
  sub(/\/\/.*/, "", code)
  if (code ~ /_clock::now|[^_a-z](time|gettimeofday|clock_gettime) *\( *(NULL|nullptr|0|&)/)
    complain("asks what time it is", "common/ has no \"now\": time is data",
             "take the Instant as a parameter; server/ and client/ read a Clock")
}

!match($0, /^[ \t]*#[ \t]*include[ \t]*[<"][^>"]+/) { next }

{
  name = substr($0, RSTART, RLENGTH)
  quoted = name ~ /"/
  sub(/^[^<"]*[<"]/, "", name)
  what = "includes " (quoted ? "\"" name "\"" : "<" name ">")
  there = layer(name)
}

name ~ /\.pb\.h$|^google\/protobuf\// {
  if (FILENAME !~ /^proto\/[^\/]*\.cc$/)
    complain(what, "generated protobuf code is seen only in proto/*.cc",
             "include \"proto/codec.h\" and use the types of common/")
  next
}

there != "" {
  if (!(there in sees))
    complain(what, order, "there is no such layer; is the path right?")
  else if ((here in sees) && index(sees[here], " " there " ") == 0)
    complain(what ": " here " may not see " there, order,
             "move what both need to a layer on the right, or hand it in as a parameter")
  next
}

name ~ /(^|\/)imgui[a-z0-9_]*\.h$/ {
  if (FILENAME !~ /^client\/(.*_draw\.cc|app\.cc|platform\/.*)$/ && !in_folders("tests/ui"))
    complain(what, "ImGui is seen only in client/**/*_draw.cc, client/app.cc, client/platform/, tests/ui/",
             "lay the frame out in *_model and draw it in *_draw.cc")
}
name == "sqlite3.h" {
  if (!in_folders("server/store/sqlite|tests"))
    complain(what, "SQLite is seen only in server/store/sqlite/ and tests/",
             "use the interface in \"server/store/store.h\"")
}
name ~ /^boost\// {
  if (!in_folders("server|client/sync|tools|tests"))
    complain(what, "Boost is seen only in server/, client/sync/, tools/ and tests/",
             "put sockets behind the connection of client/sync/")
}
name ~ /^date\// {
  if (FILENAME != "common/time/zone.cc" && !in_folders("tests"))
    complain(what, "time zone data is read only in common/time/zone.cc", "use \"common/time/zone.h\"")
}
in_folders("common") {
  if (name ~ /^(iostream|fstream|ostream|istream|filesystem|thread|mutex|shared_mutex|future|condition_variable)$/)
    complain(what, "common/ does no I/O and starts no threads",
             "move this to server/ or client/, and hand common/ the values")
  else if (name ~ /\/|\.h(pp)?$/ && name !~ /^(date|boost)\/|imgui|^sqlite3\.h$/)
    complain(what, "common/ uses the standard library only", "write it with the standard library")
}
quoted { complain(what, "own headers are named from the top; others stand in <>",
                  "write \"folder/.../" name "\" from the top, or <" name ">") }

END { exit broken > 0 }
