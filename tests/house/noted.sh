#!/bin/sh
# noted.sh FOLDER NAME COMMAND...: runs the command and notes in FOLDER/NAME.xml that it ran, and how,
# in the form that the Boost tests use. 77 means: could not be tried here.
folder=$1 name=$2
shift 2
"$@"
status=$?
case $status in
  0) body= ;;
  77) body='<skipped/>' ;;
  *) body="<failure message=\"exit $status\"/>" ;;
esac
printf '<testsuite name="script">\n<testcase name="%s">%s</testcase>\n</testsuite>\n' "$name" "$body" >"$folder/$name.xml"
exit $status
