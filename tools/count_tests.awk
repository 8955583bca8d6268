# Reads ctest's JUnit report; prints a line for each test program, then "N passed, N failed".
# Fails when anything failed or nothing passed.

function attribute(name,    at, rest) {
  at = index($0, " " name "=\"")
  if (!at) return ""
  rest = substr($0, at + length(name) + 3)
  return substr(rest, 1, index(rest, "\"") - 1)
}

/<testcase / {
  program = attribute("name")
  status = attribute("status")
  seconds = attribute("time")
  passed = failed = skipped = 0
}
/<skipped message="SKIP_/ { status = "skip" }  # else "notrun": its program is missing
# GoogleTest's summary, a line in the program's output.
/^\[  PASSED  \] [0-9]+ test/  { passed += $4 }
/^\[  SKIPPED \] [0-9]+ test/  { skipped += $4 }
/^\[  FAILED  \] [0-9]+ test/  { failed += $4 }
/<\/testcase>/ {
  if (status == "run") { if (passed + failed + skipped == 0) passed = 1 }
  else if (status == "skip" || status == "disabled") skipped = 1
  else if (failed == 0) failed = 1
  printf "%-36s %6d passed %4d failed %8.2f s%s\n", program, passed, failed, seconds,
         skipped ? "   (" skipped " skipped)" : ""
  programs++
  all_passed += passed; all_failed += failed; all_skipped += skipped
}
END {
  printf "%d test programs", programs
  if (all_skipped) printf ", %d skipped", all_skipped
  printf "\n%d passed, %d failed\n", all_passed, all_failed
  exit all_failed > 0 || all_passed == 0
}
