-- What: pieces as entries in the order of arrival, meters and their calibrations.
-- Why: an inspection is written down at the piece by several devices, sometimes without a network; what was entered is
-- never changed, and what stands is folded from it.
create table piece (
  id text not null primary key,
  name text not null,
  family text not null,
  changed_at text not null,
  demo integer not null default 0 check (demo in (0, 1)),
  binned integer not null default 0 check (binned in (0, 1))
) strict;
create table entry (
  number integer primary key,
  id text not null unique,
  piece text not null references piece (id),
  by_id text not null,
  by_name text not null,
  kept_at text not null,
  body text not null check (json_valid(body))
) strict;
create index entry_of_piece on entry (piece, number);
create table instrument (
  id text not null primary key,
  body text not null check (json_valid(body)),
  demo integer not null default 0 check (demo in (0, 1)),
  binned integer not null default 0 check (binned in (0, 1))
) strict;
create table calibration (
  id text not null primary key,
  instrument text not null references instrument (id),
  at text not null,
  body text not null check (json_valid(body))
) strict;
create index calibration_of_instrument on calibration (instrument, at);
