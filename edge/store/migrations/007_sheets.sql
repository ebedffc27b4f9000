-- What: data sheets, what was read of them, and what people said since.
-- Why: the file lies beside the database under its SHA-256 and never changes; the reading stays as the version that made it gave it;
-- a correction is appended, so that the sheet, the typed and the measured value all stay, each with its source.
create table sheet (
  number integer not null primary key,
  id text not null unique check (length(id) = 64),
  bytes integer not null check (bytes > 0),
  name text not null,
  arrived_at text not null,
  reading text not null check (json_valid(reading)),
  product text not null,
  supplier text not null,
  revision_date text not null,
  to_look integer not null,
  contradictions integer not null,
  liquid text not null,
  binned integer not null default 0 check (binned in (0, 1))
) strict;
create table sheet_correction (
  number integer not null primary key,
  id text not null unique,
  sheet text not null references sheet (id),
  key text not null,
  value text not null,
  how text not null check (how in ('typed', 'measured')),
  by_name text not null,
  at text not null
) strict;
create index sheet_correction_of_sheet on sheet_correction (sheet, number);
