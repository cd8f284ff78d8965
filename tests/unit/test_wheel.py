"""Does an installed wheel carry what a learner gets, and nothing of the instructor's?"""

from __future__ import annotations

import subprocess
import sys
import tarfile
import zipfile

import pytest
import twostroke
import yaml
from twostroke import resources

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    """The wheel, built as for an index (fetches the build tool from there)."""
    folder = tmp_path_factory.mktemp("wheel")
    done = subprocess.run(
        [
            sys.executable,
            "-m",
            "pip",
            "wheel",
            "--quiet",
            "--no-deps",
            "--wheel-dir",
            str(folder),
            str(resources.clone()),
        ],
        capture_output=True,
        text=True,
    )
    assert done.returncode == 0, done.stderr
    return next(folder.glob("*.whl"))


def test_is_everything_of_the_learners_in_the_wheel(wheel) -> None:
    names = set(zipfile.ZipFile(wheel).namelist())
    top = resources.clone()
    wanted = {f"twostroke/_course/lessons/{path.name}" for path in resources.lessons().glob("*.ipynb")}
    wanted |= {
        f"twostroke/_course/release/{path.relative_to(top / 'release')}"
        for path in (top / "release").glob("*/*")
    }
    wanted |= {
        f"twostroke/{path.relative_to(top / 'course/twostroke').as_posix()}"
        for path in (top / "course/twostroke").rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }
    assert wanted <= names


def test_is_nothing_of_the_instructors_in_the_wheel(wheel) -> None:
    archive = zipfile.ZipFile(wheel)
    for name in archive.namelist():
        assert name.startswith(("twostroke/", "twostroke-")), name
        assert "/text/" not in name
        if name.endswith(".ipynb"):
            assert "BEGIN SOLUTION" not in archive.read(name).decode("utf-8")
            assert "BEGIN HIDDEN" not in archive.read(name).decode("utf-8")


def test_does_an_installed_wheel_lay_out_the_course(wheel, tmp_path) -> None:
    """Unpacked away from the clone, the package finds its own lessons and labs."""
    zipfile.ZipFile(wheel).extractall(tmp_path / "site")
    program = (
        "from twostroke import resources, workspace\n"
        "assert resources.repository() is None\n"
        f"print(*workspace.lay_out({str(tmp_path / 'w')!r}).new, sep='\\n')"
    )
    done = subprocess.run(
        [sys.executable, "-c", f"import sys; sys.path.insert(0, {str(tmp_path / 'site')!r})\n{program}"],
        capture_output=True,
        text=True,
        cwd=tmp_path,
    )
    assert done.returncode == 0, done.stderr
    laid = set(done.stdout.splitlines())
    there = {path.relative_to(tmp_path / "w").as_posix() for path in (tmp_path / "w").rglob("*.*")}
    assert laid == {name for name in there if not name.startswith(".two-stroke")}
    top = resources.clone()
    assert {name for name in laid if name.startswith("lessons/")} == {
        f"lessons/{path.name}" for path in resources.lessons().glob("*.ipynb")
    }
    assert {name for name in laid if name.endswith(".ipynb") and name.startswith("labs/")} == {
        f"labs/{path.parent.name}/{path.name}" for path in (top / "release").glob("*/*.ipynb")
    }
    assert "cards/cards.pdf" in laid


WITHOUT_EXTRAS = "for name in ('nbgrader', 'sqlalchemy', 'cryptography'): sys.modules[name] = None\n"
WORDS = [
    ("grade --demo", "needs the teach extra"),
    ("report 01", "needs the teach extra"),
    ("exam tickets a", "needs the teach extra"),
    ("record plan a", "needs the teach extra"),
    ("shop people", "needs the teach extra"),
    ("build --check", "needs a clone of the course"),
    ("lab new 16 Title", "needs a clone of the course"),
    ("table renew", "needs a clone of the course"),
]
WITH_EXTRAS = [
    ("grade --demo --trust", "needs a clone of the course"),
    ("release 01", "name a folder for the class"),
    ("release 01 --home class", "copy its folder source there"),
    ("release --home class", "copy its folder source there"),
    ("record plan a", "name a folder for the class"),
]


@pytest.mark.parametrize(
    ("start", "words"), [(WITHOUT_EXTRAS, WORDS), ("", WITH_EXTRAS)], ids=["learner", "teach"]
)
def test_is_what_a_wheel_cannot_do_said_in_words(wheel, tmp_path, start, words) -> None:
    """All in one process, as each command loads much; a trace would end it."""
    zipfile.ZipFile(wheel).extractall(tmp_path / "site")
    program = (
        f"import sys; sys.path.insert(0, {str(tmp_path / 'site')!r})\n{start}"
        "from twostroke.cli import main\n"
        f"for words in {[line for line, _ in words]!r}:\n"
        "    try: main(words.split())\n"
        "    except SystemExit as left: print(left.code, '|', file=sys.stderr)\n"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    said = [part.strip() for part in done.stderr.split("|")[:-1]]
    assert len(said) == len(words)
    for (line, wanted), part in zip(words, said, strict=True):
        assert wanted in part, (line, part)
        assert part.endswith("1"), (line, part)


@pytest.fixture(scope="module")
def from_sdist(tmp_path_factory):
    """The wheel that the source distribution gives, and the names in that distribution."""
    folder = tmp_path_factory.mktemp("sdist")
    build = [sys.executable, "-m", "hatchling", "build", "--directory", str(folder)]
    subprocess.run([*build, "--target", "sdist"], cwd=resources.clone(), check=True, capture_output=True)
    (archive,) = folder.glob("*.tar.gz")
    with tarfile.open(archive) as packed:
        names = {name.partition("/")[2] for name in packed.getnames()}
        packed.extractall(folder / "apart", filter="data")
    (apart,) = (folder / "apart").iterdir()
    subprocess.run([*build, "--target", "wheel"], cwd=apart, check=True, capture_output=True)
    (made,) = folder.glob("*.whl")
    return made, names


def test_does_the_source_distribution_give_the_same_wheel(from_sdist, wheel) -> None:
    made, names = from_sdist
    one, other = zipfile.ZipFile(made), zipfile.ZipFile(wheel)
    assert set(one.namelist()) == set(other.namelist())
    for name in one.namelist():
        assert name.endswith("/RECORD") or one.read(name) == other.read(name), name
    assert {"README.md", "DEVELOPERS.md", "pyproject.toml", "course/__main__.py", ".ci/run"} <= names
    assert not {name for name in names if name.startswith("autograde/") and name.endswith((".db", ".key"))}


def test_is_there_one_version_with_its_licences(wheel) -> None:
    archive = zipfile.ZipFile(wheel)
    (about,) = [name for name in archive.namelist() if name.endswith(".dist-info/METADATA")]
    said = archive.read(about).decode("utf-8")
    assert f"\nVersion: {twostroke.__version__}\n" in said
    citation = yaml.safe_load((resources.clone() / "assets/CITATION.cff").read_text(encoding="utf-8"))
    assert citation["version"] == twostroke.__version__
    log = (resources.clone() / "DEVELOPERS.md").read_text(encoding="utf-8")
    assert f"\n### {twostroke.__version__}" in log
    licences = {name.rsplit("/", 1)[1] for name in archive.namelist() if ".dist-info/licenses/" in name}
    assert {"MIT.txt", "DejaVu-fonts.txt", "README.md"} <= licences
