-- What: identity of the store, liquids, leathers, judgements, changes.
-- Why: every judgement is kept with its input and the version that gave it; nothing is deleted, rows go to a bin.
create table identity (id text not null primary key) strict;
create table liquid (
  id text not null primary key,
  body text not null check (json_valid(body)),
  demo integer not null default 0 check (demo in (0, 1)),
  binned integer not null default 0 check (binned in (0, 1))
) strict;
create table leather (
  id text not null primary key,
  body text not null check (json_valid(body)),
  demo integer not null default 0 check (demo in (0, 1)),
  binned integer not null default 0 check (binned in (0, 1))
) strict;
create table judgement (
  id text not null primary key,
  title text not null,
  liquid text not null,
  leather text not null,
  grade text not null,
  kept_at text not null,
  version text not null,
  request text not null check (json_valid(request)),
  answer text not null check (json_valid(answer)),
  demo integer not null default 0 check (demo in (0, 1)),
  binned integer not null default 0 check (binned in (0, 1))
) strict;
-- Each change as an appended operation, so that copies of the records can be merged later.
create table change (
  id text not null primary key,
  at_ms integer not null,
  kind text not null,
  row_id text not null
) strict;
