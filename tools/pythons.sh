#!/bin/sh
# Fetch other versions of Python, to try the program on each: 3.13 and 3.14 from Debian's packages
# (of newer releases, unpacked beside the system, never installed), 3.12 as Pyodide by npm.
# Each becomes a command .venv/pythons/python3.NN; one that cannot be had is said on stderr.
set -u
cd -- "$(dirname -- "$0")/.."
to=$PWD/.venv/pythons
mkdir -p "$to"

missing() {
    printf '%s\n' "Python $1 could not be fetched: it is NOT tested on this machine." >&2
}

keys=/usr/share/keyrings/debian-archive-keyring.gpg
apt() {
    apt-get -qq -o Dir::Etc::sourcelist="$to/apt/sources.list" -o Dir::Etc::sourceparts=/dev/null \
        -o Dir::State::lists="$to/apt/lists" -o Dir::Cache="$to/apt/cache" \
        -o APT::Sandbox::User=root "$@"
}

debian() {
    version=$1 suite=$2 ssl=libssl3t64
    command -v apt-get >/dev/null && [ "$(dpkg --print-architecture)" = amd64 ] || return 1
    mkdir -p "$to/apt/lists/partial" "$to/apt/cache/archives/partial" "$to/$version"
    mirror=$(apt-get indextargets --format '$(REPO_URI)' 'Created-By: Packages' |
        grep '/debian/$' | head -n 1)
    echo "deb [signed-by=$keys] $mirror $suite main" >"$to/apt/sources.list"
    apt update || return 1
    (
        cd "$to/$version" && apt download libc6 zlib1g libexpat1 libffi8 libbz2-1.0 liblzma5 libzstd1 \
            "libpython$version-minimal" "libpython$version-stdlib" "python$version-minimal" "$ssl"
    ) || return 1
    for package in "$to/$version"/*.deb; do
        dpkg-deb -x "$package" "$to/$version" || return 1
        rm "$package"
    done
    lib=$to/$version/usr/lib/x86_64-linux-gnu
    cat >"$to/python$version.new" <<END
#!/bin/sh
# Its own loader and libraries, beside those of the system.
PYTHONHOME=$to/$version/usr exec "$lib/ld-linux-x86-64.so.2" --library-path "$lib" \\
    "$to/$version/usr/bin/python$version" "\$@"
END
}

pyodide() {
    version=$1 release=$2 digest=$3
    command -v npm >/dev/null && command -v node >/dev/null || return 1
    mkdir -p "$to/$version"
    (
        cd "$to/$version" && npm pack --silent "pyodide@$release" >/dev/null &&
            echo "$digest  pyodide-$release.tgz" | sha512sum --check --quiet &&
            tar -xzf pyodide-*.tgz && rm pyodide-*.tgz
    ) || return 1
    cat >"$to/python$version.new" <<END
#!/bin/sh
exec node "$PWD/tools/pyodide.mjs" "$to/$version/package/pyodide.mjs" "\$@"
END
}

fetch() {
    version=$1
    shift
    [ -x "$to/python$version" ] && return 0
    if "$@" && chmod +x "$to/python$version.new" &&
        [ "$("$to/python$version.new" -c 'import sys, zlib; print("%d.%d" % sys.version_info[:2])')" = "$version" ]; then
        mv "$to/python$version.new" "$to/python$version"
    else
        missing "$version"
    fi
}

fetch 3.13 debian 3.13 trixie
fetch 3.14 debian 3.14 sid
fetch 3.12 pyodide 3.12 0.27.7 \
    45449526585075f59f80ef615470a25e81be9d5650452e43f45ce0a4b27f55c80604b4802a83cbf244e23a29316c7426d6444849e59405dba51203b6eaaa5244
rm -rf "$to/apt"
