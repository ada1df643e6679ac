# Debian packages, named once. Sourced by the other scripts.

# What the program is built from, and the fonts that its checklists are set in.
BUILD_PACKAGES="g++ cmake ninja-build pkg-config libyaml-cpp-dev libcmark-gfm-dev libcmark-gfm-extensions-dev libpugixml-dev
  libcli11-dev libfmt-dev nlohmann-json3-dev libre2-dev libicu-dev libhyphen-dev libharfbuzz-dev libfreetype-dev libhpdf-dev
  libpng-dev zlib1g-dev libdeflate-dev libssl-dev hyphen-en-gb hyphen-en-us fonts-sil-gentiumplus fonts-dejavu-core"

# What the tests need beside them.
TEST_PACKAGES="doctest-dev qpdf mupdf-tools poppler-utils cmark-gfm python3 python3-yaml git"

# Installs what is missing of the packages named.
install_packages() {
  missing=""
  for package in "$@"; do
    dpkg-query -W -f='${db:Status-Status}' "$package" 2>/dev/null | grep -qx installed || missing="$missing $package"
  done
  [ -z "$missing" ] && return 0
  echo "installing:$missing"
  sudo=""
  [ "$(id -u)" -eq 0 ] || sudo=sudo
  $sudo apt-get update -qq
  # shellcheck disable=SC2086
  DEBIAN_FRONTEND=noninteractive $sudo apt-get install -y -qq --no-install-recommends $missing >/dev/null
}

# node and npm: from Debian unless the machine has them already.
install_node() {
  command -v node >/dev/null 2>&1 || install_packages nodejs
  command -v npm >/dev/null 2>&1 || install_packages npm
}
