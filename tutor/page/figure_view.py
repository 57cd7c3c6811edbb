"""The figure beside the question, drawn to scale, with the labels as they are typed."""

from collections.abc import Callable, Mapping

from textual import events
from textual.content import Content

from tutor.lesson.model import Problem
from tutor.page.clerk import Clerk
from tutor.page.desk_source import Draw, has_picture
from tutor.page.lettering import fold
from tutor.page.still import Still
from tutor.visible import visible


class FigureView(Still):
    """Draws away from the event loop; only the newest drawing is shown."""

    def __init__(self, draw: Draw, clerk: Clerk, *, id: str | None = None) -> None:  # noqa: A002
        super().__init__(id=id, fixed=True)
        self._draw = draw
        self._clerk = clerk
        self._problem: Problem | None = None
        self._labels: Mapping[str, str] = {}
        self._number = 0
        self._drawn: object = None  # what the newest drawing shows

    def show_figure(self, problem: Problem, labels: Mapping[str, str]) -> None:
        """Show the problem's figure with these labels; nothing where it has none."""
        self._problem, self._labels = problem, dict(labels)
        self.set_class(not has_picture(problem), "-none")
        self._redraw()

    def on_resize(self, _event: events.Resize) -> None:
        """Draw again to the new size."""
        self._redraw()

    def _redraw(self) -> None:
        problem, size = self._problem, self.size
        if problem is None or not has_picture(problem) or not size.width or not size.height:
            return
        labels = self._labels
        wanted = (problem, tuple(labels.items()), size)
        if wanted == self._drawn:
            return  # most lines leave the figure as it is
        self._drawn = wanted
        self._number += 1
        self.run_worker(
            self._show(self._number, lambda: self._draw(problem, labels, size.width, size.height))
        )

    async def _show(self, number: int, wanted: Callable[[], tuple[tuple[str, ...], str]]) -> None:
        def unless_old() -> tuple[tuple[str, ...], str]:
            # A window that is pulled larger asks for many drawings, of which the last one is wanted.
            return wanted() if number == self._number else ((), "")

        try:
            rows, sentence = await self._clerk.ask(unless_old)
        except Exception as bug:
            # The work must go on without its figure.
            self.log.error(f"the figure failed: {bug!r}")
            rows, sentence = (), "The figure could not be drawn."
        if number != self._number:
            return
        if rows:
            self.show(Content("\n".join(map(visible, rows))))
        else:
            self.show(Content.assemble(("\n".join(fold(visible(sentence), self.size.width)), "$quiet")))
