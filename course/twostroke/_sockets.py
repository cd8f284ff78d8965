"""The learner's JupyterLab answers a slider at once.

The server sends several small messages for one slider step. Without the TCP option NODELAY the second one
waits until the browser has acknowledged the first, about 40 ms on Linux, which is most of the time from the
step to the drawing.
"""

from __future__ import annotations

from typing import Any

from jupyter_server.services.kernels.connection.channels import ZMQChannelsWebsocketConnection


class PromptConnection(ZMQChannelsWebsocketConnection):
    """Jupyter's own connection between browser and kernel, with NODELAY set."""

    def connect(self) -> Any:
        """Set the option, then connect as always."""
        self.websocket_handler.set_nodelay(True)
        return super().connect()
