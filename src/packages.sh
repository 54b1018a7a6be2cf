#!/bin/sh
# The one list of Debian packages Pritchel needs, and the one place that installs them.
#   sh src/packages.sh build    what the program needs
#   sh src/packages.sh tests    that and what the tests need
# Prints one line when there is nothing to do; uses sudo only when it isn't run as root.
set -eu

build="g++ cmake ninja-build ccache pkg-config file
  libdcmtk-dev libopenjp2-7-dev libcharls-dev libopencv-dev libcairo2-dev libpango1.0-dev libpoppler-cpp-dev libqpdf-dev
  nlohmann-json3-dev libsqlite3-dev libcpp-httplib-dev libcli11-dev libeigen3-dev libexpected-dev
  libboost-dev libfmt-dev libssl-dev fonts-inter fonts-dejavu-core"
tests="catch2 libbenchmark-dev libnlopt-dev clang-format clang-tidy dcmtk dicom3tools qpdf poppler-utils chromium
  nodejs python3 python3-jsonschema python3-pil python3-numpy python3-scipy curl git"

case "${1:-build}" in
  build) wanted=$build ;;
  tests) wanted="$build $tests" ;;
  *) echo "packages.sh: say 'build' or 'tests'" >&2; exit 2 ;;
esac
# A Node.js that didn't come from Debian serves as well.
if command -v node >/dev/null 2>&1; then wanted=$(echo "$wanted" | sed 's/nodejs//'); fi
if [ "${1:-build}" = tests ] && ! command -v npm >/dev/null 2>&1; then wanted="$wanted npm"; fi

missing=""
for package in $wanted; do
  state=$(dpkg-query -W -f='${db:Status-Status}' "$package" 2>/dev/null || true)
  [ "$state" = installed ] || missing="$missing $package"
done
if [ -z "$missing" ]; then
  echo "packages: all there"
  exit 0
fi
echo "packages: installing$missing"
as_root=""
[ "$(id -u)" = 0 ] || as_root=sudo
$as_root env DEBIAN_FRONTEND=noninteractive apt-get update -q
# shellcheck disable=SC2086  # a list of words on purpose
$as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -q --no-install-recommends $missing
