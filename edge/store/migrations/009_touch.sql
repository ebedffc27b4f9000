-- What: the chart of the shelf: one cell for each liquid and leather, and the use that the chart is about.
-- Why: a cell is worth seconds of work; it is kept with the fingerprint of what it depends on, so that only what changed is worked out again.
-- A cell is no record: it can always be worked out anew, so it may be replaced.
create table touch_cell (
  liquid text not null,
  leather text not null,
  cell text not null check (json_valid(cell)),
  primary key (liquid, leather)
) strict;
create table touch_use (
  one integer not null primary key check (one = 1),
  use text not null check (json_valid(use))
) strict;
