"""Plans the work backwards from the hour the cake must be ready.

It may import `units`, `sources`, `portions` and `buttercream`.

Map
---
`tasks`           `Task`, `Step`, `Timetable`, `NoRoom`
`working_hours`   `WorkingHours`, `read_hours`: when people work
`scheduling`      `schedule`: every task as late as it can be
`oven`            `Oven`, `oven_loads`: how many tins bake at one time
`cake_work`       `CakeJob`, `cake_tasks`: the usual tasks of a cake, in spells outside the fridge
`cake_plan`       `plan_cake`: the tasks scheduled, and buttercream warmed after a night in the fridge
`cold`            `time_out`: how long each tier stands outside the fridge
`advice`          `cautions`
`calendar_file`   `calendar_text`: the timetable as a calendar file
"""

from calc.timetable.advice import cautions
from calc.timetable.cake_plan import plan_cake, taken_cold
from calc.timetable.cake_work import OUT_MOST_MIN, PACE, CakeJob, RowWork, TierWork, cake_tasks, coated_area_dm2
from calc.timetable.calendar_file import calendar_text
from calc.timetable.cold import TimeOut, time_out
from calc.timetable.oven import SHELF_DEPTH_MM, SHELF_WIDTH_MM, SHELVES, Oven, oven_loads, tins_in_oven
from calc.timetable.scheduling import schedule
from calc.timetable.tasks import DAY_MIN, NoRoom, Step, Task, Timetable
from calc.timetable.working_hours import USUAL_HOURS, WorkingHours, read_hours

__all__ = [
    "DAY_MIN",
    "OUT_MOST_MIN",
    "PACE",
    "SHELF_DEPTH_MM",
    "SHELF_WIDTH_MM",
    "SHELVES",
    "USUAL_HOURS",
    "CakeJob",
    "NoRoom",
    "Oven",
    "RowWork",
    "Step",
    "Task",
    "TierWork",
    "TimeOut",
    "Timetable",
    "WorkingHours",
    "cake_tasks",
    "calendar_text",
    "cautions",
    "coated_area_dm2",
    "oven_loads",
    "plan_cake",
    "read_hours",
    "schedule",
    "taken_cold",
    "time_out",
    "tins_in_oven",
]
