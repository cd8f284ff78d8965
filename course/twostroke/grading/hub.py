"""JupyterHub for a class: each learner's server behind walls, in a room of its own.

The hub, its log-in page and its proxy are JupyterHub's own, with passwords by the hash authenticator and the
proxy written in Python. Here is only what a class of this course needs besides: who may come in, and what a
server can see.
"""

from __future__ import annotations

import os
import secrets
import shutil
import sys
from pathlib import Path
from typing import Any

from hashauthenticator.passwordhash import generate_password_digest
from jupyterhub.spawner import SimpleLocalProcessSpawner
from traitlets import Unicode

from twostroke import resources
from twostroke.grading.classlist import ClassList
from twostroke.grading.files import write_text
from twostroke.grading.place import Course
from twostroke.grading.rooms import COURSE, Rooms
from twostroke.grading.states import GradingError
from twostroke.grading.walls import environment, python_folders, system_folders

_PASSWORD_LENGTH = 16
_USER = "1000"
_HOME = "/class/work"
_EXCHANGE = "/exchange"
_NBGRADER = f'''"""nbgrader inside a learner's room."""
c = get_config()  # noqa: F821
c.Exchange.root = "{_EXCHANGE}"
c.Exchange.assignment_dir = "{_HOME}"
c.CourseDirectory.course_id = "{COURSE}"
'''
_LAB_PAGE = """{"disabledExtensions": {"@jupyter/nbgrader:formgrader": true,
"@jupyter/nbgrader:create-assignment": true, "@jupyter/nbgrader:course-list": true,
"@jupyter/nbgrader:validate-assignment": true,
"@jupyterlab/apputils-extension:announcements": true}}
"""


class WalledSpawner(SimpleLocalProcessSpawner):
    """Starts a learner's server inside bubblewrap: it sees its own room and what is handed out, no more.

    Notes
    -----
    No account on the machine is needed. The network stays open, because the server has to speak with the hub;
    what else listens on the loopback address must ask for a password of its own.
    """

    folder = Unicode(help="Folder of the hub: labs handed out and the learners' rooms.").tag(config=True)
    class_folder = Unicode(help="Folder of the class: class list, feedback.").tag(config=True)

    def _rooms(self) -> Rooms:
        return Rooms(Path(self.folder), Course.at(self.class_folder or None))

    async def start(self) -> tuple[str, int]:
        """Make the room where it is not there, and start the server in it."""
        rooms = self._rooms()
        learner = learner_of(rooms.course.classlist, self.user.name)
        rooms.prepare(learner)
        self.home_dir = str(rooms.room(learner))
        self.notebook_dir = "/class"
        self.cmd = [*walls(rooms, learner), sys.executable, "-m", "jupyterhub.singleuser"]
        self.args = [f"--ServerApp.preferred_dir={_HOME}"]
        started: tuple[str, int] = await super().start()
        return started

    def user_env(self, env: dict[str, str]) -> dict[str, str]:
        """Variables of the server: none of the hub's own user."""
        env.update(environment("/tmp"), HOME=_HOME, USER=self.user.name, SHELL="/bin/bash")
        return env


def learner_of(classlist: ClassList, name: str) -> str:
    """Return the learner who has logged in under a name.

    Raises
    ------
    GradingError
        When the class list does not know the name.

    Examples
    --------
    >>> from twostroke.grading.classlist import Learner
    >>> learner_of(ClassList(learner=(Learner(id="Learner-01"),)), "learner-01")
    'Learner-01'
    """
    found = classlist.find(name)
    if found is None:
        raise GradingError(
            f"{name}: not on the class list, so there is no room; the instructor can add the name"
        )
    return found.id


