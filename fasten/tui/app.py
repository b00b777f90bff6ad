"""The screen: everything that can be done with a job, its box and the shelf, over the four places."""

from textual.widget import Widget

from fasten.tui.box import BoxPlace
from fasten.tui.box_actions import BoxActions
from fasten.tui.job_actions import JobActions


class FastenApp(BoxActions, JobActions):
    """One job in hand, saved as it changes."""

    CSS_PATH = "style.tcss"

    def made(self, name: str) -> Widget:
        """A place, when it is first wanted; what it needs is imported only then."""
        if name == "look":
            from fasten.tui.lookup import LookPlace

            return LookPlace(self.tables, blink=self.blink)
        if name == "box":
            return BoxPlace(self.tables, self.work_beside)
        from fasten.tui.shelf import ShelfPlace

        return ShelfPlace()

    def arrived(self, name: str) -> None:
        """Show in a place what has changed since it was left."""
        if name == "box":
            self.query_one("#box", BoxPlace).arrive()
            self.show_box()
        elif name == "shelf":
            self.show_shelf()
        elif name == "mounts":
            self.mounts.work_out_now()  # by what the shelf holds now

    def can(self, name: str) -> bool:
        """Whether there is anything to do an action to, as things are."""
        if name in ("rename", "as_built", "instead"):
            return self.open_job.mount is not None
        if name in ("undo", "redo"):
            steps = self.open_shelf if self.place == "shelf" else self.open_job
            return steps.can_undo if name == "undo" else steps.can_redo
        if name == "compare":
            return self.mounts.first_answer() is not None
        if name == "remove_mount":
            return self.open_job.at is not None
        return name != "all_mounts" or len(self.open_job.job.mounts) > 0

    def action_undo(self) -> None:
        """Take the last change back: of the shelf where that is in view, else of the job."""
        if self.place == "shelf":
            self.step_shelf(back=True)
        else:
            super().action_undo()

    def action_redo(self) -> None:
        """Make it again."""
        if self.place == "shelf":
            self.step_shelf(back=False)
        else:
            super().action_redo()
