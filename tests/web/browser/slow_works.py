"""Works that take as long as a test likes: the pages cannot tell them from those with processes."""

from __future__ import annotations

import asyncio
from dataclasses import replace

from counterhoop.bench.long_work.answers import Working, failed
from counterhoop.bench.long_work.at_once import WorksAtOnce


class SlowWorks(WorksAtOnce):
    """Plans are under way until ``finish``; each may be stopped and begun again."""

    def __init__(self, at_once):
        super().__init__()
        self.at_once = at_once
        self.asked = {}
        self.says, self.share, self.finished = "schemes for the small tom", 0.25, False
        self.stopped = set()
        self.began = 0

    def ask(self, asked):
        if asked.id not in self.asked:
            self.began += 1
        self.asked[asked.id] = asked
        return self._answer(asked.id)

    def wait(self, id_, seconds):
        return self._answer(id_)

    def stop(self, id_):
        self.stopped.add(id_)
        return self._answer(id_)

    def again(self, id_):
        self.stopped.discard(id_)
        self.began += 1
        return self._answer(id_)

    def finish(self):
        self.finished = True

    async def events(self, id_):
        told = None
        while isinstance(self._answer(id_), Working):
            if told != (now := (self.says, self.share)):
                told = now
                yield now
            await asyncio.sleep(0.02)

    def _answer(self, id_):
        if id_ in self.stopped:
            return failed(id_, "stopped")
        if not self.finished:
            return Working(id=id_, says=self.says, share=self.share)
        return replace(self.at_once.ask(self.asked[id_]))
