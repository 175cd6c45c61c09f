"""A second solution of the hour-credit program, to hold the product against.

What is solved, for one trainee:

- `c[e,p]`: what entry `e` earns if wholly credited to category `p` (its minutes, replaced by the first matching
  `sessions` line, rounded down, times the first matching weight); 0 where `p` does not accept it, its state does not
  count, it is outside the window, lapsed, after the day of assessment, or before a gate of `p` opens.
- `x[e,p] <= c[e,p]`, the credit given, with `sum over p of x[e,p] / c[e,p] <= 1`; `f[k,p] >= 0`, further minutes of
  kind `k`, a combination of values of all fields that a rule touching `p` names, "a new one" among them.
- floors, caps, totals, variety and choices over credited plus further minutes; `day`, `week` and `session` caps bind
  the credited minutes alone.
- in this order: least further; most credited; most credited to the categories as declared; earliest entries first
  (least sum of place times credit, the place being that among all the trainee's entries, in (date, id) order).
- an empty value binds no cap and counts in no variety, so an entry without a session is under no `session` cap.
- a set is refused only if nobody could meet it: a rule that a choice may leave out refuses nothing.

`documents` reads the files with PyYAML and csv; `credit` is `c`; `answer` writes the rows, one variable per entry and
category and per full kind; `program` hands them to scipy.optimize.milp. `strategies` and `hard_cases` invent sets and
logs; `command` runs the product; `comparing` lists the differences. Nothing is shared with the product but the
command line that is under test.
"""
