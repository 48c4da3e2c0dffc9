# Shared by ./sample and ./test: the project's own environment in .venv, made on first use.
#
# prepare [EXTRA]  makes it where it is missing, and installs the project into it, with the extra's
# packages, those of the tests in the versions of tools/pinned.txt (tools/raise-pins makes it anew).
# Nothing is downloaded again until one of both files changes.
# fetch_from_npm   fetches what judges web pages and workbooks in the tests, by npm where there is one,
#                  in the versions of tools/npm/package-lock.json.

say() {
    printf '%s\n' "$*" >&2
}

find_python() {
    for candidate in ${PYTHON:-} python3 python3.14 python3.13 python3.12 python3.11 python; do
        if "$candidate" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; then
            printf '%s\n' "$candidate"
            return 0
        fi
    done
    say "Python 3.11 or newer was not found. Install it (Debian, Ubuntu: apt-get install python3"
    say "python3-venv; else https://www.python.org), or name it: PYTHON=/path/to/python3 $0"
    return 1
}

make_environment() {
    python=$(find_python)
    if ! "$python" -c 'import ensurepip, venv' 2>/dev/null; then
        say "This Python cannot make environments: its venv module is missing."
        say "On Debian or Ubuntu: apt-get install python3-venv"
        return 1
    fi
    say "Making an environment in .venv (once) ..."
    "$python" -m venv --clear .venv
}

fetch_from_npm() {
    cmp -s tools/npm/package-lock.json .venv/node/fetched && return 0
    if ! command -v npm >/dev/null; then
        say "npm is missing: the tests that judge web pages by axe-core, and workbooks by a validator"
        say "and by two readers, will be SKIPPED. To run them: apt-get install npm, then again."
        return 0
    fi
    mkdir -p .venv/node
    cp tools/npm/package.json tools/npm/package-lock.json tools/npm/.npmrc .venv/node
    # No package needs to run anything of its own here.
    npm ci --silent --ignore-scripts --prefix .venv/node >/dev/null
    cp tools/npm/package-lock.json .venv/node/fetched
}

pins=tools/pinned.txt

write_pins() {
    {
        echo "# What the gate runs with, exactly. Written by tools/raise-pins."
        "$1" -m pip freeze --disable-pip-version-check --exclude-editable | LC_ALL=C sort -f
    } >"$pins"
}

prepare() {
    extra=${1:-}
    if ! .venv/bin/python -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; then
        make_environment
    fi
    stamp=.venv/installed${extra:+-$extra}
    if ! cat pyproject.toml ${extra:+"$pins"} | cmp -s - "$stamp"; then
        say "Installing reportgen${extra:+ and what its ${extra}s need} ..."
        .venv/bin/python -m pip install --quiet --disable-pip-version-check \
            ${extra:+--constraint "$pins"} --editable ".${extra:+[$extra]}"
        cat pyproject.toml ${extra:+"$pins"} >"$stamp"
    fi
}
