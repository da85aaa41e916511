"""How the server's log is written."""

import structlog


def configure(as_json: bool) -> None:
    """Write lines for people, or JSON lines for a collector; never the values of variables, which may be secret."""
    last = (
        structlog.processors.JSONRenderer()
        if as_json
        else structlog.dev.ConsoleRenderer(colors=False, exception_formatter=structlog.dev.plain_traceback)
    )
    structlog.configure(
        processors=[
            structlog.processors.add_log_level,
            structlog.processors.TimeStamper(fmt="iso", utc=True),
            structlog.processors.format_exc_info,
            last,
        ]
    )
