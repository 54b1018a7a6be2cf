#!/bin/sh
# From a fresh Debian to the sample case on the screen.
#   sh src/start.sh              sets up, builds, makes the sample case, writes its papers, serves the page
#   sh src/start.sh --no-serve   all but serving
#   sh src/start.sh --port 8000  another port
# The sample case lands in ./sample; running again keeps what you changed there.
set -eu
cd "$(dirname "$0")/.."

serve=yes
port=7480
while [ $# -gt 0 ]; do
  case "$1" in
    --no-serve) serve=no ;;
    --port) port=${2:?--port wants a number}; shift ;;
    *) echo "start.sh: '$1' is not known; say --no-serve or --port N" >&2; exit 2 ;;
  esac
  shift
done

echo "1 of 4: packages"
sh src/packages.sh build

echo "2 of 4: building (a few minutes the first time)"
cmake -S . -B build/start -G Ninja -Wno-dev > build-start.tmp 2>&1 || { cat build-start.tmp; exit 1; }
rm -f build-start.tmp
ninja -C build/start pritchel

pritchel=build/start/bin/pritchel
echo "3 of 4: the sample case, in ./sample"
$pritchel demo sample

echo "4 of 4: the papers of its two visits"
for visit in 1 2; do
  $pritchel report --store sample --visit $visit --out sample/paper-visit-$visit.pdf
  echo "  sample/paper-visit-$visit.pdf"
done

if [ "$serve" = yes ]; then
  exec $pritchel serve --store sample --port "$port"
fi