def walls(rooms: Rooms, learner: str) -> list[str]:
    """Return the bubblewrap command for a learner's server.

    Raises
    ------
    GradingError
        When bubblewrap is not installed.
    """
    if shutil.which("bwrap") is None:
        raise GradingError("bubblewrap is not installed; without it learners could read each other's work")
    shared = rooms.folder / "shared"
    write_text(rooms.room(learner) / "passwd", f"{learner}:x:{_USER}:{_USER}::{_HOME}:/bin/bash\n")
    write_text(shared / "nbgrader_config.py", _NBGRADER)
    write_text(shared / "page_config.json", _LAB_PAGE)
    command = ["bwrap", "--unshare-user", "--uid", _USER, "--gid", _USER, "--unshare-pid", "--unshare-ipc"]
    command += ["--unshare-uts", "--hostname", "class", "--die-with-parent"]
    command += ["--tmpfs", "/tmp", *system_folders(), *python_folders()]
    for source, target in (
        (rooms.room(learner, "passwd"), "/etc/passwd"),
        (Path("/etc/hosts"), "/etc/hosts"),
        (shared / "nbgrader_config.py", "/etc/jupyter/nbgrader_config.py"),
        (shared / "page_config.json", "/etc/jupyter/labconfig/page_config.json"),
        (resources.lessons(), "/class/lessons"),
        (rooms.outbound, f"{_EXCHANGE}/{COURSE}/outbound"),
        (rooms.room(learner, "feedback"), f"{_EXCHANGE}/{COURSE}/feedback"),
    ):
        command += ["--ro-bind", str(source), target]
    command += ["--bind", str(rooms.room(learner, "work")), _HOME]
    command += ["--bind", str(rooms.room(learner, "inbound")), f"{_EXCHANGE}/{COURSE}/inbound"]
    command += ["--proc", "/proc", "--dev", "/dev", "--chdir", _HOME]
    return command


def _password_key(folder: Path) -> str:
    """The hub's own secret from which each password comes; drawn once."""
    path = folder / "hub" / "password_key"
    path.parent.mkdir(parents=True, exist_ok=True)
    folder.chmod(0o700)
    try:
        handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    except FileExistsError:
        return path.read_text(encoding="ascii").strip()
    with open(handle, "w", encoding="ascii") as file:
        file.write(secrets.token_hex(32))
    return path.read_text(encoding="ascii")


def passwords(rooms: Rooms, others: tuple[str, ...] = ()) -> dict[str, str]:
    """Return the log-in name and password of each learner, to be handed out on slips.

    Parameters
    ----------
    rooms : Rooms
    others : tuple of str
        Further names, such as the instructor's.

    Returns
    -------
    dict of str to str
        Name -> password; the same at each call, as long as the hub's folder is the same.
    """
    key = _password_key(rooms.folder)
    names = [name.lower() for name in (*rooms.learners(), *others)]
    return {name: generate_password_digest(name, key, _PASSWORD_LENGTH) for name in names}


def configure(config: Any, folder: str | Path, class_folder: str | Path | None = None) -> None:
    """Set a hub up for a class; called from the hub's configuration file.

    Parameters
    ----------
    config : traitlets Config
        What ``get_config()`` gives in that file.
    folder : path
        For rooms, labs handed out and the hub's own data; only the user who runs the hub may read it.
    class_folder : path, optional
        With ``class.toml``; the autograde folder of the clone without it.

    Raises
    ------
    GradingError
        When the class list is empty.
    """
    place = Path(folder).expanduser().resolve()
    course = Course.at(class_folder)
    learners = Rooms(place, course).learners()
    data = place / "hub"
    config.JupyterHub.spawner_class = WalledSpawner
    config.WalledSpawner.folder = str(place)
    config.WalledSpawner.class_folder = str(course.home)
    config.Spawner.default_url = "/lab"
    config.Spawner.http_timeout = 120
    config.Spawner.start_timeout = 180
    config.JupyterHub.authenticator_class = "hashauthenticator.HashAuthenticator"
    config.Authenticator.allowed_users = {name.lower() for name in learners}
    config.HashAuthenticator.secret_key = _password_key(place)
    config.HashAuthenticator.password_length = _PASSWORD_LENGTH
    config.JupyterHub.bind_url = "http://127.0.0.1:8000"
    config.JupyterHub.db_url = f"sqlite:///{data / 'jupyterhub.sqlite'}"
    config.JupyterHub.cookie_secret_file = str(data / "cookie_secret")
    config.ConfigurableHTTPProxy.command = [str(Path(sys.executable).parent / "configurable-http-proxy")]
    config.ConfigurableHTTPProxy.pid_file = str(data / "proxy.pid")
