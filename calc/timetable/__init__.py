"""Plans the work backwards from the hour the cake must be ready. It may import `units`, `sources` and `buttercream`.

Map
---
`tasks`           `Task`, `Step`, `Timetable`, `NoRoom`
`working_hours`   `WorkingHours`, `read_hours`: when people work
`scheduling`      `schedule`: every task as late as it can be
`cake_work`       `cake_tasks`: the usual tasks of a cake; `cautions`
`calendar_file`   `calendar_text`: the timetable as a calendar file
"""

from calc.timetable.cake_work import RowWork, TierWork, cake_tasks, cautions, coated_area_dm2
from calc.timetable.calendar_file import calendar_text
from calc.timetable.scheduling import schedule
from calc.timetable.tasks import DAY_MIN, NoRoom, Step, Task, Timetable
from calc.timetable.working_hours import ALL_DAY, USUAL_HOURS, WorkingHours, read_hours

__all__ = [
    "ALL_DAY",
    "DAY_MIN",
    "USUAL_HOURS",
    "NoRoom",
    "RowWork",
    "Step",
    "Task",
    "TierWork",
    "Timetable",
    "WorkingHours",
    "cake_tasks",
    "calendar_text",
    "cautions",
    "coated_area_dm2",
    "read_hours",
    "schedule",
]
