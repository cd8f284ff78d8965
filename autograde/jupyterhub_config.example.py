"""A hub for one class. Copy this file to jupyterhub_config.py beside it, and read README.md beside it first.

Start it as a user of its own, not as root:  jupyterhub -f autograde/jupyterhub_config.py
"""

from twostroke.grading import hub

c = get_config()  # noqa: F821  (given by JupyterHub)

# Rooms of the learners, labs handed out, the hub's own data. The class list is class.toml beside this file.
hub.configure(c, folder="/srv/two-stroke-hub")

# Who may see and stop the learners' servers, at /hub/admin. Passwords: twostroke hub passwords
c.Authenticator.admin_users = {"instructor"}

# The hub listens on this machine alone. In a class room put a web server with TLS before it.
c.JupyterHub.bind_url = "http://127.0.0.1:8000"
