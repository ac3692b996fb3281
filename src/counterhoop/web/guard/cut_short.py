"""A request that is broken off while its body is still coming in, with an answer all the same."""

from __future__ import annotations

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from counterhoop.web.guard.answer import answer


class CutShort(Exception):
    """The body of a request is not read further; carries the answer to give."""

    def __init__(self, status: int, *, says: str) -> None:
        self.status = status
        self.says = says
        super().__init__(says)


async def run_unless_cut(app: ASGIApp, scope: Scope, receive: Receive, send: Send) -> None:
    """Run an app whose ``receive`` may raise ``CutShort``, and give that answer instead of its own.

    An app may turn the exception into an answer of its own, a 400 or a 500, or hide it altogether:
    whatever it says after the cut is not sent.
    """
    cut: CutShort | None = None
    started = False

    async def watched() -> Message:
        nonlocal cut
        if cut is not None:
            raise cut
        try:
            return await receive()
        except CutShort as reason:
            cut = reason
            raise

    async def gated(message: Message) -> None:
        nonlocal started
        if cut is None:
            started = True
            await send(message)

    try:
        await app(scope, watched, gated)
    except Exception:
        if cut is None:
            raise
    # A half-sent answer is left unfinished: the server then drops the connection.
    if cut is not None and not started:
        await answer(send, cut.status, says=cut.says)
