"""`python3 -m app [test]`: make the environment if it is missing or stale, then hand over to it.

Standard library only, and readable by old Pythons, since it runs before anything is installed.
"""

import hashlib
import os
import shutil
import subprocess
import sys

ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
ENVIRONMENT = os.path.join(ROOT, ".venv")
FOLDER = "Scripts" if os.name == "nt" else "bin"
PYTHON = os.path.join(ENVIRONMENT, FOLDER, "python")
STAMP = os.path.join(ENVIRONMENT, "throughline-locks")
LOCKS = {"serve": "requirements.lock", "test": "requirements-test.lock"}


def main(arguments):
    """Set up what the first argument needs and run it; the exit status is the command's own."""
    words = arguments or ["serve"]
    need = "test" if words[0] in ("test", "bench") else "serve"
    if not _is_ready(need):
        _set_up(need)
        # The first run keeps what it compiles of the libraries, or every later one would start by compiling.
        os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    command = [PYTHON, "-c", "import sys; from app.cli import run; sys.exit(run())"] + words
    if os.name == "nt":
        return subprocess.call(command, cwd=ROOT)
    os.chdir(ROOT)
    os.execv(PYTHON, command)


def _fingerprint(need):
    digest = hashlib.sha256()
    for name in (LOCKS[need], "pyproject.toml"):
        with open(os.path.join(ROOT, name), "rb") as file:
            digest.update(file.read())
    return digest.hexdigest()


def _is_ready(need):
    if not os.path.exists(PYTHON) or not os.path.exists(STAMP):
        return False
    with open(STAMP) as file:
        done = file.read().split()
    return any(_fingerprint(kind) in done for kind in (("test",) if need == "test" else ("serve", "test")))


def _set_up(need):
    print("Setting up .venv (once; needs the network) …", file=sys.stderr, flush=True)
    if os.path.exists(STAMP):
        os.remove(STAMP)
    uv = shutil.which("uv")
    if not os.path.exists(PYTHON):
        _make_environment(uv)
    _install(uv or _uv_inside(), need)
    with open(STAMP, "w") as file:
        file.write(_fingerprint(need))


def _make_environment(uv):
    if uv:
        _run([uv, "venv", "--quiet", "--python", ">=3.11", ENVIRONMENT], "make the environment")
        return
    python = _new_enough()
    if subprocess.call([python, "-c", "import venv, ensurepip"], stderr=subprocess.DEVNULL):
        _stop(
            "Python's own 'venv' module is missing. On Debian or Ubuntu: "
            "apt install python3-venv. Elsewhere install Python 3.11 or newer from python.org's packages, or uv."
        )
    _run([python, "-m", "venv", "--without-pip", ENVIRONMENT], "make the environment")


def _new_enough():
    if sys.version_info >= (3, 11):
        return sys.executable
    for name in ("python3.14", "python3.13", "python3.12", "python3.11"):
        found = shutil.which(name)
        if found:
            return found
    _stop(
        "Throughline needs Python 3.11 or newer; this is %d.%d and no newer one is on the path." % sys.version_info[:2]
    )


def _uv_inside():
    """A uv inside the environment: it installs in a third of pip's time; None where it can't be had.

    The pip of the Python that made the environment brings it (pip 22.3 or newer can); only where that one is old or
    missing does the environment get a pip of its own, which takes longer than all the rest.
    """
    inside = os.path.join(ENVIRONMENT, FOLDER, "uv.exe" if os.name == "nt" else "uv")
    if not os.path.exists(inside) and _quietly([_new_enough(), "-m", "pip", "--python", PYTHON, "install", "uv"]):
        _quietly([PYTHON, "-m", "ensurepip"])
        _quietly([PYTHON, "-m", "pip", "install", "uv"])
    return inside if os.path.exists(inside) else None


def _quietly(command):
    return subprocess.call(command, cwd=ROOT, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)


def _install(uv, need):
    """Install the locked libraries; for the tests compiled ahead, since many processes at once would compile them."""
    lock = LOCKS[need]
    path = os.path.join(ROOT, lock)
    ahead = ["--compile-bytecode"] if need == "test" else []
    if uv:
        start = [uv, "pip"]
        there = ["--python", PYTHON]
        _run(
            start + ["install", "--quiet", "--require-hashes", "-r", path] + ahead + there,
            "install " + lock,
        )
    else:
        start = [PYTHON, "-m", "pip"]
        there = []
        _run(start + ["install", "--quiet", "--require-hashes", "-r", path], "install " + lock)
    _run(
        start + ["install", "--quiet", "--no-deps", "--no-build-isolation", "-e", ROOT] + there,
        "install Throughline itself",
    )


def _run(command, purpose):
    if subprocess.call(command, cwd=ROOT):
        _stop("Could not %s. The lines above say why; the command was:\n  %s" % (purpose, " ".join(command)))


def _stop(sentence):
    print(sentence, file=sys.stderr)
    sys.exit(1)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
