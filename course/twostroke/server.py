"""JupyterLab for a learner: own settings beside the work, loopback only, with a token, quiet.

Nothing of the user's own Jupyter or IPython set-up is read or changed.
"""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from pathlib import Path

from twostroke.workspace import HIDDEN, START

_OFF_FOR_LEARNERS = (
    "create-assignment",
    "formgrader",
    "course-list",
    "assignment-list",
    "validate-assignment",
    "menu",
)
_SETTINGS = {
    "@jupyterlab/apputils-extension/notification": {"fetchNews": "false", "checkForUpdates": False},
    # The whole page stays in the document, for screen readers and for the browser's own search.
    "@jupyterlab/notebook-extension/tracker": {"windowingMode": "none"},
    # A saved lesson shows its controls again when it is opened, before anything was run.
    "@jupyter-widgets/jupyterlab-manager/plugin": {"saveState": True},
}


def settle(workspace: Path) -> dict[str, str]:
    """Write JupyterLab's settings into the workspace and tell the environment that points to them.

    Parameters
    ----------
    workspace : Path
        A workspace made by `twostroke.workspace.lay_out`.

    Returns
    -------
    dict
        Environment variables to start JupyterLab with.

    Notes
    -----
    Settings the learner has changed stay as they are. The instructor's parts of nbgrader are switched
    off, and so is its validation, which shows a bare error trace and calls a lab sound whose hidden checks it
    has not seen.
    """
    home = workspace / HIDDEN / "jupyter"
    config, settings = home / "config", home / "settings"
    _write(
        config / "labconfig" / "page_config.json",
        {"disabledExtensions": {f"@jupyter/nbgrader:{name}": True for name in _OFF_FOR_LEARNERS}},
    )
    for name, content in _SETTINGS.items():
        place = settings / f"{name}.jupyterlab-settings"
        if not place.exists():
            _write(place, content)
    return {
        "JUPYTER_CONFIG_DIR": str(config),
        "JUPYTER_DATA_DIR": str(home / "data"),
        "JUPYTER_RUNTIME_DIR": str(home / "runtime"),
        "JUPYTERLAB_SETTINGS_DIR": str(settings),
        "JUPYTERLAB_WORKSPACES_DIR": str(home / "workspaces"),
        "JUPYTER_PREFER_ENV_PATH": "1",
        "IPYTHONDIR": str(home / "ipython"),
        "TWOSTROKE_WORKSPACE": str(workspace),
    }


def command(workspace: Path, *, browser: bool = True, port: int | None = None) -> list[str]:
    """The command that serves a workspace.

    Parameters
    ----------
    workspace : Path
    browser : bool
        Open a browser window at "Start here".
    port : int, optional
        Default: 8888 or the next free one.

    Returns
    -------
    list of str
    """
    words = [
        sys.executable,
        "-m",
        "jupyterlab",
        "--ServerApp.ip=127.0.0.1",
        "--ServerApp.port_retries=50",
        f"--ServerApp.root_dir={workspace}",
        f"--LabApp.default_url=/lab/tree/{START}",
        "--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate",
        "--LabApp.extension_manager=readonly",
        "--ServerApp.kernel_websocket_connection_class=twostroke._sockets.PromptConnection",
        "--ServerApp.log_level=WARN",
    ]
    if port is not None:
        words += [f"--ServerApp.port={port}"]
    if not browser:
        words += ["--no-browser"]
    if getattr(os, "geteuid", lambda: 1)() == 0:
        words += ["--allow-root"]
    return words


def serve(workspace: Path, *, browser: bool = True, port: int | None = None) -> int:
    """Serve a workspace until the learner stops it; return JupyterLab's exit code.

    Ctrl-C reaches JupyterLab from the terminal itself, which asks back; an order to end is passed on, so that
    no server stays behind.
    """
    environment = {**os.environ, **settle(workspace)}
    process = subprocess.Popen(command(workspace, browser=browser, port=port), env=environment, cwd=workspace)
    before = signal.signal(signal.SIGTERM, lambda *_: process.terminate())
    try:
        while True:
            try:
                return process.wait()
            except KeyboardInterrupt:
                continue
    finally:
        signal.signal(signal.SIGTERM, before)


def _write(place: Path, content: object) -> None:
    place.parent.mkdir(parents=True, exist_ok=True)
    place.write_text(json.dumps(content, indent=1) + "\n", encoding="utf-8")
